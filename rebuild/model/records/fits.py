"""The records of ``tables/fits``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.fits import Fits, LaterMates


class Fit(Record, Fits):
    """One row of ``Fits``."""


class LaterMate(Record, LaterMates):
    """One row of ``LaterMates``."""
