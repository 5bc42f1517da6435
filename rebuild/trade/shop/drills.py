"""Twist drills one can buy: number, letter and fractional inch, and metric by tenths.

Inch sizes stand in ``assets/tables/twist_drills_inch.csv`` (from memory, checked in the tests against an
independent table). Metric sizes are counted by 0.1 mm to 14 mm and by 0.5 mm to 50 mm: what is commonly sold.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Source, Status
from rebuild.trade.sizes.own_unit import said

_METRIC = Source(
    "Metric drills as commonly sold", "0.1 mm steps to 14 mm, then 0.5 mm", Status.COMMON_PRACTICE
)


@dataclass(frozen=True, slots=True)
class Drill:
    """One drill: what it is called and its diameter [mm]."""

    name: str
    mm: float
    series: str
    source: Source


@cache
def drills(series: str = "inch") -> tuple[Drill, ...]:
    """Every drill of the ``inch`` or ``metric`` series, small to large.

    Raises:
        BadEntry: no such series.

    No. 7 is 0.2010 in (ASME B94.11M).

    >>> next(round(drill.mm / 25.4, 4) for drill in drills() if drill.name == "No. 7")
    0.201
    """
    if series not in ("inch", "metric"):
        raise BadEntry(
            "is not a series of drills.", where="Drills", value=f"{series}", way_out="Choose inch or metric."
        )
    if series == "metric":
        tenths = [n / 10 for n in range(5, 140)] + [14 + n / 2 for n in range(73)]
        return tuple(Drill(f"{mm:.1f} mm", mm, "metric", _METRIC) for mm in tenths)
    found = table("twist_drills_inch")
    rows = [
        Drill(row["drill"], round(float(row["dia_in"]) * 25.4, 6), row["series"], found.source)
        for row in found.rows
    ]
    return tuple(sorted(rows, key=lambda drill: drill.mm))


@door()
def largest_not_above(limit_mm: float, series: str = "inch") -> Drill:
    """The largest drill that does not pass ``limit_mm``.

    Raises:
        OutOfRange: smaller than the smallest drill, or above the largest by more than its step.

    >>> largest_not_above(0.2031 * 25.4).name
    '13/64 in'
    """
    fitting = [drill for drill in drills(series) if drill.mm <= limit_mm + 0.003]
    top = drills(series)[-1]
    if not fitting or limit_mm > top.mm + 1.0:
        low = drills(series)[0]
        raise OutOfRange(
            f"is outside the drills: {low.name} to {top.name} ({top.source.cite()}).",
            where="Drill",
            value=said(limit_mm),
            way_out="Bore the hole instead.",
        )
    return fitting[-1]
