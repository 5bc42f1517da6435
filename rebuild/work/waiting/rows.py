"""Orders, work sent out, quotes and loans as rows; what is late; and what the plan must wait for."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import Enum

from sqlalchemy import Connection, or_, select

from rebuild.model.tables.machines import Subassemblies
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.waiting import Waitings
from rebuild.trade.waiting.clock import ago, show_when
from rebuild.words.decisions import Decision
from rebuild.words.places import place_words
from rebuild.words.waiting import WaitingKind

#: The tables the lookups here ask.
READS = frozenset({"part", "place", "subassembly", "task", "waiting"})


class Stand(Enum):
    """How far an order or loan is, in the order they are listed."""

    LATE = "late"
    OPEN = "on its way"
    ARRIVED = "arrived, not checked"
    WANTED = "not ordered yet"
    ASKED = "quote asked"
    OUT = "out"
    CLOSED = "closed"


@dataclass(frozen=True, slots=True)
class WaitingRow:
    """One order, job sent out, quote or loan; ``words`` say how it stands now."""

    id: int
    kind: WaitingKind
    what: str
    who: str
    reference: str
    quantity: int
    part_id: int | None
    task_id: int | None
    about: str
    stand: Stand
    words: str
    cost: float | None
    asked_at: dt.datetime | None
    good_until: dt.datetime | None
    ordered_at: dt.datetime | None
    promised_at: dt.datetime | None
    chased_at: dt.datetime | None
    arrived_at: dt.datetime | None
    inspected_at: dt.datetime | None
    inspected_note: str
    returned_at: dt.datetime | None
    place: str
    sent_with: str
    note: str


def waiting(connection: Connection, machine_id: int, now: dt.datetime) -> list[WaitingRow]:
    """What a machine (or the shop) waits for or owes back: late first, closed last."""
    rows = connection.execute(
        select(
            Waitings.id,
            Waitings.kind,
            Waitings.what,
            Waitings.who,
            Waitings.reference,
            Waitings.quantity,
            Waitings.part_id,
            Waitings.task_id,
            Waitings.price,
            Waitings.carriage,
            Waitings.tax,
            Waitings.asked_at,
            Waitings.good_until,
            Waitings.ordered_at,
            Waitings.promised_at,
            Waitings.chased_at,
            Waitings.arrived_at,
            Waitings.inspected_at,
            Waitings.inspected_note,
            Waitings.returned_at,
            Waitings.sent_with,
            Waitings.note,
            Parts.code,
            Parts.name,
            Subassemblies.code.label("sub"),
            Tasks.title,
            Places.kind.label("place_kind"),
            Places.name.label("place"),
        )
        .select_from(Waitings)
        .outerjoin(Parts, Parts.id == Waitings.part_id)
        .outerjoin(Subassemblies, Subassemblies.id == Waitings.subassembly_id)
        .outerjoin(Tasks, Tasks.id == Waitings.task_id)
        .outerjoin(Places, Places.id == Waitings.place_id)
        .where(or_(Waitings.machine_id == machine_id, Waitings.machine_id.is_(None)))
    )
    found = []
    for row in rows:
        stand, words = stand_of(
            _Dates(
                row.kind,
                row.asked_at,
                row.good_until,
                row.ordered_at,
                row.promised_at,
                row.arrived_at,
                row.inspected_at,
                row.returned_at,
            ),
            now,
        )
        money = [amount for amount in (row.price, row.carriage, row.tax) if amount is not None]
        found.append(
            WaitingRow(
                row.id,
                row.kind,
                row.what,
                row.who,
                row.reference,
                row.quantity,
                row.part_id,
                row.task_id,
                f"{row.code or ''} {row.name or ''}".strip() or row.title or row.sub or "",
                stand,
                words,
                sum(money) if money else None,
                row.asked_at,
                row.good_until,
                row.ordered_at,
                row.promised_at,
                row.chased_at,
                row.arrived_at,
                row.inspected_at,
                row.inspected_note,
                row.returned_at,
                place_words(row.place_kind, row.place) if row.place else "",
                row.sent_with,
                row.note,
            )
        )
    order = list(Stand)
    far = dt.datetime.max  # noqa: DTZ901 - wall-clock times of one shop
    return sorted(found, key=lambda row: (order.index(row.stand), row.promised_at or far, row.id))


@dataclass(frozen=True, slots=True)
class _Dates:
    kind: WaitingKind
    asked: dt.datetime | None
    good_until: dt.datetime | None
    ordered: dt.datetime | None
    promised: dt.datetime | None
    arrived: dt.datetime | None
    inspected: dt.datetime | None
    returned: dt.datetime | None


def stand_of(at: _Dates, now: dt.datetime) -> tuple[Stand, str]:
    """How far it is, and the words for it."""
    if at.returned is not None:
        return Stand.CLOSED, f"returned {show_when(at.returned, now)}"
    if at.kind in (WaitingKind.LENT, WaitingKind.BORROWED):
        return _loan(at, now)
    if at.inspected is not None:
        return Stand.CLOSED, f"checked {show_when(at.inspected, now)}"
    if at.arrived is not None:
        return Stand.ARRIVED, f"arrived {show_when(at.arrived, now)}, not checked"
    if at.ordered is not None:
        gone = "sent" if at.kind is WaitingKind.SENT_OUT else "ordered"
        since = f"{gone} {show_when(at.ordered, now)}"
        if at.promised is None:
            return Stand.OPEN, f"{since}, no date promised, {ago(at.ordered, now)}"
        if promise_ends(at.promised) < now:
            return (
                Stand.LATE,
                f"promised {show_when(at.promised, now)}, {ago(promise_ends(at.promised), now)} late",
            )
        return Stand.OPEN, f"{since}, promised {show_when(at.promised, now)}"
    if at.kind is WaitingKind.QUOTE or at.asked is not None:
        if at.good_until is not None and promise_ends(at.good_until) < now:
            return Stand.ASKED, f"quote expired {show_when(at.good_until, now)}"
        until = f", good until {show_when(at.good_until, now)}" if at.good_until else ""
        return Stand.ASKED, (f"asked {show_when(at.asked, now)}" if at.asked else "to be asked") + until
    return Stand.WANTED, "not sent yet" if at.kind is WaitingKind.SENT_OUT else "not ordered yet"


def _loan(at: _Dates, now: dt.datetime) -> tuple[Stand, str]:
    since = f" since {show_when(at.ordered, now)}" if at.ordered else ""
    if at.promised is not None and promise_ends(at.promised) < now:
        return Stand.LATE, f"{at.kind.value}{since}, back was promised {show_when(at.promised, now)}"
    until = f", back by {show_when(at.promised, now)}" if at.promised else ""
    return Stand.OUT, f"{at.kind.value}{since}{until}"


def promise_ends(day: dt.datetime) -> dt.datetime:
    """When a promise is over: a date alone runs to the end of that day."""
    return day + dt.timedelta(days=1) if (day.hour, day.minute) == (0, 0) else day


#: Where nothing was said, a promised date slips by up to this share of its lead: the shop's own judgement.
SLIP = 0.5


def days_from(
    ordered: dt.datetime | None,
    promised: dt.datetime | None,
    lead: tuple[float | None, float | None, float | None],
    now: dt.datetime,
) -> tuple[float, float, float] | None:
    """Soonest, likely and latest days from ``now`` of what was ordered, promised or said to take so long."""
    start = ordered or now
    gone = (now - start).total_seconds() / 86_400.0
    low, likely, high = lead
    if promised is not None:
        to_promise = (promised - start).total_seconds() / 86_400.0
        likely = to_promise
        low = min(low, likely) if low is not None else likely
        high = max(high, likely) if high is not None else likely + SLIP * max(0.0, to_promise)
    if likely is None:
        given = [value for value in (low, high) if value is not None]
        if not given:
            return None
        likely = sum(given) / len(given)
    low = likely if low is None else low
    high = likely if high is None else high
    return max(0.0, low - gone), max(0.0, likely - gone), max(0.0, high - gone)


def parts_called(connection: Connection, machine_id: int, text: str) -> list[tuple[int, str]]:
    """The parts whose code or name is exactly the text, with what each is called; those to be bought before others."""
    wanted = text.strip().casefold()
    query = select(Parts.id, Parts.code, Parts.name, Parts.decision).where(Parts.machine_id == machine_id)
    named = [
        row
        for row in connection.execute(query.order_by(Parts.code, Parts.id))
        if wanted
        and wanted in (row.code.casefold(), row.name.casefold(), _title(row.code, row.name).casefold())
    ]
    bought = [row for row in named if row.decision is Decision.BUY]
    return [(row.id, _title(row.code, row.name)) for row in bought or named]


def part_title(connection: Connection, part_id: int) -> str:
    """What a part is called, as the order line takes it."""
    row = connection.execute(select(Parts.code, Parts.name).where(Parts.id == part_id)).one()
    return _title(row.code, row.name)


def still_to_buy(connection: Connection, machine_id: int) -> list[str]:
    """What the parts are called that are to be bought and of which no order stands yet."""
    ordered = select(Waitings.part_id).where(Waitings.part_id.is_not(None))
    query = (
        select(Parts.code, Parts.name)
        .where(Parts.machine_id == machine_id, Parts.decision == Decision.BUY, Parts.id.not_in(ordered))
        .order_by(Parts.code, Parts.id)
    )
    return [_title(row.code, row.name) for row in connection.execute(query)]


def _title(code: str, name: str) -> str:
    return f"{code} {name}".strip()
