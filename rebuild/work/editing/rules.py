"""What follows from a change of each kind of record, and what refuses it: one rule by table."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from rebuild.errors import BadEntry
from rebuild.model.records.charts import ChartLine, ChartTest
from rebuild.model.records.features import Feature, Station
from rebuild.model.records.joints import Joint
from rebuild.model.records.log import Question
from rebuild.model.records.lubrication import OilPoint
from rebuild.model.records.parts import Part
from rebuild.model.records.readings import Reading
from rebuild.model.records.run_in import CutTest, RunLook
from rebuild.model.records.steps import Link, Task
from rebuild.model.records.waiting import Clock, Waiting
from rebuild.store.tx import Tx
from rebuild.trade.limits.spec_entry import SpecEntry, parse_spec
from rebuild.words.decisions import Decision
from rebuild.words.log import QuestionState
from rebuild.words.lubrication import FlowProof
from rebuild.words.steps import TaskState
from rebuild.work.records import rules_charts as sound_true
from rebuild.work.records import rules_waiting as sound_waiting
from rebuild.work.records.rules import (
    now,
    refuse_falling_durations,
    refuse_no_reason,
    refuse_other_machine,
    refuse_taken_code,
    station_distance,
)
from rebuild.work.steps import rules_order as order


def _part(tx: Tx, row: Part, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    with tx.session.no_autoflush:
        if "code" in typed:
            refuse_taken_code(tx, row.machine_id, row.code, row.id)
        if "matched_set_id" in typed:
            refuse_other_machine(tx, row.machine_id, matched_set=row.matched_set_id)
        if row.spare_of_id is not None and row.spare_of_id == row.id:
            raise BadEntry("cannot be a spare of itself.", where="Spare of", value=row.name,
                           way_out="Choose the part it can stand in for.")  # fmt: skip
    if "decision" in typed or "decision_reason" in typed:
        refuse_no_reason(row.decision, row.decision_reason or "")
    if "decision" in typed and row.decision != before.get("decision"):
        row.decided_at = None if row.decision is Decision.OPEN else now()
    if "place_id" in typed and row.place_id != before.get("place_id"):
        row.placed_at = now()


def _feature(_tx: Tx, row: Feature, before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """A spec typed in the old unit keeps its meaning: the unit is written into it."""
    old = before.get("unit")
    if not row.spec_text or row.unit == old or not isinstance(old, str):
        return
    meant = _limits_mm(parse_spec_stored(row.spec_text, old, row))
    for text in (row.spec_text, f"{row.spec_text} {old}"):
        try:
            if _limits_mm(parse_spec(text, row.unit)) == meant:
                row.spec_text = text
                return
        except BadEntry:
            continue
    raise BadEntry(
        f"would change the meaning of the spec “{row.spec_text}”.",
        where="Unit",
        value=row.unit,
        way_out=f"Write the spec with its unit ({old}) first, then change the unit.",
    )


def parse_spec_stored(text: str, unit: str, row: Feature) -> SpecEntry:
    """A stored spec text read again; a comma that was settled when typed is settled the same way."""
    stored = (row.nominal_mm, row.low_mm, row.high_mm)
    for comma in (None, True, False):
        try:
            entry = parse_spec(text, unit, decimal_comma=comma)
        except BadEntry:
            continue
        if _limits_mm(entry) == stored:
            return entry
    return parse_spec(text, unit)


def _limits_mm(entry: SpecEntry) -> tuple[float | None, float | None, float | None]:
    nominal, low, high = (size.mm if size else None for size in (entry.nominal, entry.low, entry.high))
    return nominal, low, high


def _station(tx: Tx, row: Station, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    """A station named by a distance keeps name and distance together."""
    if "name" not in typed or "at" in typed:
        return
    feature = tx.get(Feature, row.feature_id, "feature")
    at = station_distance(row.name, feature.unit)
    if at or before.get("at_text") == before.get("name"):
        for column in ("at_text", "at_unit", "at_mm"):
            setattr(row, column, at.get(column))


def _reading(_tx: Tx, row: Reading, _before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    if "temperature_c" in typed:
        row.temperature_text = typed["temperature_c"].strip() or None


def _task(tx: Tx, row: Task, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    refuse_falling_durations(row)
    with tx.session.no_autoflush:
        if "part_id" in typed:
            refuse_other_machine(tx, row.machine_id, part=row.part_id)
    was, stored = before.get("state"), row.id is not None
    if row.state is TaskState.DONE and was is not TaskState.DONE:
        if stored:
            order.refuse_finishing(tx, row, now())
        if "done_at" not in typed:
            row.done_at = now()
    if was is TaskState.DONE and row.state is not TaskState.DONE and stored:
        order.refuse_reopening(tx, row)
    if row.state is TaskState.OPEN and was is TaskState.DONE and "done_at" not in typed:
        row.done_at = None


def _link(tx: Tx, row: Link, _before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    if "kind" in typed:
        before, after = tx.get(Task, row.before_id, "step"), tx.get(Task, row.after_id, "step")
        order.refuse_link(tx, before, after, row.kind)


def _joint(tx: Tx, row: Joint, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    with tx.session.no_autoflush:
        refuse_other_machine(tx, row.machine_id, part=row.part_id, step=row.task_id)
    sound_waiting.joint(row)
    if "tight" in typed and row.tight != before.get("tight"):
        row.set_at = now()


def _clock(_tx: Tx, row: Clock, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    sound_waiting.clock(row)


def _waiting(tx: Tx, row: Waiting, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    if row.machine_id is not None:
        with tx.session.no_autoflush:
            refuse_other_machine(tx, row.machine_id, part=row.part_id, step=row.task_id)
    sound_waiting.waiting(row)


def _chart_test(tx: Tx, row: ChartTest, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    with tx.session.no_autoflush:
        sound_true.chart_test(tx, row)


def _chart_line(_tx: Tx, row: ChartLine, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    sound_true.chart_line(row, before, typed)


def _oil_point(tx: Tx, row: OilPoint, _before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    with tx.session.no_autoflush:
        refuse_other_machine(tx, row.machine_id, part=row.part_id, step=row.task_id)
        sound_true.oil_point(tx, row)
    if "proof" in typed and "proved_at" not in typed and row.proof in (FlowProof.PROVED, FlowProof.BLOCKED):
        row.proved_at = now()


def _cut_test(_tx: Tx, row: CutTest, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    sound_true.cut_test(row)


def _run_look(_tx: Tx, row: RunLook, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    sound_true.run_look(row)


def _question(tx: Tx, row: Question, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    with tx.session.no_autoflush:
        if "part_id" in typed:
            refuse_other_machine(tx, row.machine_id, part=row.part_id)
        if "task_id" in typed:
            refuse_other_machine(tx, row.machine_id, step=row.task_id)
    if row.state not in (None, QuestionState.OPEN) and not (row.answer or "").strip():
        raise BadEntry("is empty.", where="Answer", way_out="Type what was found out, or what you assume.")
    if row.answer and row.answer != before.get("answer") and "answered_at" not in typed:
        row.answered_at = now()


RULES: dict[str, Callable[..., None]] = {
    "part": _part,
    "feature": _feature,
    "station": _station,
    "reading": _reading,
    "task": _task,
    "link": _link,
    "joint": _joint,
    "clock": _clock,
    "waiting": _waiting,
    "chart_test": _chart_test,
    "chart_line": _chart_line,
    "oil_point": _oil_point,
    "cut_test": _cut_test,
    "run_look": _run_look,
    "question": _question,
}
