"""What must hold of a record as a whole, whichever act changed it: codes, durations, one machine, reasons.

Each function either mends what follows from a change (the day of a decision) or refuses it in a sentence.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping

from sqlalchemy import select

from rebuild.errors import BadEntry
from rebuild.model.all import (
    Base,
    ChartLine,
    ChartTest,
    Clock,
    CutTest,
    Feature,
    Joint,
    Link,
    MatchedSet,
    OilPoint,
    Part,
    Question,
    Reading,
    RunLook,
    Station,
    Subassembly,
    Task,
    Waiting,
)  # fmt: skip
from rebuild.model.enums import Decision, FlowProof, QuestionState, TaskState
from rebuild.store.store import Tx
from rebuild.trade.quantity import parse_length
from rebuild.trade.spec_entry import SpecEntry, parse_spec
from rebuild.work import order, sound_true, sound_waiting

WANT_A_REASON = (Decision.REMAKE, Decision.BUY, Decision.REWORK, Decision.DEFER)


def now() -> dt.datetime:
    """The wall clock of the shop, to the second."""
    return dt.datetime.now().replace(microsecond=0)  # noqa: DTZ005 - one shop, one wall clock


def make_sound(tx: Tx, row: Base, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    """Settle a record whose fields ``typed`` were just set; ``before`` holds its columns until then.

    Raises:
        BadEntry: the record as a whole cannot stand like this.
    """
    rule = _RULES.get(type(row))
    if rule is not None:
        rule(tx, row, before, typed)


def refuse_taken_code(tx: Tx, machine_id: int, code: str, but: int | None = None) -> None:
    """Raise BadEntry when another part of the machine carries ``code``."""
    if not code:
        return
    with tx.session.no_autoflush:
        other = tx.session.scalar(
            select(Part).where(Part.machine_id == machine_id, Part.code == code, Part.id.is_not(but)).limit(1)
        )
    if other is not None:
        raise BadEntry(
            f"is already the code of “{other.name}”.",
            where="Code",
            value=code,
            way_out="Choose another; a tag must name one part.",
        )


def refuse_falling_durations(task: Task) -> None:
    """Raise BadEntry unless shortest ≤ likely ≤ longest, as far as they are given."""
    given = [minutes for minutes in (task.low_min, task.likely_min, task.high_min) if minutes is not None]
    if given != sorted(given):
        raise BadEntry(
            "do not rise from shortest to likely to longest.",
            where="Durations",
            value=" / ".join(f"{minutes:g}" for minutes in given),
            way_out="Give them in that order.",
        )


def refuse_no_reason(decision: Decision, reason: str) -> None:
    """Raise BadEntry when a decision that costs work or money comes without a reason."""
    if decision in WANT_A_REASON and not reason.strip():
        raise BadEntry(
            "is empty.",
            where="Reason",
            way_out=f"Say in a few words why to {decision.value}; you will ask yourself in a year.",
        )


_OF_A_MACHINE: dict[str, type[Subassembly] | type[Part] | type[MatchedSet] | type[Task]] = {
    "subassembly": Subassembly, "part": Part, "matched set": MatchedSet, "step": Task,
}  # fmt: skip


def refuse_other_machine(tx: Tx, machine_id: int, **ids: int | None) -> None:
    """Raise BadEntry when something referred to belongs to another machine.

    ``ids`` names what is referred to: ``subassembly``, ``part``, ``matched_set`` or ``step``.
    """
    for name, key in ids.items():
        called = name.replace("_", " ")
        if key is None:
            continue
        other = tx.get(_OF_A_MACHINE[called], key, called)
        if other.machine_id != machine_id:
            words = str(getattr(other, "title", "") or getattr(other, "name", ""))
            raise BadEntry(
                "belongs to another machine.",
                where=called.capitalize(),
                value=words,
                way_out="Choose one of the same machine.",
            )


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


def station_distance(name: str, unit: str) -> dict[str, object]:
    """The distance columns of a station whose name reads as a size; empty for ``near`` or ``12 o'clock``."""
    try:
        at = parse_length(name, unit)
    except BadEntry:
        return {}
    return {"at_text": at.text, "at_unit": at.unit, "at_mm": at.mm}


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


_RULES: dict[type[Base], Callable[..., None]] = {
    Part: _part,
    Feature: _feature,
    Station: _station,
    Reading: _reading,
    Task: _task,
    Link: _link,
    Joint: _joint,
    Clock: _clock,
    Waiting: _waiting,
    ChartTest: _chart_test,
    ChartLine: _chart_line,
    OilPoint: _oil_point,
    CutTest: _cut_test,
    RunLook: _run_look,
    Question: _question,
}
