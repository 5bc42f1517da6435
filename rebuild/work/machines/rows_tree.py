"""The machines of a file, and one machine's tree of subassemblies and parts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from rebuild.model.tables.machines import Machines, Subassemblies
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.steps import Tasks
from rebuild.words.decisions import Decision
from rebuild.words.machines import MachineKind, Scope
from rebuild.words.parts import Identity, Origin
from rebuild.words.steps import TaskState

#: The tables the lookups here ask.
READS = frozenset({"machine", "part", "place", "subassembly", "task"})

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
    """One part as the tree shows it."""

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
            f"{row.kind.value} {row.place_name}" if row.place_name else "",
            row.position,
        )
        for row in connection.execute(query)
    ]


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
