"""Tooth thickness by gear-tooth caliper: chordal thickness and chordal addendum, spur and helical.

The tooth's half angle ψ = 90°/z + 360 x tan α/(π z); thickness m z sin ψ, height
m z (1 - cos ψ)/2 + addendum. A helical gear is measured across its virtual spur gear,
z / cos³ β teeth of the normal module.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, degrees, pi, radians, sin, tan

from rebuild.errors import OutOfRange
from rebuild.trade.gears.span import describe
from rebuild.trade.gears.spur import SpurGear, check_thinning
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, said

RULE = Source("Involute geometry", "chordal thickness of the (virtual) spur gear", Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class Chord:
    """What the gear-tooth caliper is set to (addendum) and reads (thickness) [mm]; half angle [deg]."""

    virtual_teeth: float
    arc_mm: float
    half_angle_deg: float
    thickness_mm: float
    addendum_mm: float


@door()
def chord(
    gear: SpurGear, *, helix_deg: float = 0.0, addendum_mm: float | None = None, thin_mm: float = 0.0
) -> Worked[Chord]:
    """Chordal thickness and addendum at the reference circle.

    Args:
        gear: teeth and normal module, pressure angle and shift.
        helix_deg: helix angle, 0 for a spur gear.
        addendum_mm: from the reference circle to the measured tip; take the outside diameter as it is
            into account. The theoretical one when None.
        thin_mm: thinning for backlash along the reference circle.

    Raises:
        OutOfRange: a helix angle of 60° or more.

    >>> found = chord(SpurGear(12, 10.0, 20.0, 0.3)).value
    >>> round(found.thickness_mm, 4), round(found.addendum_mm, 4)
    (17.8256, 13.6657)
    """
    if not 0.0 <= abs(helix_deg) < 60.0:
        raise OutOfRange("lies outside 0 to 60°.", where="Helix angle", value=f"{helix_deg:g}°")
    check_thinning(thin_mm, thin_mm, gear)
    z = gear.teeth / cos(radians(helix_deg)) ** 3
    arc = gear.thickness_mm - thin_mm
    psi = arc / (z * gear.module_mm)
    ha = gear.module_mm * (gear.addendum + gear.shift) if addendum_mm is None else addendum_mm
    width = z * gear.module_mm * sin(psi)
    height = ha + z * gear.module_mm / 2 * (1 - cos(psi))
    sheet = Sheet("Chordal tooth thickness")
    describe(gear, sheet)
    if helix_deg:
        sheet.equation("virtual teeth", f"{gear.teeth} / cos³ {helix_deg:g}° = {z:.4f}", RULE)
    sheet.equation(
        "arc",
        f"{num(gear.module_mm):.5g} (π/2 + 2 x tan α) - {num(thin_mm):.4g} = {both(arc, 5)}",
        RULE,
    )
    sheet.equation(
        "half angle",
        f"{num(arc):.5f} / ({z:.5g} × {num(gear.module_mm):.5g}) = {degrees(psi):.4f}°",
        RULE,
    )
    sheet.equation("thickness", f"{z:.5g} × {num(gear.module_mm):.5g} × sin = {both(width, 4)}", RULE)
    sheet.equation(
        "addendum",
        f"{num(ha):.5g} + {num(z * gear.module_mm / 2):.6g} (1 - cos) = {both(height, 4)}",
        RULE,
    )
    sheet.note("Set the caliper from the tip as it is: subtract half of what the outside diameter lacks.")
    sheet.result("set and read", f"{both(height)} deep, {both(width)} wide")
    return Worked(Chord(z, arc, degrees(psi), width, height), sheet.close())


@door()
def rack_thickness_mm(module_mm: float) -> float:
    """Tooth thickness of a rack at its pitch line, π m / 2 [mm]; chord and arc are one.

    >>> round(rack_thickness_mm(3.0), 4)
    4.7124
    """
    return pi * module_mm / 2


@door()
def thickness_at_mm(gear: SpurGear, diameter_mm: float) -> float:
    """Arc thickness of the tooth at another diameter [mm]; at the outside it shows a pointed tooth.

    Raises:
        OutOfRange: inside the base circle.

    >>> gear = SpurGear(20, 2.0, 20.0)
    >>> round(thickness_at_mm(gear, gear.pitch_diameter_mm), 4) == round(gear.thickness_mm, 4)
    True
    >>> round(thickness_at_mm(gear, gear.base_diameter_mm), 4)  # by hand: 37.5877 (π/40 + inv 20°)
    3.5124
    """
    from math import acos

    from rebuild.trade.gears.involute import inv

    if diameter_mm < gear.base_diameter_mm:
        raise OutOfRange(
            f"lies inside the base circle of {said(gear.base_diameter_mm)}.",
            where="Diameter",
            value=said(diameter_mm),
        )
    here = inv(acos(gear.base_diameter_mm / diameter_mm))
    base = (pi / 2 + 2 * gear.shift * tan(gear.angle)) / gear.teeth
    return diameter_mm * (base + gear.inv_angle - here)
