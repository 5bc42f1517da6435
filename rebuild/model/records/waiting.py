"""The records of ``tables/waiting``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.waiting import Clocks, StockItems, Waitings


class Clock(Record, Clocks):
    """One row of ``Clocks``."""


class Waiting(Record, Waitings):
    """One row of ``Waitings``."""


class StockItem(Record, StockItems):
    """One row of ``StockItems``."""
