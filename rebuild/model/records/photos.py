"""The records of ``tables/photos``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.photos import Cameras, MarkParts, PhotoMarks, Photos, PhotoSubjects


class Photo(Record, Photos):
    """One row of ``Photos``."""


class PhotoSubject(Record, PhotoSubjects):
    """One row of ``PhotoSubjects``."""


class Camera(Record, Cameras):
    """One row of ``Cameras``."""


class PhotoMark(Record, PhotoMarks):
    """One row of ``PhotoMarks``."""


class MarkPart(Record, MarkParts):
    """One row of ``MarkParts``."""
