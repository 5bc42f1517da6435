"""The records of ``tables/places``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.places import Places


class Place(Record, Places):
    """One row of ``Places``."""
