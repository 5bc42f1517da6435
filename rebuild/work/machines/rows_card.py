"""The machines of a file by name and kind; nothing is counted, so the cost does not grow with what is in them."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.machines import Machines
from rebuild.words.machines import MachineKind, Scope

#: The tables the lookups here ask.
READS = frozenset({"machine"})


@dataclass(frozen=True, slots=True)
class MachineCard:
    """One machine as a chooser names it."""

    id: int
    name: str
    kind: MachineKind
    model: str
    year: str
    unit: str
    scope: Scope


def cards(connection: Connection) -> list[MachineCard]:
    """All machines in order."""
    rows = connection.execute(
        select(
            Machines.id,
            Machines.name,
            Machines.kind,
            Machines.model,
            Machines.year,
            Machines.unit,
            Machines.scope,
        ).order_by(Machines.position, Machines.id)
    )
    return [MachineCard(*row) for row in rows]


def unit_of(connection: Connection, machine_id: int | None) -> str:
    """The unit of a machine; mm where there is none."""
    return connection.execute(select(Machines.unit).where(Machines.id == machine_id)).scalar() or "mm"
