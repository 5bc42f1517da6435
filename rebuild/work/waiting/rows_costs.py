"""What it cost and how long it took, by subassembly and by decision."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.log import LogEntries, SpentHours
from rebuild.model.tables.machines import Subassemblies
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.waiting import Waitings
from rebuild.words.decisions import Decision
from rebuild.words.waiting import WaitingKind

#: The tables the lookups here ask.
READS = frozenset({"hours_spent", "log_entry", "part", "subassembly", "waiting"})

NOT_SPLIT = "unallocated"


@dataclass(frozen=True, slots=True)
class CostRow:
    """Money paid, money promised (ordered and not arrived), and hours of one group."""

    name: str
    paid: float
    promised: float
    hours: float


def by_subassembly(connection: Connection, machine_id: int) -> list[CostRow]:
    """One row for each subassembly that cost anything, in tree order; what is unallocated stands last."""
    names = {
        row.id: f"{row.code} {row.name}".strip()
        for row in connection.execute(
            select(Subassemblies.id, Subassemblies.code, Subassemblies.name)
            .where(Subassemblies.machine_id == machine_id)
            .order_by(Subassemblies.position, Subassemblies.id)
        )
    }
    rows = _Sums()
    for row in _bought(connection, machine_id):
        rows.pay(names.get(row.subassembly_id, NOT_SPLIT), row.amount, arrived=row.arrived)
    for group, _decision, hours in _hours(connection, machine_id):
        rows.work(names.get(group or 0, NOT_SPLIT), hours)
    rows.work(NOT_SPLIT, _unsplit(connection, machine_id))
    return rows.listed([*names.values(), NOT_SPLIT])


def by_decision(connection: Connection, machine_id: int) -> list[CostRow]:
    """One row for each decision on a part that cost anything; what is for no part stands last."""
    rows = _Sums()
    for row in _bought(connection, machine_id):
        rows.pay(row.decision.value if row.decision else NOT_SPLIT, row.amount, arrived=row.arrived)
    for _group, decision, hours in _hours(connection, machine_id):
        rows.work(decision.value if decision else NOT_SPLIT, hours)
    rows.work(NOT_SPLIT, _unsplit(connection, machine_id))
    return rows.listed([*(decision.value for decision in Decision), NOT_SPLIT])


def total(rows: Iterable[CostRow]) -> CostRow:
    """The sum of a list of rows."""
    listed = list(rows)
    return CostRow(
        "in all",
        sum(row.paid for row in listed),
        sum(row.promised for row in listed),
        sum(row.hours for row in listed),
    )


class _Sums:
    def __init__(self) -> None:
        self._sums: dict[str, list[float]] = {}

    def pay(self, name: str, amount: float, *, arrived: bool) -> None:
        self._sums.setdefault(name, [0.0, 0.0, 0.0])[0 if arrived else 1] += amount

    def work(self, name: str, hours: float) -> None:
        if hours > 0:
            self._sums.setdefault(name, [0.0, 0.0, 0.0])[2] += hours

    def listed(self, order: list[str]) -> list[CostRow]:
        return [CostRow(name, *self._sums[name]) for name in order if name in self._sums]


@dataclass(frozen=True, slots=True)
class _Bought:
    subassembly_id: int | None
    decision: Decision | None
    amount: float
    arrived: bool


def _bought(connection: Connection, machine_id: int) -> list[_Bought]:
    """Orders and work sent out that were placed and not returned; quotes and loans cost nothing yet."""
    rows = connection.execute(
        select(*Waitings.columns(), Parts.decision, Parts.subassembly_id.label("of_part"))
        .outerjoin(Parts, Parts.id == Waitings.part_id)
        .where(
            Waitings.machine_id == machine_id,
            Waitings.returned_at.is_(None),
            Waitings.kind.in_([WaitingKind.ORDER, WaitingKind.SENT_OUT]),
        )
    )
    return [
        _Bought(
            row.subassembly_id or row.of_part,
            row.decision,
            sum(amount or 0.0 for amount in (row.price, row.carriage, row.tax)),
            row.arrived_at is not None,
        )
        for row in rows
        if row.ordered_at is not None or row.arrived_at is not None
    ]


def _hours(connection: Connection, machine_id: int) -> list[tuple[int | None, Decision | None, float]]:
    rows = connection.execute(
        select(SpentHours.subassembly_id, Parts.decision, SpentHours.hours)
        .join(LogEntries, LogEntries.id == SpentHours.log_entry_id)
        .outerjoin(Parts, Parts.id == SpentHours.part_id)
        .where(LogEntries.machine_id == machine_id)
    )
    return [(row.subassembly_id, row.decision, row.hours) for row in rows]


def _unsplit(connection: Connection, machine_id: int) -> float:
    whole = connection.execute(
        select(LogEntries.hours).where(LogEntries.machine_id == machine_id, LogEntries.hours.is_not(None))
    ).scalars()
    split = sum(hours for _, _, hours in _hours(connection, machine_id))
    return max(0.0, sum(hours or 0.0 for hours in whole) - split)
