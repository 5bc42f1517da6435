"""A making sheet whole, ready to be shown or printed: everything on it worked out, nothing left to compute."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from sqlalchemy import Connection, select

from rebuild.errors import NotThere, RebuildError
from rebuild.model.tables.decisions import Concessions
from rebuild.model.tables.machines import Machines, Subassemblies
from rebuild.model.tables.making import MakingSheets, MakingSteps, MakingTools
from rebuild.model.tables.parts import Parts
from rebuild.trade.drawing.details import with_details
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.drawing.shapes import draw, drawable
from rebuild.trade.limits.judgement import Rule
from rebuild.trade.making.derive import Designations, thread_name, thread_shown
from rebuild.trade.making.words import filled
from rebuild.trade.results.cautions import Caution, caution, suggest
from rebuild.trade.shop.materials import find_material
from rebuild.words.making import MakingProgress
from rebuild.work.making.rows import SETTLED, state_of
from rebuild.work.making.rows_as_made import MadeValue, values
from rebuild.work.making.rows_details import DetailRow, details_of
from rebuild.work.making.rows_fittings import fittings
from rebuild.work.making.rows_issue import SheetIssue, changed_since, issued_line, read_issue
from rebuild.work.making.rows_limits import MateLimits, of_part, since
from rebuild.work.making.rows_offered import offered
from rebuild.work.making.rows_owner import is_pitch_diameter, two_for_one
from rebuild.work.making.rows_plug import plugs
from rebuild.work.making.rows_sheet_blank import blank_in
from rebuild.work.making.rows_sheet_data import data_in, root_in
from rebuild.work.making.rows_sheet_lists import (
    SheetCourse,
    SheetDrawing,
    SheetHead,
    SheetOutcome,
    SheetPage,
    SizeRow,
    StepRow,
    ToolRow,
)
from rebuild.work.making.rows_sheet_sizes import mates_of, sizes_of, with_tight
from rebuild.work.readings.rows_judged import instrument_limits

#: The tables the lookups here ask.
READS = frozenset({
    "concession", "feature", "fit", "fitting", "instrument", "machine", "making_detail",
    "making_dimension", "making_sheet",
    "making_step", "making_tool", "part", "reading", "station", "subassembly",
})  # fmt: skip


class _PartOf(NamedTuple):
    """What is asked of the part a sheet is for."""

    code: str
    name: str
    handedness: str
    spare_of_id: int | None
    machine: str
    subassembly: str


class _Thread(NamedTuple):
    """The thread to be drawn: its designation, and its root as the sheet cuts it [mm]."""

    name: str
    root_mm: tuple[float, float] | None
    pitch: str = ""


def sheet_page(connection: Connection, sheet_id: int, rule: Rule = Rule.CONFORMANCE_95) -> SheetPage:
    """One sheet whole. Raises NotThere."""
    stored = connection.execute(
        select(
            *MakingSheets.columns(),
            Parts.code,
            Parts.name.label("part"),
            Parts.handedness,
            Parts.spare_of_id,
            Machines.name.label("machine"),
            Subassemblies.name.label("subassembly"),
        )
        .join(Parts, Parts.id == MakingSheets.part_id)
        .join(Machines, Machines.id == Parts.machine_id)
        .outerjoin(Subassemblies, Subassemblies.id == Parts.subassembly_id)
        .where(MakingSheets.id == sheet_id)
    ).first()
    if stored is None:
        raise NotThere(
            f"The making sheet no. {sheet_id} is no longer there.", way_out="It may have been removed."
        )
    limits = instrument_limits(connection)
    asked = of_part(
        connection, stored.part_id, allow_uncertainty=stored.allow_uncertainty, rule=rule, limits=limits
    )
    row = MakingSheets.of(stored)
    part = _PartOf(
        stored.code,
        stored.part,
        stored.handedness,
        stored.spare_of_id,
        stored.machine,
        stored.subassembly or "",
    )
    return _page(connection, row, part, asked, values(connection, sheet_id, rule, limits))


def _page(
    connection: Connection,
    row: MakingSheets,
    part: _PartOf,
    asked: Sequence[MateLimits],
    made: dict[int, tuple[MadeValue, ...]],
) -> SheetPage:
    shape, unit = row.shape.value, row.unit
    plug = plugs(connection, [row.part_id]).get(row.part_id)
    sizes = sizes_of(connection, row, asked, made, plug)
    by_role = {size.role: size.measure for size in sizes if size.role}
    named = Designations(row.thread, row.taper, row.gear, row.key)
    thread = thread_name(row.thread)
    steps = _steps(connection, row, by_role, thread)
    sizes = with_tight(sizes, shape, [step.text for step in steps], unit)
    pitch = next((one.words for one in sizes if is_pitch_diameter(one.name) and one.measure.given), "")
    shown = _Thread(row.thread, root_in(row, sizes, asked), pitch if row.thread.strip() else "")
    drawing, details = _drawing(shape, by_role, unit, shown, details_of(connection, row.id))
    return SheetPage(
        id=row.id,
        head=_head(connection, row, part),
        course=_course(
            row, asked, (plug.stale,) if plug is not None and plug.stale else (), _issue(row, sizes)
        ),
        blank=blank_in(row, by_role),
        mates=mates_of(connection, asked, unit),
        sizes=sizes,
        drawing=drawing,
        named=named,
        data=data_in(row, named, sizes, asked),
        steps=steps,
        tools=_tools(connection, row, by_role, thread),
        cautions=_cautions(row.material, steps),
        outcome=_outcome(connection, row),
        details=details,
        fittings=fittings(connection, row.part_id),
        clash=two_for_one(connection, row.id, row.thread, unit),
        offered=offered(connection, row.id),
    )


def _head(connection: Connection, row: MakingSheets, part: _PartOf) -> SheetHead:
    return SheetHead(
        row.part_id,
        part.code,
        part.name,
        part.machine,
        part.subassembly,
        _part_title(connection, part.spare_of_id),
        part.handedness,
        row.quantity,
        row.attempt,
        row.shape,
        row.unit,
        row.finish,
        row.started_at,
        row.why,
        row.do_not_copy,
    )


def _issue(row: MakingSheets, sizes: Sequence[SizeRow]) -> SheetIssue:
    """The issue a sheet is; of a draft also what is not as the last one had it."""
    draft = row.progress is MakingProgress.DRAFT
    now = [issued_line(one.id, row.shape.value, one.role, _bare(one.measure), row.unit) for one in sizes]
    changed = changed_since(read_issue(row.issued or ""), now) if draft and row.issue else ()
    # What an older program released has no number yet: it is the first.
    return SheetIssue(row.issue or (0 if draft else 1), row.issued_at, row.replaces or "", changed, draft)


def _bare(measure: Measure) -> Measure:
    """A size without the decimals it was typed with, as an issue keeps it."""
    return Measure(measure.name, measure.nominal_mm, measure.low_mm, measure.high_mm)


def _course(
    row: MakingSheets, asked: Sequence[MateLimits], plug: tuple[str, ...], issue: SheetIssue
) -> SheetCourse:
    """A settled sheet waits for nothing and is never refreshed; an accepted one says what has changed since."""
    waits: tuple[str, ...] = ()
    stale: tuple[str, ...] = ()
    if row.progress not in SETTLED:
        waits = tuple(dict.fromkeys(one.wait.sentence for one in asked if one.wait is not None))
        stale = (*since(row.looked, asked), *plug)
    later = since(row.looked, asked) if row.progress is MakingProgress.ACCEPTED else ()
    state = state_of(row.progress, bool(waits))
    return SheetCourse(row.progress, state, row.looked_at, row.allow_uncertainty, waits, stale, later, issue)


def _steps(
    connection: Connection, row: MakingSheets, sizes: dict[str, Measure], thread: str
) -> tuple[StepRow, ...]:
    stored = connection.execute(
        select(*MakingSteps.columns())
        .where(MakingSteps.sheet_id == row.id)
        .order_by(MakingSteps.position, MakingSteps.id)
    )

    def fill(text: str) -> str:
        return filled(text, row.shape.value, sizes, row.unit, thread)

    return tuple(
        StepRow(
            step.id,
            fill(step.what),
            step.what,
            step.machine,
            step.hold,
            fill(step.tool),
            step.speed,
            step.feed,
            step.leave,
            step.measure,
            step.done_at,
            step.note,
        )
        for step in stored
    )


def sheet_of_tool(connection: Connection, making_tool_id: int) -> int | None:
    """The sheet a tool is wanted by; None when it is no longer there."""
    return connection.execute(select(MakingTools.sheet_id).where(MakingTools.id == making_tool_id)).scalar()


def _tools(
    connection: Connection, row: MakingSheets, sizes: dict[str, Measure], thread: str
) -> tuple[ToolRow, ...]:
    stored = connection.execute(
        select(*MakingTools.columns())
        .where(MakingTools.sheet_id == row.id)
        .order_by(MakingTools.position, MakingTools.id)
    )
    return tuple(
        ToolRow(
            tool.id,
            filled(tool.what, row.shape.value, sizes, row.unit, thread),
            tool.what,
            tool.why,
            tool.in_hand,
        )
        for tool in stored
    )


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


def _drawing(
    shape: str, sizes: dict[str, Measure], unit: str, thread: _Thread, details: tuple[DetailRow, ...]
) -> tuple[SheetDrawing, tuple[DetailRow, ...]]:
    """The drawing with its details, and the details, each with why it is not on it."""
    if shape not in drawable():
        return SheetDrawing(None, ""), details
    try:
        noted = thread_shown(thread.name, shape, thread.root_mm)
        if noted is not None and thread.pitch:
            noted = replace(noted, pitch=thread.pitch)
        plain = draw(shape, sizes, unit, noted)
    except RebuildError as trouble:
        return SheetDrawing(None, str(trouble)), details
    drawn, told = plain, []
    for row in details:
        try:
            drawn = with_details(drawn, [row.detail], unit) if row.detail is not None else drawn
            told.append(row)
        except RebuildError as trouble:
            told.append(replace(row, words=f"{row.words}. Not drawn: {trouble}", trouble=str(trouble)))
    return SheetDrawing(drawn, ""), tuple(told)


def _outcome(connection: Connection, row: MakingSheets) -> SheetOutcome:
    return SheetOutcome(
        row.settled_at,
        row.settled_by,
        row.settled_note,
        _concessions(connection, row),
        row.trial_fit,
        row.marked,
        row.note,
    )


def _concessions(connection: Connection, row: MakingSheets) -> tuple[str, ...]:
    """What was taken outside its limits on this attempt."""
    query = select(Concessions.accepted, Concessions.reason, Concessions.accepted_by).where(
        Concessions.part_id == row.part_id
    )
    if row.progress is not MakingProgress.ACCEPTED:
        return ()
    rows = connection.execute(query.where(Concessions.accepted_at.between(row.started_at, row.settled_at)))
    return tuple(
        f"{one.accepted}: {one.reason}" + (f" ({one.accepted_by})" if one.accepted_by else "") for one in rows
    )


def _part_title(connection: Connection, part_id: int | None) -> str:
    if part_id is None:
        return ""
    row = connection.execute(select(Parts.code, Parts.name).where(Parts.id == part_id)).first()
    return f"{row.code} {row.name}".strip() if row is not None else ""
