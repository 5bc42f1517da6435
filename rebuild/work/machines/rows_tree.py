"""The machines of a file, and one machine's tree of subassemblies and parts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from rebuild.model.named import Machine, Part, Place, Subassembly, Task
from rebuild.words.decisions import Decision
from rebuild.words.machines import MachineKind, Scope
from rebuild.words.parts import Identity, Origin
from rebuild.words.steps import TaskState

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
    parts = select(func.count()).where(Part.machine_id == Machine.id).scalar_subquery()
    tasks = select(func.count()).where(Task.machine_id == Machine.id).scalar_subquery()
    done = select(func.count()).where(Task.machine_id == Machine.id, Task.state.in_(CLOSED)).scalar_subquery()
    rows = connection.execute(
        select(
            Machine.id, Machine.name, Machine.kind, Machine.model, Machine.year, Machine.unit, Machine.scope,
            parts, tasks, done,
        ).order_by(Machine.position, Machine.id)
    )  # fmt: skip
    return [MachineRow(*row) for row in rows]


def subassemblies(connection: Connection, machine_id: int) -> list[SubassemblyRow]:
    """A machine's subassemblies with the counts of their own steps, in sibling order."""
    counts = {
        row[0]: (row[1], row[2])
        for row in connection.execute(
            select(
                Task.subassembly_id, func.count(), func.count().filter(Task.state.in_(CLOSED))
            ).where(Task.machine_id == machine_id).group_by(Task.subassembly_id)
        )
    }  # fmt: skip
    rows = connection.execute(
        select(
            Subassembly.id, Subassembly.parent_id, Subassembly.code, Subassembly.name, Subassembly.position
        )
        .where(Subassembly.machine_id == machine_id)
        .order_by(Subassembly.position, Subassembly.id)
    )
    return [SubassemblyRow(*row, *counts.get(row.id, (0, 0))) for row in rows]


def parts(connection: Connection, machine_id: int, ids: Sequence[int] | None = None) -> list[PartRow]:
    """A machine's parts (or those of ``ids``) in the order of their subassembly."""
    query = (
        select(
            Part.id, Part.subassembly_id, Part.code, Part.name, Part.quantity, Part.identity, Part.origin,
            Part.decision, Place.kind, Place.name.label("place_name"), Part.position,
        )
        .select_from(Part)
        .outerjoin(Place, Place.id == Part.place_id)
        .where(Part.machine_id == machine_id)
        .order_by(Part.subassembly_id, Part.position, Part.id)
    )  # fmt: skip
    if ids is not None:
        query = query.where(Part.id.in_(ids))
    return [
        PartRow(
            row.id, row.subassembly_id, row.code, row.name, row.quantity, row.identity, row.origin, row.decision,
            f"{row.kind.value} {row.place_name}" if row.place_name else "", row.position,
        )
        for row in connection.execute(query)
    ]  # fmt: skip


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
