"""The records of ``tables/documents``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.documents import CallOuts, DocumentPages, Documents


class Document(Record, Documents):
    """One row of ``Documents``."""


class DocumentPage(Record, DocumentPages):
    """One row of ``DocumentPages``."""


class CallOut(Record, CallOuts):
    """One row of ``CallOuts``."""
