"""The records of ``tables/features``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.features import Features, Stations


class Feature(Record, Features):
    """One row of ``Features``."""


class Station(Record, Stations):
    """One row of ``Stations``."""
