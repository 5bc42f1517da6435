"""Gauging a cone: over rollers on a plate, with two balls in a bore, and what blueing stand-off means.

All three turn a contact reading on a round roller or ball into the cone itself, which a micrometer on a
slope cannot give.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, said

_GEOMETRY = Source("Geometry of a roller or ball on a cone", "", Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class Cone:
    """A cone as gauged: half angle [degrees], rate on diameter, and one end's diameter.

    ``end_mm`` is the diameter [mm] at the end on the plate, or at the face of the bore.
    """

    half_angle_deg: float
    rate: float
    end_mm: float


@door()
def over_rollers(low_mm: float, high_mm: float, height_mm: float, roller_mm: float) -> Worked[Cone]:
    """A plug standing small end down on a plate, measured over two rollers, then again on blocks.

    ``low_mm`` is over the rollers resting on the plate, ``high_mm`` with both rollers on blocks of
    ``height_mm``; ``roller_mm`` is the rollers' diameter. tan(half angle) = (high - low) / (2 height).

    Raises:
        BadEntry: the readings do not taper.

    >>> round(over_rollers(31.0, 33.0, 40.0, 6.0).value.rate, 4)
    0.05
    """
    if height_mm <= 0 or roller_mm <= 0 or high_mm <= low_mm:
        raise BadEntry(
            "do not describe a cone standing on its small end.",
            where="Readings over rollers",
            value=f"{said(low_mm)} and {said(high_mm)}",
            way_out="The reading on the blocks is the larger one; block height and roller are above zero.",
        )
    half = math.atan((high_mm - low_mm) / (2.0 * height_mm))
    contact = roller_mm * (1.0 + 1.0 / math.cos(half) + math.tan(half))
    # The roller's centre stands its radius above the plate; the small end is the cone met at the plate.
    small = low_mm - contact
    sheet = Sheet("Cone over two rollers")
    sheet.read("over rollers on the plate", both(low_mm))
    sheet.read(f"on blocks of {said(height_mm)}", both(high_mm))
    sheet.equation(
        "half angle",
        f"atan(({num(high_mm):.4f} - {num(low_mm):.4f}) / (2 x {num(height_mm):.6g})) = {math.degrees(half):.4f}°",
        _GEOMETRY,
    )
    sheet.equation(
        "small end",
        f"M - d (1 + 1/cos a + tan a) = {num(low_mm):.4f} - {num(contact):.4f} = {both(small)}",
        _GEOMETRY,
    )
    if small <= 0:
        raise OutOfRange("leaves no small end: the rollers are too large for the readings.", where="Rollers")
    return Worked(Cone(math.degrees(half), 2.0 * math.tan(half), small), sheet.close())


@door()
def two_balls(small_ball_mm: float, small_depth_mm: float, ball_mm: float, depth_mm: float) -> Worked[Cone]:
    """A tapered bore gauged with two balls: diameters, and depth from the face to each ball's top.

    A depth is negative where the ball stands proud. sin(half angle) = (R - r) / (distance of centres).
    ``Cone.end_mm`` is the bore's diameter at its face (the large end of the bore).

    Raises:
        BadEntry: the balls or depths cannot be so in one cone.

    >>> cone = two_balls(10.0, 15.0, 20.0, 0.0).value  # centres 10 mm apart, radii differ by 5 mm: sin a = 1/2
    >>> round(cone.half_angle_deg, 6), round(cone.end_mm, 3)  # face: 2 (10/cos 30° + 10 tan 30°)
    (30.0, 34.641)
    """
    if not 0 < small_ball_mm < ball_mm:
        raise BadEntry(
            "are not a small and a large ball.",
            where="Balls",
            value=f"{said(small_ball_mm)} and {said(ball_mm)}",
            way_out="Type the smaller ball first.",
        )
    r, big = small_ball_mm / 2.0, ball_mm / 2.0
    centres = (small_depth_mm + r) - (depth_mm + big)
    if centres <= big - r:
        raise BadEntry(
            "cannot be: the small ball must lie well below the large one.",
            where="Depths",
            value=f"{said(small_depth_mm)} and {said(depth_mm)}",
            way_out="Depth is from the face down to the top of the ball; proud is negative.",
        )
    half = math.asin((big - r) / centres)
    face = 2.0 * (big / math.cos(half) + (depth_mm + big) * math.tan(half))
    sheet = Sheet("Tapered bore with two balls")
    sheet.read("small ball and its depth", f"{both(small_ball_mm)}, {both(small_depth_mm, 4)}")
    sheet.read("large ball and its depth", f"{both(ball_mm)}, {both(depth_mm, 4)}")
    sheet.equation("distance of centres", both(centres, 4), _GEOMETRY)
    sheet.equation(
        "half angle",
        f"asin(({num(big):.6g} - {num(r):.6g}) / {num(centres):.4f}) = {math.degrees(half):.4f}°",
        _GEOMETRY,
    )
    sheet.equation("bore at the face", f"2 (R/cos a + (h + R) tan a) = {both(face)}", _GEOMETRY)
    return Worked(Cone(math.degrees(half), 2.0 * math.tan(half), face), sheet.close())


@door()
def stand_off(diameter_off_mm: float, rate: float) -> float:
    """How far a gauge stands out [mm] when a bore is ``diameter_off_mm`` small on diameter.

    >>> round(stand_off(0.0254, 0.05), 3)
    0.508
    """
    if rate <= 0:
        raise BadEntry("is not a taper.", where="Rate", value=f"{rate:g}")
    return diameter_off_mm / rate
