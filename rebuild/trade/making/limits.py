"""The general tolerance of a size nothing else is asked of, as the shop writes it."""

from __future__ import annotations

import math

from rebuild.errors import OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Worked


@door()
def general(size_mm: float, kind: str = "length") -> Worked[float]:
    """The general tolerance (±) of a size nothing else is asked of [mm].

    Raises:
        OutOfRange: outside the table.

    >>> general(40.0).value, general(1.0, "chamfer").value
    (0.3, 0.2)
    """
    found = table("general_tolerances")
    which = "chamfer" if kind == "chamfer" else "length"
    rows = [row for row in found.rows if row["kind"] == which]
    for row in rows:
        if float(row["over_mm"]) - 1e-9 <= size_mm <= float(row["to_mm"]) + 1e-9:
            sheet = Sheet("General tolerance")
            tolerance = float(row["tolerance_mm"])
            sheet.table(
                f"{which} over {row['over_mm']} to {row['to_mm']} mm", f"± {tolerance:g} mm", found.source
            )
            return Worked(tolerance, sheet.close())
    raise OutOfRange(
        f"lies outside {rows[0]['over_mm']} to {rows[-1]['to_mm']} mm of {found.source.cite()}.",
        where=which.capitalize(),
        value=f"{size_mm:g} mm",
        way_out="Type its limits.",
    )


@door()
def general_words(unit: str, largest_mm: float = math.inf) -> str:
    """What holds for lengths without limits up to the largest, in the unit of the sheet.

    >>> general_words("in", 100.0)
    'ISO 2768-m, in inches: to 0.236 ±0.003, to 1.181 ±0.007, to 4.724 ±0.011'
    >>> general_words("mm")
    'ISO 2768-m'
    """
    if unit != "in":
        return "ISO 2768-m"
    rows = [row for row in table("general_tolerances").rows if row["kind"] == "length"]
    told: dict[float, float] = {}
    for row in rows:
        if float(row["over_mm"]) >= largest_mm:
            break
        told[general_in_shop(float(row["tolerance_mm"]), unit) / 25.4] = float(row["to_mm"]) / 25.4
    steps = ", ".join(f"to {to:.3f} ±{band:.3f}" for band, to in told.items())
    return f"ISO 2768-m, in inches: {steps}"


@door()
def general_in_shop(tolerance_mm: float, unit: str) -> float:
    """A general tolerance as the shop writes it: in inches rounded down to a thousandth [mm].

    >>> round(general_in_shop(0.3, "in") / 25.4, 4)
    0.011
    """
    if unit != "in":
        return tolerance_mm
    return max(math.floor(tolerance_mm / 0.0254 + 1e-9), 1) * 0.0254
