"""The records of ``tables/means``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.means import Means, StepMeans


class OneMeans(Record, Means):
    """One row of ``Means``."""


class OneStepMeans(Record, StepMeans):
    """One row of ``StepMeans``."""
