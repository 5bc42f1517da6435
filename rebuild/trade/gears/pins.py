"""Measurement over pins (wires) of external gears, and between pins of internal ones, both ways.

For a pin of diameter w in the space of a gear whose tooth is s thick along the reference circle d:
inv φ = s/d + inv α + w/(d cos α) - π/z, and M = d cos α/cos φ + w (even teeth) or
d cos α/cos φ × cos(90°/z) + w (odd). Internal gears change the signs.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, cos, degrees, pi, tan

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.gears.involute import inv, inverse_inv
from rebuild.trade.gears.span import describe, limits_words
from rebuild.trade.gears.spur import SpurGear, check_thinning
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, said, said_range

RULE = Source("Involute geometry", "measurement over pins", Status.COMPUTED)
WIRES = Source("Van Keuren wire sizes", "1.728/P external, 1.44/P internal", Status.FROM_MEMORY)
EXTERNAL, INTERNAL = 1.728, 1.44


@dataclass(frozen=True, slots=True)
class PinTarget:
    """Over-pin size: pin, without backlash, and the limits for the wanted thinning [mm]."""

    pin_mm: float
    nominal_mm: float
    low_mm: float
    high_mm: float


@door()
def usual_pin_mm(gear: SpurGear, *, internal: bool = False) -> float:
    """The customary pin: 1.728 modules outside, 1.44 inside.

    >>> round(usual_pin_mm(SpurGear(32, 2.54, 20.0)) / 25.4, 4)  # DP 10: 1.728 / 10 in
    0.1728
    """
    return gear.module_mm * (INTERNAL if internal else EXTERNAL)


@door()
def over_pins_mm(
    gear: SpurGear, pin_mm: float, *, thickness_mm: float | None = None, internal: bool = False
) -> float:
    """Size over two pins (between them when ``internal``) [mm].

    Args:
        gear: the gear; an internal one is described by its mating tooth form.
        pin_mm: pin diameter.
        thickness_mm: tooth thickness along the reference circle if not the gear's own.
        internal: pins in the spaces of an internal gear.

    Raises:
        OutOfRange: the pin would touch inside the base circle or beyond the tips.

    >>> round(over_pins_mm(SpurGear(32, 1.0, 20.0), 1.728), 5)
    34.41298
    """
    phi = _pin_angle(gear, pin_mm, gear.thickness_mm if thickness_mm is None else thickness_mm, internal)
    _check_contact(gear, pin_mm, phi, internal)
    centre = gear.base_diameter_mm / cos(phi) * _odd(gear.teeth)
    return centre - pin_mm if internal else centre + pin_mm


@door()
def thickness_from_pins(gear: SpurGear, pin_mm: float, reading_mm: float, *, internal: bool = False) -> float:
    """Tooth thickness along the reference circle [mm] from a reading over (between) pins.

    Raises:
        OutOfRange: the reading puts the pin inside the base circle.

    >>> round(thickness_from_pins(SpurGear(32, 1.0, 20.0), 1.728, 34.41298), 4)  # π/2: no shift, no backlash
    1.5708
    """
    centre = (reading_mm + pin_mm if internal else reading_mm - pin_mm) / _odd(gear.teeth)
    if centre <= gear.base_diameter_mm:
        raise OutOfRange(
            f"puts the pins' centres inside the base circle of {said(gear.base_diameter_mm)}.",
            where="Over pins",
            value=said(reading_mm, 4),
            way_out="Check the number of teeth, the module and the pin.",
        )
    d = gear.pitch_diameter_mm
    part = inv(acos(gear.base_diameter_mm / centre)) - gear.inv_angle
    across = pin_mm / (d * cos(gear.angle))
    if internal:
        return d * (pi / gear.teeth - part - across)
    return d * (part - across + pi / gear.teeth)


@door()
def shift_from_pins(gear: SpurGear, pin_mm: float, reading_mm: float) -> float:
    """The profile shift [modules] an over-pin reading shows, taking all thickness as shift.

    >>> abs(shift_from_pins(SpurGear(32, 1.0, 20.0), 1.728, 34.41298)) < 1e-4
    True
    """
    return gear.shift_of_thickness(thickness_from_pins(gear, pin_mm, reading_mm))


def _pin_angle(gear: SpurGear, pin_mm: float, s: float, internal: bool) -> float:
    if not pin_mm > 0:
        raise BadEntry("is not a positive diameter.", where="Pin", value=said(pin_mm))
    d = gear.pitch_diameter_mm
    across = pin_mm / (d * cos(gear.angle))
    if internal:
        return inverse_inv((pi / gear.teeth - s / d) + gear.inv_angle - across)
    return inverse_inv(s / d + gear.inv_angle + across - pi / gear.teeth)


def _odd(teeth: int) -> float:
    return 1.0 if teeth % 2 == 0 else cos(pi / (2 * teeth))


def _check_contact(gear: SpurGear, pin_mm: float, phi: float, internal: bool) -> None:
    """The pin must touch the flank above the base circle and inside the tip."""
    side = 1.0 if internal else -1.0
    touch = tan(phi) + side * pin_mm / gear.base_diameter_mm
    diameter = gear.base_diameter_mm * (1 + max(touch, 0.0) ** 2) ** 0.5
    deepest = gear.pitch_diameter_mm + 2 * (gear.dedendum - gear.shift) * gear.module_mm
    limit = deepest if internal else gear.outside_mm
    if touch <= 0 or diameter > limit:
        where = "inside the base circle" if touch <= 0 else f"at {diameter:.3f} mm, past {limit:.3f} mm"
        raise OutOfRange(
            f"touches {where}; it does not measure the flank.",
            where="Pin",
            value=said(pin_mm, 4),
            way_out=f"Take a pin near {said(usual_pin_mm(gear, internal=internal))}.",
        )


@door()
def pin_target(
    gear: SpurGear,
    *,
    pin_mm: float | None = None,
    thin_low_mm: float = 0.0,
    thin_high_mm: float = 0.0,
    internal: bool = False,
) -> Worked[PinTarget]:
    """The over-pin size to aim at, with limits for a wanted thinning of the tooth [mm].

    Raises:
        OutOfRange: the pin does not measure the flank.

    >>> gear = SpurGear(24, 2.54, 14.5)
    >>> round(pin_target(gear).value.nominal_mm / 25.4, 5)
    2.64247
    """
    check_thinning(thin_low_mm, thin_high_mm, gear)
    pin = usual_pin_mm(gear, internal=internal) if pin_mm is None else pin_mm
    M = over_pins_mm(gear, pin, internal=internal)
    ends = [
        over_pins_mm(gear, pin, thickness_mm=gear.thickness_mm - thin, internal=internal)
        for thin in (thin_low_mm, thin_high_mm)
    ]
    low, high = min(ends), max(ends)
    sheet = Sheet("Size between pins" if internal else "Size over pins")
    describe(gear, sheet)
    customary = WIRES if pin_mm is None else None
    sheet.read("pin", f"{both(pin, 4)} ({pin / gear.module_mm:.4g} modules)", customary)
    phi = _pin_angle(gear, pin, gear.thickness_mm, internal)
    sheet.equation("inv φ", f"{inv(phi):.7f}, φ = {degrees(phi):.4f}°", RULE)
    odd = f" × cos(90°/{gear.teeth})" if gear.teeth % 2 else ""
    sign = "-" if internal else "+"
    sheet.equation(
        "M",
        f"{num(gear.base_diameter_mm):.5f} / cos φ{odd} {sign} {num(pin):.5g} = {both(M, 4)}",
        RULE,
    )
    if not internal and gear.outside_mm > M:
        sheet.note("The pins lie below the tips: a plain micrometer cannot reach them; take larger pins.")
    if high > low:
        sheet.equation("thinned", f"tooth thinner by {said_range(thin_low_mm, thin_high_mm)}")
    sheet.result("size", limits_words(low, high, M))
    return Worked(PinTarget(pin, M, low, high), sheet.close())
