"""The records of ``tables/run_in``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.run_in import CutTests, RunLooks, RunReadings, RunSteps


class RunStep(Record, RunSteps):
    """One row of ``RunSteps``."""


class RunReading(Record, RunReadings):
    """One row of ``RunReadings``."""


class CutTest(Record, CutTests):
    """One row of ``CutTests``."""


class RunLook(Record, RunLooks):
    """One row of ``RunLooks``."""
