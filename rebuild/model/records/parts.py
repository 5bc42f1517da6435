"""The records of ``tables/parts``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.parts import MatchedSets, Parts


class MatchedSet(Record, MatchedSets):
    """One row of ``MatchedSets``."""


class Part(Record, Parts):
    """One row of ``Parts``."""
