"""A making sheet whole, ready to be shown or printed: everything on it worked out, nothing left to compute."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, select

from rebuild.errors import NotThere, RebuildError
from rebuild.model.all import (
    Concession,
    Feature,
    Instrument,
    Machine,
    MakingDimension,
    MakingSheet,
    MakingStep,
    MakingTool,
    Part,
    Reading,
    Subassembly,
)
from rebuild.model.enums import LimitsFrom, MakingProgress, PartShape
from rebuild.trade.cautions import Caution, caution, suggest
from rebuild.trade.drawing.ink import Drawing
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.drawing.shapes import draw, drawable
from rebuild.trade.fit_words import range_words
from rebuild.trade.limits.judgement import Rule
from rebuild.trade.making.blank import blank_of, blank_words
from rebuild.trade.making.data import DataBlock, blocks
from rebuild.trade.making.derive import Designations, thread_shown
from rebuild.trade.making.limits import inward
from rebuild.trade.making.roles import role
from rebuild.trade.making.words import filled, plain_words
from rebuild.trade.materials import find_material
from rebuild.trade.show import DECIMALS, show_length
from rebuild.trade.working import Working
from rebuild.work.lookup.as_made import MadeValue, values
from rebuild.work.lookup.judging import instrument_limits
from rebuild.work.lookup.making import SETTLED, SheetState, state_of
from rebuild.work.lookup.making_limits import MateLimits, of_part, since


@dataclass(frozen=True, slots=True)
class MateRow:
    """A mate: which feature, what it reads now, with what, when, whether that is final, what is wanted with it."""

    fit_id: int
    own_feature: str
    mate: str
    reads: tuple[str, ...]
    known_to: str
    instrument: str
    final: bool
    wait: str
    wanted: str
    trouble: str


@dataclass(frozen=True, slots=True)
class SizeRow:
    """One size of the sheet with its limits in words, where they come from, and its as-made values."""

    id: int
    role: str
    name: str
    kind: str
    measure: Measure
    typed: str
    words: str
    other_unit: str
    limits_from: LimitsFrom
    source: str
    feature_id: int | None
    measured_with: str
    note: str
    made: tuple[MadeValue, ...]
    working: Working | None


@dataclass(frozen=True, slots=True)
class StepRow:
    """One step, its braces filled; ``text`` is as stored."""

    id: int
    what: str
    text: str
    machine: str
    hold: str
    tool: str
    speed: str
    feed: str
    leave: str
    measure: bool
    done_at: dt.datetime | None
    note: str


@dataclass(frozen=True, slots=True)
class ToolRow:
    """One tool, its braces filled; ``text`` is as stored."""

    id: int
    what: str
    text: str
    why: str
    in_hand: bool


@dataclass(frozen=True, slots=True)
class SheetPage:
    """Everything on one making sheet."""

    id: int
    part_id: int
    part_code: str
    part_name: str
    machine: str
    subassembly: str
    spare_of: str
    handedness: str
    quantity: int
    attempt: int
    shape: PartShape
    progress: MakingProgress
    state: SheetState
    unit: str
    started_at: dt.datetime | None
    looked_at: dt.datetime | None
    why: str
    do_not_copy: str
    mates: tuple[MateRow, ...]
    sizes: tuple[SizeRow, ...]
    data: tuple[DataBlock, ...]
    material: str
    material_note: str
    blank: str
    blank_trouble: str
    blank_working: Working | None
    blank_at: str
    bar_skin: str
    thread: str
    taper: str
    gear: str
    key: str
    finish: str
    allow_uncertainty: bool
    steps: tuple[StepRow, ...]
    tools: tuple[ToolRow, ...]
    cautions: tuple[Caution, ...]
    waits: tuple[str, ...]
    stale: tuple[str, ...]
    drawing: Drawing | None
    drawing_trouble: str
    concessions: tuple[str, ...]
    made_at: dt.datetime | None
    settled_at: dt.datetime | None
    settled_by: str
    settled_note: str
    trial_fit: str
    marked: str
    note: str

    @property
    def part(self) -> str:
        """``AP-12 bush``."""
        return f"{self.part_code} {self.part_name}".strip()

    @property
    def settled(self) -> bool:
        """Whether nothing on it changes any more."""
        return self.progress in SETTLED


def sheet_page(connection: Connection, sheet_id: int, rule: Rule = Rule.CONFORMANCE_95) -> SheetPage:
    """One sheet whole. Raises NotThere."""
    stored = connection.execute(
        select(
            MakingSheet, Part.code, Part.name, Part.handedness, Part.spare_of_id, Machine.name.label("machine"),
            Subassembly.name.label("subassembly"),
        )
        .join(Part, Part.id == MakingSheet.part_id)
        .join(Machine, Machine.id == Part.machine_id)
        .outerjoin(Subassembly, Subassembly.id == Part.subassembly_id)
        .where(MakingSheet.id == sheet_id)
    ).first()  # fmt: skip
    if stored is None:
        raise NotThere(
            f"The making sheet no. {sheet_id} is no longer there.", way_out="It may have been removed."
        )
    limits = instrument_limits(connection)
    asked = of_part(
        connection, stored.part_id, allow_uncertainty=stored.allow_uncertainty, rule=rule, limits=limits
    )
    return _page(connection, stored, asked, values(connection, sheet_id, rule, limits))


def _page(
    connection: Connection, row: Any, asked: Sequence[MateLimits], made: dict[int, tuple[MadeValue, ...]]
) -> SheetPage:
    shape, unit = row.shape.value, row.unit
    sizes = _sizes(connection, row, asked, made)
    by_role = {size.role: size.measure for size in sizes if size.role}
    named = Designations(row.thread, row.taper, row.gear, row.key)
    length = by_role.get("length")
    data = blocks(shape, named, unit, length.at_mm if length is not None and length.given else None)
    thread = next((text for block in data for label, text in block.lines if label == "thread"), row.thread)
    short_thread = thread.split(",")[0]
    steps = _steps(connection, row, by_role, short_thread)
    tools = _tools(connection, row, by_role, short_thread)
    settled = row.progress in SETTLED
    waits = (
        () if settled else tuple(dict.fromkeys(one.wait.sentence for one in asked if one.wait is not None))
    )
    drawing, trouble = _drawing(shape, by_role, unit, row.thread)
    blank, blank_trouble, blank_working = _blank(row, by_role)
    found = find_material(row.material) if row.material.strip() else None
    return SheetPage(
        id=row.id, part_id=row.part_id, part_code=row.code, part_name=row.name, machine=row.machine,
        subassembly=row.subassembly or "", spare_of=_part_title(connection, row.spare_of_id),
        handedness=row.handedness, quantity=row.quantity, attempt=row.attempt, shape=row.shape,
        progress=row.progress, state=state_of(row.progress, bool(waits)), unit=unit, started_at=row.started_at,
        looked_at=row.looked_at, why=row.why, do_not_copy=row.do_not_copy, mates=_mates(connection, asked, unit),
        sizes=sizes, data=data, material=row.material, material_note=found.note if found is not None else "",
        blank=blank, blank_trouble=blank_trouble, blank_working=blank_working, blank_at=row.blank_at,
        bar_skin=row.bar_skin, thread=row.thread, taper=row.taper, gear=row.gear, key=row.key, finish=row.finish,
        allow_uncertainty=row.allow_uncertainty, steps=steps, tools=tools,
        cautions=_cautions(row.material, steps), waits=waits, stale=() if settled else since(row.looked, asked),
        drawing=drawing, drawing_trouble=trouble, concessions=_concessions(connection, row), made_at=row.made_at,
        settled_at=row.settled_at, settled_by=row.settled_by, settled_note=row.settled_note,
        trial_fit=row.trial_fit, marked=row.marked, note=row.note,
    )  # fmt: skip


def _sizes(
    connection: Connection, row: Any, asked: Sequence[MateLimits], made: dict[int, tuple[MadeValue, ...]]
) -> tuple[SizeRow, ...]:
    found = []
    for line in connection.execute(
        select(MakingDimension)
        .where(MakingDimension.sheet_id == row.id)
        .order_by(MakingDimension.position, MakingDimension.id)
    ):
        measure = Measure(line.name, line.nominal_mm, line.low_mm, line.high_mm)
        mates = [one for one in asked if one.feature_id == line.feature_id]
        kind = role(row.shape.value, line.role)
        plain = kind is not None and not kind.is_length
        other = "" if plain or not measure.given else _in_other_unit(measure, row.unit)
        found.append(
            SizeRow(
                line.id, line.role, line.name, kind.kind if kind else "", measure, line.size_text,
                plain_words(row.shape.value, line.role, measure, row.unit), other, line.limits_from,
                _source(line, mates, measure), line.feature_id, line.measured_with, line.note,
                made.get(line.id, ()), next((one.working for one in mates if one.working is not None), None),
            )
        )  # fmt: skip
    return tuple(found)


def _in_other_unit(measure: Measure, unit: str) -> str:
    """The size in the other system, for the brackets, never rounded wider."""
    other = "mm" if unit == "in" else "in"
    low, high = inward(measure.low_mm, measure.high_mm, other)
    shown = Measure(measure.name, measure.nominal_mm, low, high)
    return plain_words("", "", Measure(measure.name, None, low, high) if low or high else shown, other)


#: What a size follows from, where it is worked out from another or from a designation.
_FOLLOWS = {
    "bore before pressing": "finished bore less 0.010 to 0.015 in", "bore": "minor diameter of the thread",
    "thread diameter": "major diameter of the thread", "big end": "the pin's number and length",
    "small end": "the pin's number and length", "width": "table of keys", "height": "table of keys",
    "outside diameter": "teeth and pitch", "pitch diameter": "teeth and pitch", "root diameter": "teeth and pitch",
}  # fmt: skip


def _source(line: Any, mates: Sequence[MateLimits], measure: Measure) -> str:
    """Where limits come from, as the sheet says it; or why there are none."""
    if not measure.given:
        trouble = next((one.trouble for one in mates if one.trouble), "")
        return trouble or "not given yet"
    if line.limits_from is LimitsFrom.MATE and mates:
        return f"to suit {' and '.join(one.mate.title for one in mates)}"
    return {
        LimitsFrom.MATE: "to suit its mate", LimitsFrom.SPEC: "spec of the feature",
        LimitsFrom.TABLE: _FOLLOWS.get(line.role, "from its table"),
        LimitsFrom.GENERAL: "ISO 2768-m", LimitsFrom.OLD_PART: "old part, ISO 2768-m", LimitsFrom.OWN: "as typed",
    }[line.limits_from]  # fmt: skip


def _mates(connection: Connection, asked: Sequence[MateLimits], unit: str) -> tuple[MateRow, ...]:
    instruments = _instruments(
        connection, [reading.reading_id for one in asked for reading in one.mate.readings]
    )
    named = select(Feature.id, Feature.name).where(Feature.id.in_([one.feature_id for one in asked]))
    names = {feature.id: feature.name for feature in connection.execute(named)}
    found = []
    for one in asked:
        known = max((reading.budget.U_mm for reading in one.mate.readings), default=None)
        found.append(
            MateRow(
                one.fit_id, names.get(one.feature_id, ""), one.mate.title,
                tuple(f"{r.station}: {r.words}" if r.station else r.words for r in one.mate.readings),
                f"± {show_length(known, unit, DECIMALS[unit] + 1)}" if known else "",
                ", ".join(dict.fromkeys(
                    instruments[r.reading_id] for r in one.mate.readings if r.reading_id in instruments
                )),
                one.wait is None, one.wait.sentence if one.wait is not None else "",
                _wanted(one), one.trouble,
            )
        )  # fmt: skip
    return tuple(found)


def _wanted(one: MateLimits) -> str:
    return one.wanted_text or range_words(None, None, one.unit)


def _instruments(connection: Connection, reading_ids: Sequence[int]) -> dict[int, str]:
    rows = connection.execute(
        select(Reading.id, Instrument.name)
        .join(Instrument, Instrument.id == Reading.instrument_id)
        .where(Reading.id.in_(reading_ids))
    )
    return {row.id: row.name for row in rows}


def _steps(connection: Connection, row: Any, sizes: dict[str, Measure], thread: str) -> tuple[StepRow, ...]:
    stored = connection.execute(
        select(MakingStep).where(MakingStep.sheet_id == row.id).order_by(MakingStep.position, MakingStep.id)
    )

    def fill(text: str) -> str:
        return filled(text, row.shape.value, sizes, row.unit, thread)

    return tuple(
        StepRow(
            step.id, fill(step.what), step.what, step.machine, step.hold, fill(step.tool), step.speed, step.feed,
            step.leave, step.measure, step.done_at, step.note,
        )
        for step in stored
    )  # fmt: skip


def _tools(connection: Connection, row: Any, sizes: dict[str, Measure], thread: str) -> tuple[ToolRow, ...]:
    stored = connection.execute(
        select(MakingTool).where(MakingTool.sheet_id == row.id).order_by(MakingTool.position, MakingTool.id)
    )
    return tuple(
        ToolRow(
            tool.id, filled(tool.what, row.shape.value, sizes, row.unit, thread), tool.what, tool.why, tool.in_hand
        )
        for tool in stored
    )  # fmt: skip


def _cautions(material: str, steps: Sequence[StepRow]) -> tuple[Caution, ...]:
    """The cautions the steps' words and the material call for; the chuck and the hands at any turning work."""
    words = " ".join(f"{step.what} {step.machine} {step.hold} {step.tool}" for step in steps)
    topics = list(suggest(words))
    found = find_material(material) if material.strip() else None
    if any(step.machine.startswith("lathe") for step in steps):
        topics += ["chuck", "hand-filing"]
    if found is not None and found.material.family in ("iron", "bronze"):
        topics.append("dust")
    return tuple(caution(topic) for topic in dict.fromkeys(topics))


def _drawing(shape: str, sizes: dict[str, Measure], unit: str, thread: str) -> tuple[Drawing | None, str]:
    if shape not in drawable():
        return None, ""
    try:
        return draw(shape, sizes, unit, thread_shown(thread, shape)), ""
    except RebuildError as trouble:
        return None, str(trouble)


def _blank(row: Any, sizes: dict[str, Measure]) -> tuple[str, str, Working | None]:
    if row.blank.strip():
        return row.blank, "", None
    found = find_material(row.material) if row.material.strip() else None
    if found is None:
        return "", "Name the material, and the blank follows.", None
    try:
        worked = blank_of(
            row.shape.value, sizes, found.material, skin=row.bar_skin, unit=row.unit, pieces=row.quantity
        )
    except RebuildError as trouble:
        return "", str(trouble), None
    return blank_words(worked.value, row.shape.value, row.unit), "", worked.working


def _concessions(connection: Connection, row: Any) -> tuple[str, ...]:
    """What was taken outside its limits on this attempt."""
    query = select(Concession.accepted, Concession.reason, Concession.accepted_by).where(
        Concession.part_id == row.part_id
    )
    if row.progress is not MakingProgress.ACCEPTED:
        return ()
    rows = connection.execute(query.where(Concession.accepted_at.between(row.started_at, row.settled_at)))
    return tuple(
        f"{one.accepted}: {one.reason}" + (f" ({one.accepted_by})" if one.accepted_by else "") for one in rows
    )


def _part_title(connection: Connection, part_id: int | None) -> str:
    if part_id is None:
        return ""
    row = connection.execute(select(Part.code, Part.name).where(Part.id == part_id)).first()
    return f"{row.code} {row.name}".strip() if row is not None else ""
