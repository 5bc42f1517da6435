"""Limits as a maker can read them: rounded inwards, and the general tolerance where nothing else is asked."""

from __future__ import annotations

import math
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from rebuild.errors import OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Worked
from rebuild.trade.sizes.show import DECIMALS

#: Rounding inwards may take this share of the tolerance; then one more decimal is used.
MOST_LOST = 0.2
#: Binary dust [mm]: nearer than this to a whole digit is that digit.
_BEYOND = Decimal(10) ** 15
_DUST = Decimal("1e-7")


@door()
def inward(low_mm: float | None, high_mm: float | None, unit: str) -> tuple[float | None, float | None]:
    """Limits rounded inwards to the decimals of the shop, so that what is printed is never wider [mm].

    Limits that need just one more decimal (a 3/32 in key) keep it.

    >>> inward(24.98812, 25.00249, "mm")
    (24.989, 25.002)
    >>> [round(end / 25.4, 5) for end in inward(20.66544, 20.6756, "in")]
    [0.8136, 0.814]
    """
    if low_mm is None or high_mm is None:
        places = DECIMALS[unit]
        return _round(low_mm, unit, places, up=True), _round(high_mm, unit, places, up=False)
    if all(_whole(end, unit, DECIMALS[unit] + 1) for end in (low_mm, high_mm)):
        finer = DECIMALS[unit] + 1
        return _round(low_mm, unit, finer, up=True), _round(high_mm, unit, finer, up=False)
    width = high_mm - low_mm
    for places in range(DECIMALS[unit], DECIMALS[unit] + 3):
        low, high = _round(low_mm, unit, places, up=True), _round(high_mm, unit, places, up=False)
        assert low is not None
        assert high is not None
        if high >= low and width - (high - low) <= MOST_LOST * width + 1e-9:
            return low, high
    return low_mm, high_mm


def _whole(mm: float, unit: str, places: int) -> bool:
    value = Decimal(repr(mm)) / (Decimal("25.4") if unit == "in" else Decimal(1))
    if abs(value) > _BEYOND:  # from a stranger's file: no figure of it lies behind the point
        return True
    return abs(value.quantize(Decimal(1).scaleb(-places)) - value) < _DUST


def _round(mm: float | None, unit: str, places: int, *, up: bool) -> float | None:
    if mm is None:
        return None
    scale = Decimal("25.4") if unit == "in" else Decimal(1)
    value = Decimal(repr(mm)) / scale
    step = Decimal(1).scaleb(-places)
    if abs(value) > _BEYOND:
        return mm
    nearest = value.quantize(step)
    if abs(nearest - value) * scale < _DUST:
        return float(nearest * scale)
    return float(value.quantize(step, rounding=ROUND_CEILING if up else ROUND_FLOOR) * scale)


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
def general_in_shop(tolerance_mm: float, unit: str) -> float:
    """A general tolerance as the shop writes it: in inches rounded down to a thousandth [mm].

    >>> round(general_in_shop(0.3, "in") / 25.4, 4)
    0.011
    """
    if unit != "in":
        return tolerance_mm
    return max(math.floor(tolerance_mm / 0.0254 + 1e-9), 1) * 0.0254
