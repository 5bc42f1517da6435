"""What a row of the instruments tells of how far one reaches, what it measures and the unit of its scale."""

from __future__ import annotations

from typing import Any

from rebuild.model.tables.readings import Instruments
from rebuild.trade.limits.reach import Reach, reach_of

#: The columns ``reach_in`` reads beside name and resolution.
SCALE = (
    Instruments.kind,
    Instruments.unit,
    Instruments.resolution_unit,
    Instruments.least_unit,
    Instruments.most_unit,
    Instruments.least_mm,
    Instruments.most_mm,
    Instruments.measures,
)


def reach_in(row: Any) -> Reach:
    """The reach told by a row with ``name``, ``resolution_mm`` and the columns of ``SCALE``."""
    return reach_of(
        row.name,
        row.kind,
        row.unit,
        least_mm=row.least_mm,
        most_mm=row.most_mm,
        measures=row.measures or "",
        scale=row.resolution_unit or row.least_unit or row.most_unit,
        resolution_mm=row.resolution_mm,
    )
