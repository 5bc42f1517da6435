"""Belts over two pulleys: length for centres, centres for a length, arc of contact; open and crossed, exact.

Diameters are those the belt runs at: the pitch diameter of a V-belt pulley, the outside plus a belt's thickness of a
flat one. Open: L = 2 √(C² - (R - r)²) + R (π + 2β) + r (π - 2β), sin β = (R - r) / C. Crossed: both arcs π + 2β,
sin β = (R + r) / C.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, degrees, hypot, pi, sqrt

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, said

RULE = Source("Geometry of a belt", "two arcs and two tangents", Status.COMPUTED)
GRIP = Source("Arc of contact", "below 120° on the small pulley a belt slips early", Status.COMMON_PRACTICE)
OPEN, CROSSED = "open", "crossed"
LEAST_ARC_DEG = 120.0


@dataclass(frozen=True, slots=True)
class Belt:
    """A belt: its length and centres [mm], arc of contact of small and large pulley [deg], ratio of speeds."""

    length_mm: float
    centres_mm: float
    small_arc_deg: float
    large_arc_deg: float
    ratio: float


@door()
def belt_length(first_mm: float, second_mm: float, centres_mm: float, way: str = OPEN) -> Worked[Belt]:
    """The belt for two pulleys at a distance of centres.

    Args:
        first_mm: driving pulley, diameter the belt runs at.
        second_mm: driven pulley.
        centres_mm: between the shafts.
        way: open or crossed.

    Raises:
        BadEntry: a size not above zero, or no such way.
        OutOfRange: pulleys that touch (crossed) or overlap (open) at these centres.

    >>> round(belt_length(500.0, 1600.0, 12000.0).value.length_mm / 1000, 2)
    27.32
    """
    _check(first_mm, second_mm, way)
    large, small = max(first_mm, second_mm) / 2, min(first_mm, second_mm) / 2
    least = large + small
    if not centres_mm > least:
        raise OutOfRange(
            f"lets the pulleys touch; they need more than {said(least, 4)}.",
            where="Centres",
            value=said(centres_mm),
            way_out="Measure between the middles of the shafts.",
        )
    found = _belt(first_mm, second_mm, centres_mm, way)
    sheet = Sheet(f"{way.capitalize()} belt over two pulleys")
    _tell(sheet, first_mm, second_mm, way, found)
    sheet.result("length", both(found.length_mm, 1))
    return Worked(found, sheet.close())


@door()
def centres_for(first_mm: float, second_mm: float, length_mm: float, way: str = OPEN) -> Worked[Belt]:
    """The centres a belt of known length stretches to.

    Raises:
        BadEntry: a size not above zero, or no such way.
        OutOfRange: a belt too short for these pulleys.

    >>> belt = belt_length(105.0, 393.0, 697.0).value
    >>> round(centres_for(105.0, 393.0, belt.length_mm).value.centres_mm, 6)
    697.0
    """
    _check(first_mm, second_mm, way)
    low = (first_mm + second_mm) / 2
    shortest = _length(first_mm / 2, second_mm / 2, low * (1 + 1e-12), way)
    if not length_mm > shortest:
        raise OutOfRange(
            f"is too short for these pulleys; it must be above {said(shortest)}.",
            where="Length of the belt",
            value=said(length_mm),
            way_out="Measure the belt inside, along the line it runs at.",
        )
    high = length_mm
    for _ in range(200):
        middle = (low + high) / 2
        if _length(first_mm / 2, second_mm / 2, middle, way) < length_mm:
            low = middle
        else:
            high = middle
    found = _belt(first_mm, second_mm, (low + high) / 2, way)
    sheet = Sheet(f"Centres of an {way} belt" if way == OPEN else "Centres of a crossed belt")
    _tell(sheet, first_mm, second_mm, way, found)
    sheet.note("Leave room to slacken it off for fitting and to take up stretch.")
    sheet.result("centres", both(found.centres_mm, 1))
    return Worked(found, sheet.close())


def _length(first: float, second: float, centres: float, way: str) -> float:
    off = abs(first - second) if way == OPEN else first + second
    beta = asin(min(off / centres, 1.0))
    straight = 2 * sqrt(max(centres**2 - off**2, 0.0))
    if way == CROSSED:
        return straight + (first + second) * (pi + 2 * beta)
    return straight + pi * (first + second) + 2 * beta * off


def _belt(first_mm: float, second_mm: float, centres_mm: float, way: str) -> Belt:
    first, second = first_mm / 2, second_mm / 2
    off = abs(first - second) if way == OPEN else first + second
    beta = degrees(2 * asin(off / centres_mm))
    small = 180.0 - beta if way == OPEN else 180.0 + beta
    return Belt(
        _length(first, second, centres_mm, way), centres_mm, small, 180.0 + beta, first_mm / second_mm
    )


def _check(first_mm: float, second_mm: float, way: str) -> None:
    if way not in (OPEN, CROSSED):
        raise BadEntry("is no way to run a belt.", where="Belt", value=way, way_out="Choose open or crossed.")
    for where, mm in (("Driving pulley", first_mm), ("Driven pulley", second_mm)):
        if not 0.1 <= mm <= 1e5:
            raise OutOfRange("is outside 0.1 to 100 000 mm.", where=where, value=said(mm))


def _tell(sheet: Sheet, first_mm: float, second_mm: float, way: str, found: Belt) -> None:
    off = abs(first_mm - second_mm) / 2 if way == OPEN else (first_mm + second_mm) / 2
    tangent = hypot(found.centres_mm, 0.0) ** 2 - off**2
    sheet.read("pulleys", f"{both(first_mm)} drives {both(second_mm)}")
    sheet.equation(
        "sin β", f"{num(off):.5g} / {num(found.centres_mm):.6g} = {off / found.centres_mm:.5f}", RULE
    )
    sheet.equation(
        "each straight",
        f"√({num(found.centres_mm):.6g}² - {num(off):.5g}²) = {both(sqrt(max(tangent, 0.0)), 2)}",
        RULE,
    )
    sheet.equation("arcs", f"small {found.small_arc_deg:.1f}°, large {found.large_arc_deg:.1f}°", RULE)
    sheet.equation("length", f"two straights and two arcs = {both(found.length_mm, 2)}", RULE)
    if found.small_arc_deg < LEAST_ARC_DEG:
        sheet.note(f"Only {found.small_arc_deg:.0f}° of the small pulley are wrapped.", GRIP)
    sheet.note(
        "Diameters are those the belt runs at: pitch diameter of a V, outside plus belt thickness of a flat."
    )
    attach(sheet, "guards")
