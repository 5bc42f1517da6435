"""The records of ``tables/places``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.places import Places, Stays


class Place(Record, Places):
    """One row of ``Places``."""


class Stay(Record, Stays):
    """One row of ``Stays``."""
