"""The records of ``tables/log``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.log import LogEntries, Questions, SpentHours


class Question(Record, Questions):
    """One row of ``Questions``."""


class LogEntry(Record, LogEntries):
    """One row of ``LogEntries``."""


class HoursSpent(Record, SpentHours):
    """One row of ``SpentHours``."""
