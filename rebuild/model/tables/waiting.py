"""What is waited for: clocks, orders and loans; and what lies in stock."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import (
    Cell,
    as_count,
    as_moment,
    as_number,
    as_text,
    goes_with,
    maybe,
    one_of,
    points_at,
)
from rebuild.words.waiting import ClockKind, WaitingKind


class Clocks(Journaled, name="clock"):
    """Something that runs by itself: a bath, a coat, a cure, a joint or bed to be looked at again.

    ``low_min`` is the soonest, ``high_min`` the latest, in minutes from ``started_at``.
    """

    indexes = (("ix_clock_machine_closed", "machine_id", "closed_at"),)

    machine_id: Cell[int] = goes_with("machine")
    subassembly_id: Cell[int | None] = points_at("subassembly", index=True)
    part_id: Cell[int | None] = maybe(goes_with("part", index=True))
    task_id: Cell[int | None] = maybe(goes_with("task", index=True))
    joint_id: Cell[int | None] = maybe(goes_with("joint", index=True))
    kind: Cell[ClockKind] = one_of(ClockKind)
    what: Cell[str] = as_text("")
    started_at: Cell[dt.datetime] = as_moment()
    low_min: Cell[float | None] = maybe(as_number())
    high_min: Cell[float | None] = maybe(as_number())
    source: Cell[str] = as_text("")
    closed_at: Cell[dt.datetime | None] = maybe(as_moment())
    closed_note: Cell[str] = as_text("")


class Waitings(Journaled, name="waiting"):
    """An order, work sent out, a quote or a loan: who, promised, arrived, inspected, returned.

    Money is in the file's own. Lead times are in days from the order, for the plan.
    """

    indexes = (("ix_waiting_machine_arrived", "machine_id", "arrived_at"),)

    machine_id: Cell[int | None] = maybe(goes_with("machine"))
    subassembly_id: Cell[int | None] = points_at("subassembly", index=True)
    part_id: Cell[int | None] = points_at("part", index=True)
    task_id: Cell[int | None] = points_at("task", index=True)
    place_id: Cell[int | None] = points_at("place", index=True)
    kind: Cell[WaitingKind] = one_of(WaitingKind, WaitingKind.ORDER)
    what: Cell[str] = as_text()
    who: Cell[str] = as_text("")
    reference: Cell[str] = as_text("")
    quantity: Cell[int] = as_count(1)
    sent_with: Cell[str] = as_text("")
    price: Cell[float | None] = maybe(as_number())
    carriage: Cell[float | None] = maybe(as_number())
    tax: Cell[float | None] = maybe(as_number())
    lead_low_days: Cell[float | None] = maybe(as_number())
    lead_likely_days: Cell[float | None] = maybe(as_number())
    lead_high_days: Cell[float | None] = maybe(as_number())
    asked_at: Cell[dt.datetime | None] = maybe(as_moment())
    good_until: Cell[dt.datetime | None] = maybe(as_moment())
    ordered_at: Cell[dt.datetime | None] = maybe(as_moment())
    promised_at: Cell[dt.datetime | None] = maybe(as_moment())
    chased_at: Cell[dt.datetime | None] = maybe(as_moment())
    arrived_at: Cell[dt.datetime | None] = maybe(as_moment())
    inspected_at: Cell[dt.datetime | None] = maybe(as_moment())
    inspected_note: Cell[str] = as_text("")
    returned_at: Cell[dt.datetime | None] = maybe(as_moment())
    note: Cell[str] = as_text("")


class StockItems(Journaled, name="stock_item"):
    """Something on the shelf that a part could be made from or replaced by; looked through before an order."""

    name: Cell[str] = as_text()
    material: Cell[str] = as_text("")
    sizes: Cell[str] = as_text("")
    thread: Cell[str] = as_text("")
    quantity: Cell[float | None] = maybe(as_number())
    counted_in: Cell[str] = as_text("")
    place_id: Cell[int | None] = points_at("place", index=True)
    note: Cell[str] = as_text("")
