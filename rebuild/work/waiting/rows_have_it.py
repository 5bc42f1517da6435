"""Already have it? Looks through stock, spares, loose parts and open orders before a new one is placed."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection, or_, select

from rebuild.model.tables.machines import Machines
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.waiting import StockItems, Waitings
from rebuild.trade.waiting.have_it import ENOUGH, likeness
from rebuild.words.parts import Identity, Origin
from rebuild.words.waiting import WaitingKind

#: The tables the lookups here ask.
READS = frozenset({"machine", "part", "place", "stock_item", "waiting"})


@dataclass(frozen=True, slots=True)
class Found:
    """Something that may serve: what it is, where it lies, how like it is and why."""

    record: str
    id: int
    what: str
    where: str
    score: float
    why: str


def already_have(connection: Connection, wanted: str, *, most: int = 8) -> list[Found]:
    """What in the shop answers to ``wanted``, most alike first: stock, spares, loose parts, orders on their way."""
    found = [
        Found(record, key, what, where, round(like.score, 3), like.why)
        for record, key, what, where in (*_stock(connection), *_spares(connection), *_ordered(connection))
        if (like := likeness(wanted, what)).score >= ENOUGH
    ]
    nearest = ("stock_item", "part", "waiting")
    return sorted(found, key=lambda one: (-one.score, nearest.index(one.record), one.what))[:most]


def _stock(connection: Connection) -> list[tuple[str, int, str, str]]:
    rows = connection.execute(
        select(*StockItems.columns(), Places.kind, Places.name.label("place")).outerjoin(
            Places, Places.id == StockItems.place_id
        )
    )
    return [
        (
            "stock_item",
            row.id,
            " ".join(filter(None, (row.name, row.material, row.sizes, row.thread, row.note))),
            ", ".join(filter(None, (_amount(row.quantity, row.counted_in), _at(row.kind, row.place)))),
        )
        for row in rows
    ]


def _amount(quantity: float | None, counted_in: str) -> str:
    return "" if quantity is None else f"{quantity:g} {counted_in}".strip()


def _at(kind: object, name: str | None) -> str:
    return f"{getattr(kind, 'value', '')} {name}".strip() if name else "place not noted"


def _spares(connection: Connection) -> list[tuple[str, int, str, str]]:
    """Parts that stand on no machine's own list: spares, donors, and what is not known or not ours."""
    rows = connection.execute(
        select(*Parts.columns(), Places.kind, Places.name.label("place"), Machines.name.label("machine"))
        .join(Machines, Machines.id == Parts.machine_id)
        .outerjoin(Places, Places.id == Parts.place_id)
        .where(
            or_(
                Parts.spare_of_id.is_not(None),
                Parts.origin == Origin.DONOR,
                Parts.subassembly_id.is_(None),
                Parts.identity.in_([Identity.UNKNOWN, Identity.NOT_OURS]),
            ),
            Parts.origin != Origin.MISSING,
        )
    )
    return [
        (
            "part",
            row.id,
            " ".join(
                filter(None, (row.code, row.name, row.other_names, row.suspects, row.material, row.stamped))
            ),
            f"{_at(row.kind, row.place)} ({row.machine})",
        )
        for row in rows
    ]


def _ordered(connection: Connection) -> list[tuple[str, int, str, str]]:
    rows = connection.execute(
        select(
            Waitings.id,
            Waitings.what,
            Waitings.who,
            Waitings.arrived_at,
            Waitings.ordered_at,
            Places.kind,
            Places.name.label("place"),
        )
        .outerjoin(Places, Places.id == Waitings.place_id)
        .where(Waitings.returned_at.is_(None), Waitings.kind.in_([WaitingKind.ORDER, WaitingKind.BORROWED]))
    )
    return [
        (
            "waiting",
            row.id,
            row.what,
            f"arrived, {_at(row.kind, row.place)}"
            if row.arrived_at
            else f"ordered already{f' from {row.who}' if row.who else ''}"
            if row.ordered_at
            else "on the list already",
        )
        for row in rows
    ]
