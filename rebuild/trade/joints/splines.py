"""Straight-sided splines (ISO 14) from what a caliper reads, and squares on round stock."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, degrees, pi, sin, sqrt

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, said
from rebuild.trade.sizes.show import show_both

SQUARE = Source("Geometry of a square in a circle", "corners s √2", Status.COMPUTED)
SIDES = Source("Geometry of a spline", "half angle asin(B / d)", Status.COMPUTED)
NEAR_MM = 1.0


@dataclass(frozen=True, slots=True)
class Spline:
    """A straight-sided spline [mm]."""

    series: str
    splines: int
    minor_mm: float
    outside_mm: float
    width_mm: float
    source: Source

    @property
    def name(self) -> str:
        """``6 x 23 x 26``."""
        return f"{self.splines} x {self.minor_mm:g} x {self.outside_mm:g}"

    @property
    def height_mm(self) -> float:
        """Height of a spline, a half of outside less minor."""
        return (self.outside_mm - self.minor_mm) / 2

    @property
    def gap_mm(self) -> float:
        """Chord between neighbouring splines along the minor circle."""
        half = asin(self.width_mm / self.minor_mm)
        open_angle = pi / self.splines - half
        return self.minor_mm * sin(open_angle)


@dataclass(frozen=True, slots=True)
class Square:
    """A square on round stock [mm]: corners over it, depth to mill each side, stock it needs."""

    corners_mm: float
    depth_mm: float
    full_from_mm: float
    corners_left: bool


@door()
def identify_spline(splines: int, outside_mm: float, width_mm: float) -> Worked[tuple[Spline, ...]]:
    """The splines that a count, an outside and a width may be, best first.

    Raises:
        BadEntry: a count or size not above zero.
        OutOfRange: none within 1 mm.

    >>> identify_spline(6, 25.8, 5.9).value[0].name
    '6 x 23 x 26'
    """
    if splines < 1 or not (outside_mm > 0 and width_mm > 0):
        raise BadEntry(
            "are not readings above zero.", where="Splines", value=f"{splines}, {outside_mm:g}, {width_mm:g}"
        )
    found = table("splines_iso14")
    held = tuple(
        Spline(
            row["series"],
            round(float(row["splines"])),
            float(row["minor_mm"]),
            float(row["outside_mm"]),
            float(row["width_mm"]),
            found.row_source(row),
        )
        for row in found.rows
    )
    near = sorted(
        (
            (max(abs(one.outside_mm - outside_mm), abs(one.width_mm - width_mm)), one.name, one)
            for one in held
            if one.splines == splines
        ),
        key=lambda one: one[:2],
    )
    close = [(off, one) for off, _, one in near if off <= NEAR_MM][:3]
    if not close:
        counts = sorted({one.splines for one in held})
        raise OutOfRange(
            f"splines of {outside_mm:g} outside and {width_mm:g} wide are not in {found.source.name}.",
            where="Splines",
            value=str(splines),
            way_out=f"Held: {', '.join(map(str, counts))} splines; older feed shafts have makers' own: copy the shaft.",
        )
    sheet = Sheet("Which straight-sided spline")
    sheet.read(
        "readings",
        f"{splines} splines, {both(outside_mm)} outside, {both(width_mm)} wide",
    )
    for off, one in close:
        sheet.table(
            one.name, f"{one.series} series, splines {one.width_mm:g} wide; off by {off:.2f} mm", one.source
        )
    best = close[0][1]
    sheet.equation("height", f"({best.outside_mm:g} - {best.minor_mm:g}) / 2 = {best.height_mm:.3f} mm")
    sheet.equation(
        "half angle of a spline",
        f"asin({best.width_mm:g} / {best.minor_mm:g}) = {degrees(asin(best.width_mm / best.minor_mm)):.3f}°",
        SIDES,
    )
    sheet.note("ISO 14 centres on the minor diameter: that is the one to fit.", best.source)
    return Worked(tuple(one for _, one in close), sheet.close())


@door()
def square(across_mm: float, stock_mm: float) -> Worked[Square]:
    """A square milled on round stock.

    Raises:
        BadEntry: a size not above zero.
        OutOfRange: stock thinner than the square.

    >>> found = square(14.0, 20.0).value
    >>> round(found.corners_mm, 3), found.depth_mm
    (19.799, 3.0)
    """
    if not (across_mm > 0 and stock_mm > 0):
        raise BadEntry("is not above zero.", where="Square", value=f"{said(across_mm)} on {said(stock_mm)}")
    if stock_mm <= across_mm:
        raise OutOfRange(
            "is not above the square across its flats.",
            where="Stock",
            value=said(stock_mm, 4),
            way_out=f"Take more than {said(across_mm, 4)}.",
        )
    corners = across_mm * sqrt(2.0)
    found = Square(min(corners, stock_mm), (stock_mm - across_mm) / 2, corners, stock_mm >= corners)
    sheet = Sheet("Square on round stock")
    sheet.equation("corners", f"{across_mm:.5g} × √2 = {show_both(corners, 'mm')}", SQUARE)
    sheet.equation(
        "mill", f"({stock_mm:.5g} - {across_mm:.5g}) / 2 = {found.depth_mm:.3f} mm deep, four times"
    )
    if not found.corners_left:
        width = sqrt(stock_mm**2 - across_mm**2)
        sheet.note(
            f"The corners stay round: flats {width:.2f} mm wide, stock of {corners:.3f} mm leaves them sharp."
        )
    return Worked(found, sheet.close())
