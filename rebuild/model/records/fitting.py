"""The record of what is fitted at assembly, for the acts that write it."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.fitting import Fittings


class Fitting(Record, Fittings):
    """One row of ``Fittings``."""
