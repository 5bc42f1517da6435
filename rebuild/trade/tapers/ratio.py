"""Any cone from three of its sizes: its taper 1:x, its angles, and the standard tapers near it.

1:x with x = L / (D - d); half angle α/2 = atan((D - d) / 2 L).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, degrees

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, said

RULE = Source("Geometry of a cone", "1:x, x = L / (D - d)", Status.COMPUTED)
LEAST_X, MOST_X, NEAR = 0.2, 2000.0, 0.15


@dataclass(frozen=True, slots=True)
class NearTaper:
    """A standard taper 1:x, and how far its small end lies from the one measured [mm on the diameter]."""

    x: float
    off_mm: float


@dataclass(frozen=True, slots=True)
class Ratio:
    """A cone: x of 1:x, half angle [deg], its small end and length [mm], and standard tapers near it, nearest first."""

    x: float
    half_angle_deg: float
    small_mm: float
    length_mm: float
    near: tuple[NearTaper, ...]


@door()
def cone_from_sizes(large_mm: float, small_mm: float, length_mm: float) -> Worked[Ratio]:
    """A cone from both its diameters and their distance along the axis.

    Raises:
        BadEntry: a size not above zero, or a small end not below the large one.
        OutOfRange: steeper than 1:0.2 or slimmer than 1:2000.

    >>> found = cone_from_sizes(30.0, 25.0, 60.0).value
    >>> found.x, round(found.half_angle_deg, 4), found.near[0].x
    (12.0, 2.3859, 12.0)
    """
    for where, mm in (("Large end", large_mm), ("Small end", small_mm), ("Length", length_mm)):
        if not mm > 0:
            raise BadEntry("is not above zero.", where=where, value=said(mm), way_out="Type its size.")
    if not small_mm < large_mm:
        raise BadEntry(
            f"is not below the large end of {said(large_mm, 5)}.",
            where="Small end",
            value=said(small_mm, 5),
            way_out="Swap them, or measure again.",
        )
    return _worked(large_mm, small_mm, length_mm)


@door()
def cone_from_ratio(large_mm: float, x: float, length_mm: float) -> Worked[Ratio]:
    """A cone from its large end, its taper 1:x and its length.

    Raises:
        BadEntry: a size not above zero.
        OutOfRange: steeper than 1:0.2 or slimmer than 1:2000, or so long that it comes to a point.

    >>> cone_from_ratio(30.0, 12.0, 60.0).value.small_mm
    25.0
    """
    if not (large_mm > 0 and length_mm > 0 and x > 0):
        raise BadEntry("is not above zero.", where="Cone", value=f"{large_mm:g}, 1:{x:g}, {length_mm:g}")
    small = large_mm - length_mm / x
    if small <= 0:
        raise OutOfRange(
            f"comes to a point after {said(large_mm * x, 4)}.",
            where="Length",
            value=said(length_mm, 4),
            way_out="Type the length between the two diameters.",
        )
    return _worked(large_mm, small, length_mm)


def _worked(large: float, small: float, length: float) -> Worked[Ratio]:
    x = length / (large - small)
    if not LEAST_X <= x <= MOST_X:
        raise OutOfRange(
            f"makes a taper of 1:{x:.4g}, outside 1:{LEAST_X:g} to 1:{MOST_X:g}.",
            where="Length",
            value=said(length, 5),
            way_out="Check the diameters and the length.",
        )
    half = degrees(atan((large - small) / (2 * length)))
    sheet = Sheet("A cone by its sizes")
    sheet.read("sizes", f"{both(large, 4)} to {both(small, 4)} in {both(length)}")
    sheet.equation("x", f"{num(length):.6g} / ({num(large):.6g} - {num(small):.6g}) = {x:.5g}", RULE)
    sheet.equation(
        "half angle",
        f"atan(({num(large):.6g} - {num(small):.6g}) / (2 × {num(length):.6g})) = {half:.5f}°",
        RULE,
    )
    found = table("taper_ratios")
    near: list[NearTaper] = []
    for row in sorted(found.rows, key=lambda row: abs(float(row["x"]) / x - 1)):
        standard = float(row["x"])
        if abs(standard / x - 1) <= NEAR and len(near) < 3:
            off = small - (large - length / standard)
            near.append(NearTaper(standard, off))
            sheet.table(
                f"1:{standard:.5g}", f"its small end would be {off:+.4f} mm smaller", found.row_source(row)
            )
    sheet.note("A worn cone is measured where nothing ran: near both ends, and not on the ridge.")
    return Worked(Ratio(x, half, small, length, tuple(near)), sheet.close())
