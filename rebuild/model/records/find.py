"""How far the index of words follows the journal, as a record."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.find import FindMarks


class FindMark(Record, FindMarks):
    """One row of ``FindMarks``."""
