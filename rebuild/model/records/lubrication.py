"""The records of ``tables/lubrication``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.lubrication import OilPoints


class OilPoint(Record, OilPoints):
    """One row of ``OilPoints``."""
