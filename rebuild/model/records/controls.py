"""The record of ``tables/controls``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.controls import Controls


class Control(Record, Controls):
    """One row of ``Controls``."""
