"""The records of ``tables/plan``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.plan import DaysOff, WorkSpells


class WorkSpell(Record, WorkSpells):
    """One row of ``WorkSpells``."""


class DayOff(Record, DaysOff):
    """One row of ``DaysOff``."""
