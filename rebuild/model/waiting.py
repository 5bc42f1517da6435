"""What is waited for: clocks, orders and loans; what lies in stock; hours by subassembly and part."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.waiting import ClockKind, WaitingKind


class Clock(Record):
    """Something that runs by itself: a bath, a coat, a cure, a joint or bed to be looked at again.

    ``low_min`` is the soonest, ``high_min`` the latest, in minutes from ``started_at``.
    """

    __tablename__ = "clock"
    __table_args__ = table_args(Index("ix_clock_machine_closed", "machine_id", "closed_at"))

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    subassembly_id: Mapped[int | None] = mapped_column(
        ForeignKey("subassembly.id", ondelete="SET NULL"), index=True
    )
    part_id: Mapped[int | None] = mapped_column(ForeignKey("part.id", ondelete="CASCADE"), index=True)
    task_id: Mapped[int | None] = mapped_column(ForeignKey("task.id", ondelete="CASCADE"), index=True)
    joint_id: Mapped[int | None] = mapped_column(ForeignKey("joint.id", ondelete="CASCADE"), index=True)
    kind: Mapped[ClockKind] = mapped_column(word(ClockKind))
    what: Mapped[str] = mapped_column(default="")
    started_at: Mapped[dt.datetime]
    low_min: Mapped[float | None]
    high_min: Mapped[float | None]
    source: Mapped[str] = mapped_column(default="")
    closed_at: Mapped[dt.datetime | None]
    closed_note: Mapped[str] = mapped_column(default="")


class Waiting(Record):
    """An order, work sent out, a quote or a loan: who, promised, arrived, inspected, returned.

    Money is in the file's own. Lead times are in days from the order, for the plan.
    """

    __tablename__ = "waiting"
    __table_args__ = table_args(Index("ix_waiting_machine_arrived", "machine_id", "arrived_at"))

    machine_id: Mapped[int | None] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    subassembly_id: Mapped[int | None] = mapped_column(
        ForeignKey("subassembly.id", ondelete="SET NULL"), index=True
    )
    part_id: Mapped[int | None] = mapped_column(ForeignKey("part.id", ondelete="SET NULL"), index=True)
    task_id: Mapped[int | None] = mapped_column(ForeignKey("task.id", ondelete="SET NULL"), index=True)
    place_id: Mapped[int | None] = mapped_column(ForeignKey("place.id", ondelete="SET NULL"), index=True)
    kind: Mapped[WaitingKind] = mapped_column(word(WaitingKind), default=WaitingKind.ORDER)
    what: Mapped[str]
    who: Mapped[str] = mapped_column(default="")
    reference: Mapped[str] = mapped_column(default="")
    quantity: Mapped[int] = mapped_column(default=1)
    sent_with: Mapped[str] = mapped_column(default="")
    price: Mapped[float | None]
    carriage: Mapped[float | None]
    tax: Mapped[float | None]
    lead_low_days: Mapped[float | None]
    lead_likely_days: Mapped[float | None]
    lead_high_days: Mapped[float | None]
    asked_at: Mapped[dt.datetime | None]
    good_until: Mapped[dt.datetime | None]
    ordered_at: Mapped[dt.datetime | None]
    promised_at: Mapped[dt.datetime | None]
    chased_at: Mapped[dt.datetime | None]
    arrived_at: Mapped[dt.datetime | None]
    inspected_at: Mapped[dt.datetime | None]
    inspected_note: Mapped[str] = mapped_column(default="")
    returned_at: Mapped[dt.datetime | None]
    note: Mapped[str] = mapped_column(default="")


class StockItem(Record):
    """Something on the shelf that a part could be made from or replaced by; looked through before an order."""

    __tablename__ = "stock_item"

    name: Mapped[str]
    material: Mapped[str] = mapped_column(default="")
    sizes: Mapped[str] = mapped_column(default="")
    thread: Mapped[str] = mapped_column(default="")
    quantity: Mapped[float | None]
    counted_in: Mapped[str] = mapped_column(default="")
    place_id: Mapped[int | None] = mapped_column(ForeignKey("place.id", ondelete="SET NULL"), index=True)
    note: Mapped[str] = mapped_column(default="")


class HoursSpent(Record):
    """How much of a session went into a subassembly or a part; what is not split stays with the machine."""

    __tablename__ = "hours_spent"

    log_entry_id: Mapped[int] = mapped_column(ForeignKey("log_entry.id", ondelete="CASCADE"), index=True)
    subassembly_id: Mapped[int | None] = mapped_column(
        ForeignKey("subassembly.id", ondelete="SET NULL"), index=True
    )
    part_id: Mapped[int | None] = mapped_column(ForeignKey("part.id", ondelete="SET NULL"), index=True)
    hours: Mapped[float]
