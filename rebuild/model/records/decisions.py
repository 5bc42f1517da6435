"""The records of ``tables/decisions``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.decisions import Concessions, DecisionOptions, OddSizes, WearRules


class DecisionOption(Record, DecisionOptions):
    """One row of ``DecisionOptions``."""


class Concession(Record, Concessions):
    """One row of ``Concessions``."""


class OddSize(Record, OddSizes):
    """One row of ``OddSizes``."""


class WearRule(Record, WearRules):
    """One row of ``WearRules``."""
