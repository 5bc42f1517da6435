"""The lubrication card as rows: points with today's oil, the lines as a tree, and what starves."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import Connection, select

from rebuild.model.tables.lubrication import OilPoints
from rebuild.model.tables.machines import Machines
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.steps import Tasks
from rebuild.trade.lubrication.oil_tree import Finding, Piece, examine
from rebuild.trade.results.working import Working, joined
from rebuild.words.lubrication import FlowProof, OilPointKind
from rebuild.words.machines import MachineKind
from rebuild.words.steps import TaskState
from rebuild.work.records.field import show_day

if TYPE_CHECKING:
    from rebuild.trade.lubrication.oil_today import OilToday

#: The tables the lookups here ask.
READS = frozenset({"machine", "oil_point", "part", "task"})

#: Pieces that only carry oil on.
CARRIES = (OilPointKind.LINE, OilPointKind.JUNCTION)


@dataclass(frozen=True, slots=True)
class Piped:
    """A piece of the lines: its number and what it feeds."""

    number: str
    feeds: str

    @property
    def called(self) -> str:
        """Number and what it feeds."""
        return f"{self.number} {self.feeds}"


@dataclass(frozen=True, slots=True)
class OilRow:
    """One point. ``starved_by`` is the blocked piece before it; ``depth`` is how far down the line it hangs."""

    id: int
    number: str
    kind: OilPointKind
    feeds: str
    path: str
    old_oil: str
    duty: str
    chosen: str
    quantity: str
    interval: str
    dose_ml: float | None
    delivery_ml: float | None
    first_fill_at: dt.datetime | None
    proof: FlowProof
    proved_at: dt.datetime | None
    proved_note: str
    part: str
    task_id: int | None
    task: str
    task_open: bool
    fed_by_id: int | None
    fed_by: str
    x: float | None
    y: float | None
    note: str
    depth: int
    starved_by: Piped | None

    @property
    def today(self) -> OilToday:
        """Today's class of the old oil; read when it is asked for: who only asks for the flow need not wait."""
        from rebuild.trade.lubrication.oil_today import oil_today

        return oil_today(self.old_oil, self.duty).value

    @property
    def oil(self) -> str:
        """The oil to use: as chosen, else today's class of the old one."""
        if not self.chosen and self.kind in (*CARRIES, OilPointKind.METER):
            return ""
        return self.chosen or self.today.short or "still to be decided"

    @property
    def called(self) -> str:
        """Number and what it feeds."""
        return Piped(self.number, self.feeds).called

    @property
    def flow(self) -> str:
        """The state of its flow, in words."""
        if self.starved_by:
            return f"starves: {self.starved_by.called} is blocked"
        if self.proof is FlowProof.PROVED and self.proved_at is not None:
            return f"{self.proof.value} {show_day(self.proved_at)}"
        return self.proof.value

    @property
    def lacks(self) -> bool:
        """Whether oil still has to be seen here."""
        return self.starved_by is not None or self.proof in (FlowProof.NOT_PROVED, FlowProof.BLOCKED)


@dataclass(frozen=True, slots=True)
class OilCard:
    """The whole card: points in the order of their numbers, the tree's order, its findings, and the oils to buy."""

    machine: str
    kind: MachineKind
    rows: tuple[OilRow, ...]
    tree: tuple[int, ...]
    findings: tuple[Finding, ...]
    working: Working

    @property
    def oils(self) -> tuple[tuple[str, int], ...]:
        """The oils to buy, each with how many points take it."""
        return _oils(self.rows)

    @property
    def not_proved(self) -> tuple[OilRow, ...]:
        """The points where oil still has to be seen."""
        return tuple(row for row in self.rows if row.lacks)


def oil_card(connection: Connection, machine_id: int) -> OilCard:
    """The lubrication card of a machine."""
    machine = connection.execute(select(Machines.name, Machines.kind).where(Machines.id == machine_id)).one()
    raw = connection.execute(
        select(
            *OilPoints.columns(),
            Parts.code,
            Parts.name.label("part_name"),
            Tasks.title,
            Tasks.state.label("task_state"),
        )
        .outerjoin(Parts, Parts.id == OilPoints.part_id)
        .outerjoin(Tasks, Tasks.id == OilPoints.task_id)
        .where(OilPoints.machine_id == machine_id)
        .order_by(OilPoints.position, OilPoints.id)
    ).all()
    named = {row.id: Piped(row.number, row.feeds) for row in raw}
    tree = examine(
        [
            Piece(
                row.id,
                named[row.id].called,
                OilPointKind(row.kind).value,
                row.fed_by_id,
                FlowProof(row.proof) is FlowProof.BLOCKED,
                FlowProof(row.proof) is FlowProof.PROVED,
                row.dose_ml,
                row.delivery_ml,
            )
            for row in raw
        ]
    )
    depth = dict(tree.order)
    rows = tuple(
        OilRow(
            row.id,
            row.number,
            OilPointKind(row.kind),
            row.feeds,
            row.path,
            row.old_oil,
            row.duty,
            row.oil,
            row.quantity,
            row.interval,
            row.dose_ml,
            row.delivery_ml,
            row.first_fill_at,
            FlowProof(row.proof),
            row.proved_at,
            row.proved_note,
            f"{row.code or ''} {row.part_name or ''}".strip(),
            row.task_id,
            row.title or "",
            row.task_state in (TaskState.OPEN, TaskState.UNDER_WAY),
            row.fed_by_id,
            named[row.fed_by_id].called if row.fed_by_id in named else "",
            row.x,
            row.y,
            row.note,
            depth.get(row.id, 0),
            named.get(tree.starved.get(row.id, 0)),
        )
        for row in raw
    )
    order = tuple(key for key, _ in tree.order)
    return OilCard(machine.name, machine.kind, rows, order, tree.findings, tree.working)


def _oils(rows: Sequence[OilRow]) -> tuple[tuple[str, int], ...]:
    """Each oil with the number of points it goes to, most first; what only carries oil on is left out."""
    counted = Counter(row.oil for row in rows if row.kind not in (*CARRIES, OilPointKind.METER))
    return tuple(sorted(counted.items(), key=lambda item: (-item[1], item[0])))


def point_working(row: OilRow, card: OilCard) -> Working:
    """How today's oil of a point was found, and what the lines say of it."""
    from rebuild.trade.lubrication.oil_today import oil_today

    return joined(f"Oil at {row.called}", (oil_today(row.old_oil, row.duty).working, card.working))
