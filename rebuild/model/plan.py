"""The owner's week: hours that go to the machines, and days off. It belongs to the shop, not to a machine."""

from __future__ import annotations

import datetime as dt

from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record


class WorkSpell(Record):
    """Hours on one weekday (0 = Monday), in minutes from midnight."""

    __tablename__ = "work_spell"

    weekday: Mapped[int]
    start_min: Mapped[int]
    end_min: Mapped[int]


class DayOff(Record):
    """Days without bench work, first and last included."""

    __tablename__ = "day_off"

    first: Mapped[dt.datetime]
    last: Mapped[dt.datetime]
    why: Mapped[str] = mapped_column(default="")
