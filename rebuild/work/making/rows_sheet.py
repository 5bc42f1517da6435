"""A making sheet whole, ready to be shown or printed: everything on it worked out, nothing left to compute."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from sqlalchemy import Connection, select

from rebuild.errors import NotThere, RebuildError
from rebuild.model.tables.decisions import Concessions
from rebuild.model.tables.machines import Machines, Subassemblies
from rebuild.model.tables.making import MakingSheets, MakingSteps, MakingTools
from rebuild.model.tables.parts import Parts
from rebuild.trade.drawing.ink import Drawing
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.drawing.shapes import draw, drawable
from rebuild.trade.limits.judgement import Rule
from rebuild.trade.making.blank import blank_of, blank_words
from rebuild.trade.making.data import blocks
from rebuild.trade.making.derive import Designations, thread_shown
from rebuild.trade.making.words import filled
from rebuild.trade.results.cautions import Caution, caution, suggest
from rebuild.trade.results.working import Working
from rebuild.trade.shop.materials import find_material
from rebuild.words.making import MakingProgress
from rebuild.work.making.rows import SETTLED, state_of
from rebuild.work.making.rows_as_made import MadeValue, values
from rebuild.work.making.rows_limits import MateLimits, of_part, since
from rebuild.work.making.rows_sheet_lists import SheetPage, StepRow, ToolRow
from rebuild.work.making.rows_sheet_sizes import mates_of, sizes_of
from rebuild.work.readings.rows_judged import instrument_limits


class _Whose(NamedTuple):
    """The part a sheet is for, and where it belongs."""

    code: str
    name: str
    handedness: str
    spare_of_id: int | None
    machine: str
    subassembly: str | None


def sheet_page(connection: Connection, sheet_id: int, rule: Rule = Rule.CONFORMANCE_95) -> SheetPage:
    """One sheet whole. Raises NotThere."""
    stored = connection.execute(
        select(
            *MakingSheets.columns(), Parts.code, Parts.name, Parts.handedness, Parts.spare_of_id,
            Machines.name.label("machine"), Subassemblies.name.label("subassembly"),
        )
        .join(Parts, Parts.id == MakingSheets.part_id)
        .join(Machines, Machines.id == Parts.machine_id)
        .outerjoin(Subassemblies, Subassemblies.id == Parts.subassembly_id)
        .where(MakingSheets.id == sheet_id)
    ).first()  # fmt: skip
    if stored is None:
        raise NotThere(
            f"The making sheet no. {sheet_id} is no longer there.", way_out="It may have been removed."
        )
    limits = instrument_limits(connection)
    asked = of_part(
        connection, stored.part_id, allow_uncertainty=stored.allow_uncertainty, rule=rule, limits=limits
    )
    whose = _Whose(
        stored.code, stored.name, stored.handedness, stored.spare_of_id, stored.machine, stored.subassembly
    )
    return _page(
        connection, MakingSheets.of(stored), whose, asked, values(connection, sheet_id, rule, limits)
    )


def _page(
    connection: Connection,
    row: MakingSheets,
    whose: _Whose,
    asked: Sequence[MateLimits],
    made: dict[int, tuple[MadeValue, ...]],
) -> SheetPage:
    shape, unit = row.shape.value, row.unit
    sizes = sizes_of(connection, row, asked, made)
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
        id=row.id, part_id=row.part_id, part_code=whose.code, part_name=whose.name, machine=whose.machine,
        subassembly=whose.subassembly or "", spare_of=_part_title(connection, whose.spare_of_id),
        handedness=whose.handedness, quantity=row.quantity, attempt=row.attempt, shape=row.shape,
        progress=row.progress, state=state_of(row.progress, bool(waits)), unit=unit, started_at=row.started_at,
        looked_at=row.looked_at, why=row.why, do_not_copy=row.do_not_copy, mates=mates_of(connection, asked, unit),
        sizes=sizes, data=data, material=row.material, material_note=found.note if found is not None else "",
        blank=blank, blank_trouble=blank_trouble, blank_working=blank_working, blank_at=row.blank_at,
        bar_skin=row.bar_skin, thread=row.thread, taper=row.taper, gear=row.gear, key=row.key, finish=row.finish,
        allow_uncertainty=row.allow_uncertainty, steps=steps, tools=tools,
        cautions=_cautions(row.material, steps), waits=waits, stale=() if settled else since(row.looked, asked),
        drawing=drawing, drawing_trouble=trouble, concessions=_concessions(connection, row), made_at=row.made_at,
        settled_at=row.settled_at, settled_by=row.settled_by, settled_note=row.settled_note,
        trial_fit=row.trial_fit, marked=row.marked, note=row.note,
    )  # fmt: skip


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
            step.id, fill(step.what), step.what, step.machine, step.hold, fill(step.tool), step.speed, step.feed,
            step.leave, step.measure, step.done_at, step.note,
        )
        for step in stored
    )  # fmt: skip


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


def _blank(row: MakingSheets, sizes: dict[str, Measure]) -> tuple[str, str, Working | None]:
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
