"""The records of ``tables/photos``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.photos import PhotoMarks, Photos


class Photo(Record, Photos):
    """One row of ``Photos``."""


class PhotoMark(Record, PhotoMarks):
    """One row of ``PhotoMarks``."""
