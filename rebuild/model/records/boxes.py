"""The records of ``tables/boxes``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.boxes import BoxThings, Clues, MergedParts


class BoxThing(Record, BoxThings):
    """One row of ``BoxThings``."""


class Clue(Record, Clues):
    """One row of ``Clues``."""


class MergedPart(Record, MergedParts):
    """One row of ``MergedParts``."""
