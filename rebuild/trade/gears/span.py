"""Span (base tangent) measurement: over k teeth with disc or plain jaws, and back to thickness."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, pi, sqrt, tan

from rebuild.errors import OutOfRange
from rebuild.trade.gears.spur import SpurGear, check_thinning
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, own_unit, said, said_range

RULE = Source("Involute geometry", "span W = cos α ((k - 1) π m + s + d inv α)", Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class SpanTarget:
    """Span over ``over`` teeth: without backlash, and the limits that give the wanted thinning [mm]."""

    over: int
    nominal_mm: float
    low_mm: float
    high_mm: float


@door()
def teeth_to_span(gear: SpurGear) -> int:
    """The number of teeth whose span touches the flanks near the middle of their height (at least 2).

    >>> teeth_to_span(SpurGear(20, 1.0, 20.0)), teeth_to_span(SpurGear(24, 3.0, 20.0, 0.4))
    (3, 4)
    """
    z, x = gear.teeth, gear.shift
    ratio = max((1 + 2 * x / z) ** 2 - cos(gear.angle) ** 2, 0.0)
    k = z / pi * (sqrt(ratio) / cos(gear.angle) - gear.inv_angle - 2 * x * tan(gear.angle) / z) + 0.5
    return min(max(round(k), 2), z)


@door()
def span_mm(gear: SpurGear, over: int, thickness_mm: float | None = None) -> float:
    """The span over ``over`` teeth [mm]; ``thickness_mm`` along the reference circle if not the gear's.

    Raises:
        OutOfRange: the jaws would touch beyond the tips, or below the flanks.

    >>> round(span_mm(SpurGear(20, 1.0, 20.0), 3), 4)
    7.6604
    """
    if not 1 <= over <= gear.teeth:
        raise OutOfRange(
            f"is not between 1 and the gear's {gear.teeth} teeth.", where="Teeth spanned", value=str(over)
        )
    s = gear.thickness_mm if thickness_mm is None else thickness_mm
    W = cos(gear.angle) * ((over - 1) * pi * gear.module_mm + s + gear.pitch_diameter_mm * gear.inv_angle)
    touch = hypot(gear.base_diameter_mm, W)
    if touch >= gear.outside_mm or W <= 0:
        raise OutOfRange(
            f"teeth give {said(W)}, whose jaws touch at {said(touch)} diameter, beyond the tips at "
            f"{said(gear.outside_mm)}.",
            where="Teeth spanned",
            value=str(over),
            way_out=f"Span {teeth_to_span(gear)} teeth.",
        )
    return W


@door()
def shift_from_span(gear: SpurGear, over: int, reading_mm: float) -> float:
    """The profile shift [modules] that a span reading shows, taking all thickness as shift.

    A worked example of gear handbooks (24 teeth of module 3, x = 0.4; from memory) spans 4 teeth in 32.8266 mm.

    >>> round(shift_from_span(SpurGear(24, 3.0, 20.0), 4, 32.8266), 3)
    0.4
    """
    return gear.shift_of_thickness(thickness_from_span(gear, over, reading_mm))


@door()
def thickness_from_span(gear: SpurGear, over: int, reading_mm: float) -> float:
    """Tooth thickness along the reference circle [mm] from a span reading.

    >>> gear = SpurGear(20, 1.0, 20.0)
    >>> round(thickness_from_span(gear, 3, span_mm(gear, 3)), 6) == round(gear.thickness_mm, 6)
    True
    """
    at_reference = reading_mm / cos(gear.angle) - (over - 1) * pi * gear.module_mm
    return at_reference - gear.pitch_diameter_mm * gear.inv_angle


@door()
def span_target(
    gear: SpurGear, *, over: int | None = None, thin_low_mm: float = 0.0, thin_high_mm: float = 0.0
) -> Worked[SpanTarget]:
    """The span to aim at, with limits for a wanted thinning of the tooth for backlash [mm].

    Args:
        gear: the gear.
        over: teeth spanned; chosen when None.
        thin_low_mm: least thinning of the tooth along the reference circle.
        thin_high_mm: most thinning.

    Raises:
        OutOfRange: the jaws would miss the flanks.

    >>> round(span_target(SpurGear(30, 2.0, 20.0)).value.nominal_mm, 4)
    21.5053
    """
    check_thinning(thin_low_mm, thin_high_mm, gear)
    k = over if over is not None else teeth_to_span(gear)
    W = span_mm(gear, k)
    high, low = (span_mm(gear, k, gear.thickness_mm - thin) for thin in (thin_low_mm, thin_high_mm))
    sheet = Sheet(f"Span over {k} teeth")
    describe(gear, sheet)
    numbers = (
        f"cos {gear.pressure_angle_deg:g}° × (({k} - 1) π {num(gear.module_mm):.5g} + {num(gear.thickness_mm):.5g} + "
        f"{num(gear.pitch_diameter_mm):.6g} × {gear.inv_angle:.7f})"
    )
    sheet.equation("W", f"{numbers} = {both(W, 4)}", RULE)
    if thin_high_mm > 0:
        sheet.equation(
            "thinned",
            f"W less cos α × ({said_range(thin_low_mm, thin_high_mm)}) = {both(low, 4)} to {both(high, 4)}",
        )
    touch = hypot(gear.base_diameter_mm, W)
    sheet.note(
        f"The jaws touch at {both(touch, 2)} diameter, between tips at {both(gear.outside_mm, 2)} and the roots."
    )
    sheet.result("span", limits_words(low, high, W))
    return Worked(SpanTarget(k, W, low, high), sheet.close())


def limits_words(low_mm: float, high_mm: float, nominal_mm: float) -> str:
    """The limits of a measurement over teeth; one size where no thinning is wanted.

    >>> limits_words(7.6, 7.6, 7.6)
    '7.600 mm (0.2992 in)'
    """
    if high_mm > low_mm:
        return f"{both(low_mm)} to {both(high_mm)}"
    return both(nominal_mm)


@door()
def pitch_words(module_mm: float) -> str:
    """Module and diametral pitch, the one of the asker's system first.

    >>> pitch_words(2.54)
    'module 2.54 mm (DP 10)'
    """
    module, pitch = f"module {module_mm:.5g} mm", f"DP {25.4 / module_mm:.4g}"
    return f"{pitch} ({module})" if own_unit() == "in" else f"{module} ({pitch})"


def describe(gear: SpurGear, sheet: Sheet) -> None:
    """The gear's data as lines of a working.

    >>> sheet = Sheet("A gear")
    >>> describe(SpurGear(20, 2.0, 20.0), sheet)
    >>> sheet.close().steps[0].text
    '20 teeth, module 2 mm (DP 12.7), pressure angle 20°'
    """
    shift = f", profile shift {gear.shift:+.4g}" if gear.shift else ""
    sheet.read(
        "gear",
        f"{gear.teeth} teeth, {pitch_words(gear.module_mm)}, "
        f"pressure angle {gear.pressure_angle_deg:g}°{shift}",
    )
