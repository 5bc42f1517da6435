"""The records of ``tables/fits``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.fits import Fits


class Fit(Record, Fits):
    """One row of ``Fits``."""
