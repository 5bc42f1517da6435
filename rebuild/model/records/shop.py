"""The records of ``tables/shop``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.shop import KeptEntries, Settings


class Setting(Record, Settings):
    """One row of ``Settings``."""


class KeptEntry(Record, KeptEntries):
    """One row of ``KeptEntries``."""
