"""The owner's week: hours that go to the machines, and days off. It belongs to the shop, not to a machine."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import Cell, as_count, as_moment, as_text


class WorkSpells(Journaled, name="work_spell"):
    """Hours on one weekday (0 = Monday), in minutes from midnight."""

    weekday: Cell[int] = as_count()
    start_min: Cell[int] = as_count()
    end_min: Cell[int] = as_count()


class DaysOff(Journaled, name="day_off"):
    """Days without bench work, first and last included."""

    first: Cell[dt.datetime] = as_moment()
    last: Cell[dt.datetime] = as_moment()
    why: Cell[str] = as_text("")
