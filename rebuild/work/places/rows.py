"""Places, what lies in each since when, and where a part lay before."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from dataclasses import dataclass
from enum import Enum

from sqlalchemy import Connection, func, select

from rebuild.errors import BadEntry
from rebuild.model.tables.machines import Machines
from rebuild.model.tables.means import Means
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places, Stays
from rebuild.model.tables.teardown import RemovalParts, Removals
from rebuild.model.tables.waiting import StockItems, Waitings
from rebuild.trade.teardown.meant import Named, meant
from rebuild.trade.waiting.clock import ago, show_when
from rebuild.words.places import PlaceKind, place_words
from rebuild.words.waiting import WaitingKind
from rebuild.work.records.field import show_day

#: The tables the lookups here ask.
READS = frozenset({
    "machine", "means", "part", "place", "removal", "removal_part", "stay", "stock_item", "waiting",
})  # fmt: skip


class Sort(Enum):
    """What a thing in a place is."""

    PART = "part"
    REMOVED = "came off"
    DELIVERY = "delivery"
    STOCK = "stock"
    MEANS = "means"


@dataclass(frozen=True, slots=True)
class PlaceRow:
    """One place and how many things lie in it now; ``oldest`` is since when the first of its parts does."""

    id: int
    kind: PlaceKind
    name: str
    note: str
    since: dt.datetime | None
    things: int
    oldest: dt.datetime | None

    @property
    def called(self) -> str:
        """Kind and name."""
        return place_words(self.kind, self.name)


@dataclass(frozen=True, slots=True)
class Lying:
    """A thing in a place: its record's id, what it is called, whose it is, and since when in words."""

    sort: Sort
    id: int
    called: str
    machine: str
    machine_id: int | None
    since: str


@dataclass(frozen=True, slots=True)
class StayRow:
    """A part lay in a place; ``words`` say from when to when, ``why`` what put it there."""

    part_id: int
    part: str
    place_id: int | None
    place: str
    came_at: dt.datetime | None
    left_at: dt.datetime | None
    words: str
    why: str


def places(connection: Connection) -> list[PlaceRow]:
    """Every place, by kind and name, with what lies there counted."""
    counts: Counter[int] = Counter()
    for table in (Parts, StockItems):
        rows = connection.execute(
            select(table.place_id, func.count()).where(table.place_id.is_not(None)).group_by(table.place_id)
        )
        counts.update({key: number for key, number in rows if key is not None})
    counts.update(key for key, *_ in [*_alone(connection), *_delivered(connection), *_means(connection)])
    oldest = {
        row[0]: row[1]
        for row in connection.execute(
            select(Stays.place_id, func.min(Stays.came_at))
            .where(Stays.left_at.is_(None))
            .group_by(Stays.place_id)
        )
    }
    listed = connection.execute(select(*Places.columns()).order_by(Places.kind, Places.name, Places.id))
    return [
        PlaceRow(row.id, row.kind, row.name, row.note, row.since, counts[row.id], _moment(oldest.get(row.id)))
        for row in listed
    ]


def _moment(value: dt.datetime | str | None) -> dt.datetime | None:
    return dt.datetime.fromisoformat(value) if isinstance(value, str) else value


def lying(connection: Connection, place_id: int, now: dt.datetime) -> list[Lying]:
    """What lies in one place: parts, the longest there first, then what has no part of its own."""
    rows = connection.execute(
        select(
            Parts.id,
            Parts.code,
            Parts.name,
            Parts.placed_at,
            Machines.name.label("machine"),
            Parts.machine_id,
        )
        .select_from(Parts)
        .join(Machines, Machines.id == Parts.machine_id)
        .where(Parts.place_id == place_id)
        .order_by(Parts.placed_at, Parts.code, Parts.id)
    )
    found = [
        Lying(
            Sort.PART, row.id, f"{row.code} {row.name}".strip(), row.machine, row.machine_id,
            since(row.placed_at, now),
        )
        for row in rows
    ]  # fmt: skip
    found += [
        Lying(sort, key, called, "", machine_id, since(at, now))
        for sort, listed in (
            (Sort.REMOVED, _alone(connection)),
            (Sort.DELIVERY, _delivered(connection)),
            (Sort.MEANS, _means(connection)),
        )
        for place, key, called, machine_id, at in listed
        if place == place_id
    ]
    kept = connection.execute(
        select(StockItems.id, StockItems.name)
        .where(StockItems.place_id == place_id)
        .order_by(StockItems.name)
    )
    return [*found, *(Lying(Sort.STOCK, row.id, row.name, "", None, "") for row in kept)]


_Loose = tuple[int, int, str, int | None, dt.datetime | None]


def _alone(connection: Connection) -> list[_Loose]:
    """What came off without being a part: screws, a key, chips that told something."""
    rows = connection.execute(
        select(Removals.place_id, Removals.id, Removals.what, Removals.at)
        .outerjoin(RemovalParts, RemovalParts.removal_id == Removals.id)
        .where(Removals.place_id.is_not(None), RemovalParts.id.is_(None))
        .order_by(Removals.at)
    )
    return [(row[0], row[1], row[2], None, row[3]) for row in rows if row[0] is not None]


def _delivered(connection: Connection) -> list[_Loose]:
    """What was delivered for no part in particular."""
    rows = connection.execute(
        select(Waitings.place_id, Waitings.id, Waitings.what, Waitings.machine_id, Waitings.arrived_at)
        .where(Waitings.place_id.is_not(None), Waitings.part_id.is_(None), Waitings.returned_at.is_(None))
        .order_by(Waitings.arrived_at)
    )
    return [(row[0], row[1], row[2], row[3], row[4]) for row in rows if row[0] is not None]


def _means(connection: Connection) -> list[_Loose]:
    """Means where they lie: with whom they are lent to as long as they are, else in their own place."""
    lent_to = {
        row.name.casefold(): row.id
        for row in connection.execute(
            select(Places.id, Places.name).where(Places.kind == PlaceKind.LENT).order_by(Places.id.desc())
        )
    }
    rows = connection.execute(
        select(
            Means.id,
            Means.name,
            Means.place_id,
            Waitings.kind,
            Waitings.who,
            Waitings.ordered_at,
            Waitings.returned_at,
        )
        .select_from(Means)
        .outerjoin(Waitings, Waitings.id == Means.waiting_id)
        .order_by(Means.name, Means.id)
    )
    found: list[_Loose] = []
    for row in rows:
        lent = row.kind is WaitingKind.LENT and row.returned_at is None
        place = lent_to.get((row.who or "").casefold()) if lent else row.place_id
        if place is not None:
            found.append((place, row.id, row.name, None, row.ordered_at if lent else None))
    return found


def since(at: dt.datetime | None, now: dt.datetime) -> str:
    """Since when something lies there, and how long that is; nothing where it was not noted."""
    return f"{show_when(at, now)}, {ago(at, now)}" if at is not None else ""


def stays(connection: Connection, part_id: int) -> list[StayRow]:
    """Where a part lay, the newest first; the first one is where it lies now unless it was left."""
    return _stays(connection, part_id=part_id)


def stays_in(connection: Connection, place_id: int) -> list[StayRow]:
    """What lay in a place and was taken out again, the last taken out first."""
    return [row for row in _stays(connection, place_id=place_id) if row.left_at is not None]


def _stays(
    connection: Connection, *, part_id: int | None = None, place_id: int | None = None
) -> list[StayRow]:
    query = (
        select(
            Stays.part_id, Stays.place_id, Stays.came_at, Stays.left_at, Parts.code, Parts.name,
            Places.kind.label("place_kind"), Places.name.label("place"), Removals.position,
            Waitings.kind.label("waited"), Waitings.who, Waitings.what, Waitings.arrived_at,
        )
        .select_from(Stays)
        .join(Parts, Parts.id == Stays.part_id)
        .outerjoin(Places, Places.id == Stays.place_id)
        .outerjoin(Removals, Removals.id == Stays.removal_id)
        .outerjoin(Waitings, Waitings.id == Stays.waiting_id)
        .order_by(Stays.left_at.is_not(None), Stays.left_at.desc(), Stays.id.desc())
    )  # fmt: skip
    query = query.where(Stays.part_id == part_id) if part_id is not None else query
    query = query.where(Stays.place_id == place_id) if place_id is not None else query
    return [
        StayRow(
            row.part_id,
            f"{row.code} {row.name}".strip(),
            row.place_id,
            place_words(row.place_kind, row.place) if row.place else "nobody noted where",
            row.came_at,
            row.left_at,
            _span(row.came_at, row.left_at),
            _why(row),
        )
        for row in connection.execute(query)
    ]


def _span(came: dt.datetime | None, left: dt.datetime | None) -> str:
    begun = show_day(came) if came is not None else "not noted when"
    return f"since {begun}" if left is None else f"{begun} to {show_day(left)}"


def _why(row: object) -> str:
    get = row._mapping.__getitem__  # type: ignore[attr-defined]
    if get("position") is not None:
        return f"came off, no. {get('position') + 1} of its log"
    if get("waited") is not None:
        return f"{get('waited').value}: {get('what')}"
    return ""


def part_meant(connection: Connection, machine_id: int, text: str) -> tuple[int, str]:
    """The part of a machine meant by a code or words of its name: its id, and what it is called.

    Raises:
        BadEntry: nothing was typed, or no part or several are meant.
    """
    if not text.strip():
        raise BadEntry("is empty.", where="Part", way_out="Type its code or its name.")
    rows = connection.execute(
        select(Parts.id, Parts.code, Parts.name).where(Parts.machine_id == machine_id).order_by(Parts.code)
    )
    found = meant(text, [Named(row.id, row.code, row.name) for row in rows])
    return found.key, f"{found.code} {found.name}".strip()


def holding(connection: Connection, text: str) -> set[int]:
    """The places called so, or in which something called so lies now."""
    wanted = text.strip().casefold()
    called = [
        (row.id, place_words(row.kind, row.name))
        for row in connection.execute(select(Places.id, Places.kind, Places.name))
    ]
    parts = select(Parts.place_id, Parts.code, Parts.name).where(Parts.place_id.is_not(None))
    called += [(row[0], f"{row[1]} {row[2]}") for row in connection.execute(parts) if row[0] is not None]
    kept = connection.execute(
        select(StockItems.place_id, StockItems.name).where(StockItems.place_id.is_not(None))
    )
    called += [(key, name) for key, name in kept if key is not None]
    alone = [*_alone(connection), *_delivered(connection), *_means(connection)]
    called += [(key, what) for key, _, what, _, _ in alone]
    return {key for key, name in called if wanted in name.casefold()}
