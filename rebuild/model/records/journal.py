"""The records of ``tables/journal``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.journal import Acts, Changes


class ActRow(Record, Acts):
    """One row of ``Acts``."""


class Change(Record, Changes):
    """One row of ``Changes``."""
