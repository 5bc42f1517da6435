"""The machines of a file, and one machine's tree of subassemblies and parts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Label, func, select

from rebuild.model.tables.machines import Machines, Subassemblies
from rebuild.model.tables.making import MakingSheets
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.waiting import Waitings
from rebuild.words.decisions import Decision
from rebuild.words.machines import MachineKind, Scope
from rebuild.words.making import MakingProgress
from rebuild.words.parts import Identity, Origin
from rebuild.words.places import PlaceKind, place_words
from rebuild.words.steps import TaskState

#: The tables the lookups here ask.
READS = frozenset({"machine", "making_sheet", "part", "place", "subassembly", "task", "waiting"})

CLOSED = (TaskState.DONE, TaskState.LEFT_OUT)


@dataclass(frozen=True, slots=True)
class MachineRow:
    """One machine of the file with its counts."""

    id: int
    name: str
    kind: MachineKind
    model: str
    year: str
    unit: str
    scope: Scope
    parts: int
    tasks: int
    tasks_done: int


@dataclass(frozen=True, slots=True)
class SubassemblyRow:
    """One subassembly; ``tasks`` counts its own steps."""

    id: int
    parent_id: int | None
    code: str
    name: str
    position: int
    tasks: int
    tasks_done: int


@dataclass(frozen=True, slots=True)
class PartRow:
    """One part as the tree shows it; ``there`` says that what was decided came true: made, reworked, arrived.

    ``put_by``: it was put somewhere else than on the machine.
    """

    id: int
    subassembly_id: int | None
    code: str
    name: str
    quantity: int
    identity: Identity
    origin: Origin
    decision: Decision
    place: str
    position: int
    there: str = ""
    put_by: bool = False


def machines(connection: Connection) -> list[MachineRow]:
    """All machines in order."""
    parts = select(func.count()).where(Parts.machine_id == Machines.id).scalar_subquery()
    tasks = select(func.count()).where(Tasks.machine_id == Machines.id).scalar_subquery()
    done = (
        select(func.count()).where(Tasks.machine_id == Machines.id, Tasks.state.in_(CLOSED)).scalar_subquery()
    )
    rows = connection.execute(
        select(
            Machines.id,
            Machines.name,
            Machines.kind,
            Machines.model,
            Machines.year,
            Machines.unit,
            Machines.scope,
            parts,
            tasks,
            done,
        ).order_by(Machines.position, Machines.id)
    )
    return [MachineRow(*row) for row in rows]


def counts_of(connection: Connection, machine_id: int) -> tuple[int, int, int]:
    """The parts of one machine, its steps, and how many of them are done or left out."""
    parts = select(func.count()).where(Parts.machine_id == machine_id)
    steps = select(func.count(), func.count().filter(Tasks.state.in_(CLOSED))).where(
        Tasks.machine_id == machine_id
    )
    every, done = connection.execute(steps).one()
    return connection.execute(parts).scalar_one(), every, done


def machine_names(connection: Connection) -> dict[int, str]:
    """The name of each machine by id, in order; nothing is counted."""
    rows = connection.execute(select(Machines.id, Machines.name).order_by(Machines.position, Machines.id))
    return {row[0]: row[1] for row in rows}


def subassemblies(connection: Connection, machine_id: int) -> list[SubassemblyRow]:
    """A machine's subassemblies with the counts of their own steps, in sibling order."""
    counts = {
        row[0]: (row[1], row[2])
        for row in connection.execute(
            select(Tasks.subassembly_id, func.count(), func.count().filter(Tasks.state.in_(CLOSED)))
            .where(Tasks.machine_id == machine_id)
            .group_by(Tasks.subassembly_id)
        )
    }
    rows = connection.execute(
        select(
            Subassemblies.id,
            Subassemblies.parent_id,
            Subassemblies.code,
            Subassemblies.name,
            Subassemblies.position,
        )
        .where(Subassemblies.machine_id == machine_id)
        .order_by(Subassemblies.position, Subassemblies.id)
    )
    return [SubassemblyRow(*row, *counts.get(row.id, (0, 0))) for row in rows]


def parts(connection: Connection, machine_id: int, ids: Sequence[int] | None = None) -> list[PartRow]:
    """A machine's parts (or those of ``ids``) in the order of their subassembly."""
    query = (
        select(
            Parts.id,
            Parts.subassembly_id,
            Parts.code,
            Parts.name,
            Parts.quantity,
            Parts.identity,
            Parts.origin,
            Parts.decision,
            Places.kind,
            Places.name.label("place_name"),
            Parts.position,
            _newest_sheet(),
            _arrived(),
        )
        .select_from(Parts)
        .outerjoin(Places, Places.id == Parts.place_id)
        .where(Parts.machine_id == machine_id)
        .order_by(Parts.subassembly_id, Parts.position, Parts.id)
    )
    if ids is not None:
        query = query.where(Parts.id.in_(ids))
    return [
        PartRow(
            row.id,
            row.subassembly_id,
            row.code,
            row.name,
            row.quantity,
            row.identity,
            row.origin,
            row.decision,
            place_words(row.kind, row.place_name) if row.place_name else "",
            row.position,
            _there(row.decision, row.origin, row.sheet, bool(row.arrived)),
            bool(row.place_name) and row.kind is not PlaceKind.ON_THE_MACHINE,
        )
        for row in connection.execute(query)
    ]


def _newest_sheet() -> Label[Any]:
    """How far the newest making sheet of a part is that was not scrapped."""
    newest = (
        select(MakingSheets.progress)
        .where(MakingSheets.part_id == Parts.id, MakingSheets.progress != MakingProgress.SCRAPPED)
        .order_by(MakingSheets.id.desc())
        .limit(1)
    )
    return newest.scalar_subquery().label("sheet")


def _arrived() -> Label[Any]:
    found = select(func.count()).where(Waitings.part_id == Parts.id, Waitings.arrived_at.is_not(None))
    return found.scalar_subquery().label("arrived")


def _there(decision: Decision, origin: Origin, sheet: MakingProgress | None, arrived: bool) -> str:
    """What was decided as it has come true, in a word; empty while it is still to be done."""
    if decision is Decision.BUY and (arrived or origin in (Origin.BOUGHT, Origin.DONOR)):
        return "arrived"
    accepted = sheet is MakingProgress.ACCEPTED
    if decision is Decision.REMAKE and (accepted or (sheet is None and origin is Origin.REMADE)):
        return "made"
    return "reworked" if decision is Decision.REWORK and accepted else ""


def order_of_subassemblies(rows: Sequence[SubassemblyRow]) -> list[int]:
    """Ids in tree order: each subassembly before what it holds."""
    children: dict[int | None, list[int]] = {}
    for row in rows:
        children.setdefault(row.parent_id, []).append(row.id)
    found: list[int] = []
    stack = list(reversed(children.get(None, [])))
    while stack:
        here = stack.pop()
        found.append(here)
        stack.extend(reversed(children.get(here, [])))
    return found


def with_descendants(rows: Sequence[SubassemblyRow], root: int) -> set[int]:
    """A subassembly and all that lies in it."""
    found = {root}
    grew = True
    while grew:
        more = {row.id for row in rows if row.parent_id in found} - found
        found |= more
        grew = bool(more)
    return found
