"""The records of ``tables/making``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.making import (
    MakingDetails,
    MakingDimensions,
    MakingSheets,
    MakingSteps,
    MakingTools,
)


class MakingSheet(Record, MakingSheets):
    """One row of ``MakingSheets``."""


class MakingDimension(Record, MakingDimensions):
    """One row of ``MakingDimensions``."""


class MakingStep(Record, MakingSteps):
    """One row of ``MakingSteps``."""


class MakingTool(Record, MakingTools):
    """One row of ``MakingTools``."""


class MakingDetail(Record, MakingDetails):
    """One row of ``MakingDetails``."""
