"""Clearance holes for metric bolts (ISO 273), fine, medium and coarse."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.limits.iso286 import it_grade_um
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Worked

#: Series and the tolerance grade of its holes.
SERIES = {"fine": "12", "medium": "13", "coarse": "14"}


@dataclass(frozen=True, slots=True)
class ClearanceHole:
    """A clearance hole [mm] with its H limits."""

    thread_mm: float
    hole_mm: float
    high_mm: float
    source: Source


@door()
def clearance_hole(thread_mm: float, series: str = "medium") -> Worked[ClearanceHole]:
    """The clearance hole of a bolt.

    Raises:
        BadEntry: no such series.
        OutOfRange: a bolt that is not in the table.

    >>> clearance_hole(10.0).value.hole_mm
    11.0
    """
    if series not in SERIES:
        raise BadEntry("is no series.", where="Series", value=series, way_out=f"Choose {', '.join(SERIES)}.")
    found = table("clearance_holes_iso273")
    for row in found.rows:
        if abs(float(row["thread_mm"]) - thread_mm) < 1e-6:
            hole = {
                "fine": float(row["fine_mm"]),
                "medium": float(row["medium_mm"]),
                "coarse": float(row["coarse_mm"]),
            }[series]
            width = it_grade_um(hole, SERIES[series]) / 1000.0
            sheet = Sheet(f"Clearance hole for M{thread_mm:g}")
            sheet.table(series, f"{hole:g} mm, H{SERIES[series]}", found.row_source(row))
            sheet.equation("limits", f"{hole:.3f} to {hole + width:.3f} mm")
            sheet.note("A hole that locates is no clearance hole: dowel the joint, or fit the bolt.")
            return Worked(ClearanceHole(thread_mm, hole, hole + width, found.row_source(row)), sheet.close())
    sizes = ", ".join(row["thread_mm"] for row in found.rows)
    raise OutOfRange(
        "is no bolt of the table.", where="Bolt", value=f"M{thread_mm:g}", way_out=f"Held: {sizes}."
    )
