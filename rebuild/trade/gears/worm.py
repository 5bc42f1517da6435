"""Worm basics: lead, lead angle, ratio, centres; the wheel's helix and throat."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, cos, degrees, isfinite, pi

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.gears.pitches import Pitch
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, said

RULE = Source("Screw and gear geometry", "cylindrical worm, crossing at 90°", Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class Worm:
    """A worm and its wheel [mm, deg]."""

    lead_mm: float
    lead_angle_deg: float
    pitch_diameter_mm: float
    normal_pitch_mm: float
    ratio: float
    wheel_pitch_diameter_mm: float
    wheel_throat_mm: float
    centre_mm: float


@door()
def worm(pitch: Pitch, starts: int, worm_outside_mm: float, wheel_teeth: int) -> Worked[Worm]:
    """A worm from its axial pitch and outside diameter (addendum one module), and its wheel.

    Raises:
        BadEntry: an outside diameter that is not positive.
        OutOfRange: starts outside 1 to 10, a wheel below 12 teeth, or a worm too thin for its pitch.

    >>> from rebuild.trade.gears.pitches import read_pitch
    >>> found = worm(read_pitch("module 2"), 1, 24.0, 40).value
    >>> round(found.lead_mm, 4), round(found.lead_angle_deg, 3), found.centre_mm
    (6.2832, 5.711, 50.0)
    """
    if not (isfinite(worm_outside_mm) and worm_outside_mm > 0):
        raise BadEntry("is not a positive diameter.", where="Worm", value=said(worm_outside_mm))
    if not 1 <= starts <= 10:
        raise OutOfRange("lies outside 1 to 10 starts.", where="Worm", value=str(starts))
    if wheel_teeth < 12:
        raise OutOfRange("is below 12 teeth.", where="Wheel", value=str(wheel_teeth))
    m = pitch.module_mm
    d1 = worm_outside_mm - 2 * m
    if d1 < 4 * m:
        raise OutOfRange(
            f"leaves a pitch diameter of {said(d1, 3)}, under 4 modules: too thin a worm.",
            where="Worm",
            value=said(worm_outside_mm),
            way_out="Check that the pitch is the axial one and the starts are counted at the end.",
        )
    lead = starts * pitch.circular_pitch_mm
    gamma = atan(lead / (pi * d1))
    d2 = wheel_teeth * m
    sheet = Sheet(f"Worm, {starts} start, {pitch.name} along the axis")
    sheet.read("sizes", f"worm outside {both(worm_outside_mm)}, wheel {wheel_teeth} teeth")
    sheet.equation("lead", f"{starts} × π × {num(m):.5g} = {both(lead, 4)}", RULE)
    sheet.equation("pitch diameter", f"{num(worm_outside_mm):.5g} - 2 × {num(m):.5g} = {both(d1, 4)}", RULE)
    sheet.equation("lead angle", f"atan({num(lead):.5g} / (π × {num(d1):.5g})) = {degrees(gamma):.3f}°", RULE)
    sheet.equation("centres", f"({num(d1):.5g} + {num(d2):.5g}) / 2 = {both((d1 + d2) / 2)}", RULE)
    sheet.result(
        "ratio", f"{wheel_teeth} / {starts} = {wheel_teeth / starts:.4g}; wheel throat {both(d2 + 2 * m)}"
    )
    sheet.note("The wheel's teeth lean by the lead angle, same hand as the worm.")
    attach(sheet, "ep-and-bronze")
    found = Worm(
        lead,
        degrees(gamma),
        d1,
        pitch.circular_pitch_mm * cos(gamma),
        wheel_teeth / starts,
        d2,
        d2 + 2 * m,
        (d1 + d2) / 2,
    )
    return Worked(found, sheet.close())
