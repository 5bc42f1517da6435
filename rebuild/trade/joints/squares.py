"""Squares on round stock: corners, depth to mill, stock for sharp corners."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, said

SQUARE = Source("Geometry of a square in a circle", "corners s √2", Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class Square:
    """A square on round stock [mm]: corners over it, depth to mill each side, stock it needs."""

    corners_mm: float
    depth_mm: float
    full_from_mm: float
    corners_left: bool


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
    sheet.equation("corners", f"{num(across_mm):.5g} × √2 = {both(corners)}", SQUARE)
    sheet.equation(
        "mill",
        f"({num(stock_mm):.5g} - {num(across_mm):.5g}) / 2 = {both(found.depth_mm)} deep, four times",
    )
    if not found.corners_left:
        width = sqrt(stock_mm**2 - across_mm**2)
        sheet.note(
            f"The corners stay round: flats {width:.2f} mm wide, stock of {corners:.3f} mm leaves them sharp."
        )
    return Worked(found, sheet.close())
