"""The records of ``tables/readings``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.readings import Instruments, Readings, Unplaced


class Instrument(Record, Instruments):
    """One row of ``Instruments``."""


class Reading(Record, Readings):
    """One row of ``Readings``."""


class UnplacedValue(Record, Unplaced):
    """One row of ``Unplaced``."""
