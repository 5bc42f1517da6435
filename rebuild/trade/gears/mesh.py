"""Two spur gears in mesh: operating angle, contact ratio and backlash at a centre distance."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, cos, degrees, pi, sin, sqrt

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.gears.chordal import thickness_at_mm
from rebuild.trade.gears.involute import inverse_inv
from rebuild.trade.gears.span import describe
from rebuild.trade.gears.spur import SpurGear
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, said

RULE = Source("Involute geometry", "two gears of one base pitch", Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class Mesh:
    """How two gears run: centres, operating pressure angle [deg], contact ratio, backlash [mm].

    ``tight_centre_mm`` is the centre distance without backlash.
    """

    centre_mm: float
    tight_centre_mm: float
    angle_deg: float
    contact_ratio: float
    backlash_mm: float
    tip_clearance_mm: float


@door()
def mesh(wheel: SpurGear, pinion: SpurGear, centre_mm: float | None = None) -> Worked[Mesh]:
    """How two gears mesh; at their tight centres when ``centre_mm`` is None.

    Raises:
        BadEntry: their base pitches differ, so they cannot run together.
        OutOfRange: centres so close that the base circles meet, or so far that contact is lost.

    >>> pair = mesh(SpurGear(40, 2.0, 20.0), SpurGear(20, 2.0, 20.0)).value
    >>> pair.tight_centre_mm, round(pair.contact_ratio, 3), abs(pair.backlash_mm) < 1e-9
    (60.0, 1.635, True)
    """
    if abs(wheel.base_pitch_mm - pinion.base_pitch_mm) > 1e-3 * wheel.base_pitch_mm:
        raise BadEntry(
            f"differ: {said(wheel.base_pitch_mm)} and {said(pinion.base_pitch_mm)}; the gears cannot run together.",
            where="Base pitches",
            way_out="Check module or diametral pitch and pressure angle of both.",
        )
    tight = tight_centre_mm(wheel, pinion)
    a = tight if centre_mm is None else centre_mm
    reach = (wheel.base_diameter_mm + pinion.base_diameter_mm) / 2
    if a <= reach:
        raise OutOfRange(f"is within the base circles, {said(reach)}.", where="Centres", value=said(a))
    angle = acos(reach / a)
    ratio = (_reach(wheel) + _reach(pinion) - a * sin(angle)) / wheel.base_pitch_mm
    if ratio <= 0:
        raise OutOfRange("lets the teeth lose each other.", where="Centres", value=said(a))
    backlash = _backlash(wheel, pinion, angle)
    clearance = min(
        a - wheel.outside_mm / 2 - pinion.root_mm / 2, a - pinion.outside_mm / 2 - wheel.root_mm / 2
    )
    sheet = Sheet("Two gears in mesh")
    describe(wheel, sheet)
    describe(pinion, sheet)
    sheet.equation("tight centres", both(tight, 4), RULE)
    sheet.equation("operating angle", f"acos({num(reach):.4f} / {num(a):.4f}) = {degrees(angle):.4f}°", RULE)
    sheet.equation(
        "contact ratio",
        f"length of action / base pitch {num(wheel.base_pitch_mm):.4f} = {ratio:.3f}",
        RULE,
    )
    if ratio < 1.2:
        sheet.note("Below 1.2 teeth in contact on average the mesh runs rough.")
    sheet.result("backlash", f"{both(backlash)} along the pitch circles at {both(a)}")
    return Worked(Mesh(a, tight, degrees(angle), ratio, backlash, clearance), sheet.close())


@door()
def tight_centre_mm(wheel: SpurGear, pinion: SpurGear) -> float:
    """The centre distance without backlash, from both profile shifts [mm].

    inv α' = inv α + 2 (x1 + x2) tan α / (z1 + z2).

    A worked example of gear handbooks (12 and 24 teeth of module 3, x = 0.6 and 0.36; from memory) has 56.4999 mm.

    >>> round(tight_centre_mm(SpurGear(12, 3.0, 20.0, 0.6), SpurGear(24, 3.0, 20.0, 0.36)), 4)
    56.4999
    """
    teeth = wheel.teeth + pinion.teeth
    thick = wheel.thickness_mm + pinion.thickness_mm - pi * wheel.module_mm
    angle = inverse_inv(wheel.inv_angle + thick / (teeth * wheel.module_mm))
    return (wheel.pitch_diameter_mm + pinion.pitch_diameter_mm) / 2 * cos(wheel.angle) / cos(angle)


def _reach(gear: SpurGear) -> float:
    return sqrt(max(gear.outside_mm**2 - gear.base_diameter_mm**2, 0.0)) / 2


def _backlash(wheel: SpurGear, pinion: SpurGear, angle: float) -> float:
    """Pitch less both thicknesses, all on the operating pitch circles [mm]."""
    at_wheel = wheel.base_diameter_mm / cos(angle)
    at_pinion = pinion.base_diameter_mm / cos(angle)
    pitch = pi * at_wheel / wheel.teeth
    return pitch - thickness_at_mm(wheel, at_wheel) - thickness_at_mm(pinion, at_pinion)
