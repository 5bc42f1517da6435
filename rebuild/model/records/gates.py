"""The records of ``tables/gates``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.gates import Overrides


class Override(Record, Overrides):
    """One row of ``Overrides``."""
