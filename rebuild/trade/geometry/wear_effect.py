"""What worn ways do to the work: a front way that has dropped, a saddle lower all over, a low tailstock.

A front-way drop w over a way spacing B tilts the carriage about the rear way; a tool H above the ways
moves out by about w H/B, so the diameter grows by about 2 w H/B. The exact figure turns the tool point
about the rear way and measures its new distance from the spindle line. An equal drop of both ways
hardly matters: the tool goes below centre, which grows the diameter by about 2 w²/d.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, cos, degrees, hypot, isfinite, radians, sin, tan

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, said

GEOMETRY = Source("Geometry", "carriage turned about the rear way", Status.COMPUTED)
RACK_LIMIT = Source(
    "A lathe's inspection record", "leadscrew line within 0.10 mm (0.004 in)", Status.COMMON_PRACTICE
)
ALIGNED_MM = 0.10


@dataclass(frozen=True, slots=True)
class WayDrop:
    """Effect of wear on a turned diameter [mm]; positive is larger work."""

    diameter_error_mm: float
    approximate_mm: float
    tool_out_mm: float
    tool_down_mm: float
    tilt_deg: float


@dataclass(frozen=True, slots=True)
class Dropped:
    """What a carriage lower by one amount does: diameter [mm], rack mesh [mm], leadscrew line."""

    diameter_error_mm: float
    rack_backlash_mm: float
    leadscrew_off_mm: float
    aligned: bool


@door()
def front_way_drop(
    drop_mm: float,
    centre_height_mm: float,
    way_spacing_mm: float,
    diameter_mm: float,
    *,
    spindle_from_front_mm: float | None = None,
) -> Worked[WayDrop]:
    """The error on a turned diameter where the front way has dropped.

    Args:
        drop_mm: front way below its unworn height (negative if higher).
        centre_height_mm: spindle line above the ways, H.
        way_spacing_mm: between front and rear ways, B.
        diameter_mm: the work turned there.
        spindle_from_front_mm: spindle line behind the front way; midway when None.

    Raises:
        BadEntry: sizes that cannot be.
        OutOfRange: a drop over a twentieth of the way spacing, which is damage and not wear.

    >>> inch = 25.4
    >>> effect = front_way_drop(0.0065 * inch, 4.6 * inch, 6.2 * inch, 1.0 * inch).value
    >>> round(effect.approximate_mm / inch, 5), round(effect.diameter_error_mm / inch, 4)
    (0.00965, 0.0097)
    """
    _check(centre_height_mm, way_spacing_mm, diameter_mm)
    if not isfinite(drop_mm) or abs(drop_mm) > way_spacing_mm / 20:
        raise OutOfRange(
            f"is more than a twentieth of the way spacing, {said(way_spacing_mm / 20, 3)}: damage, not wear.",
            where="Drop",
            value=said(drop_mm),
        )
    H, B = centre_height_mm, way_spacing_mm
    behind = B / 2 if spindle_from_front_mm is None else spindle_from_front_mm
    tilt = asin(drop_mm / B)
    out, down = _tool_move(tilt, H, B - behind + diameter_mm / 2)
    radius = hypot(diameter_mm / 2 + out, down)
    exact = 2 * radius - diameter_mm
    rough = 2 * drop_mm * H / B
    sheet = Sheet("Front way drop and the turned diameter")
    sheet.read("drop", both(drop_mm, 4))
    sheet.read("lathe", f"centre height {both(H)}, ways {both(B)} apart")
    sheet.read("work", f"{both(diameter_mm)} diameter")
    sheet.equation(
        "roughly",
        f"2 w H / B = 2 × {num(drop_mm):.4g} × {num(H):.5g} / {num(B):.5g} = {both(rough, 4)}",
        GEOMETRY,
    )
    sheet.equation("tilt", f"asin({num(drop_mm):.4g} / {num(B):.5g}) = {degrees(tilt):.4f}°", GEOMETRY)
    sheet.equation("tool", f"moves out {both(out, 4)} and down {both(down, 4)}", GEOMETRY)
    sheet.equation(
        "exactly",
        f"2 √(({num(diameter_mm / 2):.5g} + {num(out):.4f})² + {num(down):.4f}²) - "
        f"{num(diameter_mm):.5g} = {both(exact, 4)}",
        GEOMETRY,
    )
    sheet.note("An error along the bed shows as taper or barrel; over a few inches it is often not noticed.")
    sheet.result("diameter", f"{both(exact, 4)} {'larger' if exact >= 0 else 'smaller'}")
    return Worked(WayDrop(exact, rough, out, down, degrees(tilt)), sheet.close())


def _tool_move(tilt: float, height: float, reach: float) -> tuple[float, float]:
    """How far out (to the front) and down a tool goes that stands ``reach`` before the rear way."""
    out = reach * cos(tilt) + height * sin(tilt) - reach
    down = reach * sin(tilt) - height * cos(tilt) + height
    return out, down


@door()
def carriage_drop(
    drop_mm: float, diameter_mm: float, *, rack_pressure_angle_deg: float = 14.5
) -> Worked[Dropped]:
    """The effect of a carriage lower by the same amount all over: work, rack and leadscrew.

    Args:
        drop_mm: how much lower (after wear, regrinding or scraping).
        diameter_mm: the work turned.
        rack_pressure_angle_deg: of rack and pinion.

    Raises:
        BadEntry: sizes that cannot be.

    >>> dropped = carriage_drop(0.010 * 25.4, 25.4).value
    >>> round(dropped.diameter_error_mm / 25.4, 4)
    0.0002
    """
    if not (isfinite(drop_mm) and isfinite(diameter_mm) and diameter_mm > 0):
        raise BadEntry("is not above zero.", where="Diameter", value=said(diameter_mm))
    if not 10.0 <= rack_pressure_angle_deg <= 30.0:
        raise OutOfRange(
            "lies outside 10 to 30°.", where="Pressure angle", value=f"{rack_pressure_angle_deg:g}°"
        )
    error = 2 * hypot(diameter_mm / 2, drop_mm) - diameter_mm
    mesh = 2 * drop_mm * tan(radians(rack_pressure_angle_deg))
    aligned = abs(drop_mm) <= ALIGNED_MM
    sheet = Sheet("A carriage that stands lower")
    sheet.read("drop", both(drop_mm, 4))
    sheet.equation(
        "diameter",
        f"2 √({num(diameter_mm / 2):.5g}² + {num(drop_mm):.4g}²) - {num(diameter_mm):.5g} = {both(error, 5)}",
        GEOMETRY,
    )
    sheet.equation(
        "rack",
        f"2 × {num(drop_mm):.4g} × tan {rack_pressure_angle_deg:g}° = {both(mesh, 4)} of backlash",
        GEOMETRY,
    )
    sheet.note("A pinion above the rack goes deeper when the carriage drops, one below it comes out.")
    text = "within" if aligned else "outside"
    sheet.result("leadscrew line", f"off by {both(drop_mm, 4)}, {text} 0.10 mm", RACK_LIMIT)
    if not aligned:
        sheet.note("Shim or skim the apron joint, lower the brackets, or line the saddle.")
    return Worked(Dropped(error, mesh, drop_mm, aligned), sheet.close())


@door()
def tailstock_low(low_mm: float, diameter_mm: float) -> Worked[float]:
    """How much larger work turns at a tailstock centre that is low (or high), than at the headstock [mm].

    Raises:
        BadEntry: sizes that cannot be.

    >>> round(tailstock_low(0.28, 25.0).value, 4)
    0.0063
    """
    if not (isfinite(low_mm) and isfinite(diameter_mm) and diameter_mm > 0):
        raise BadEntry("is not above zero.", where="Diameter", value=said(diameter_mm))
    error = 2 * hypot(diameter_mm / 2, low_mm) - diameter_mm
    sheet = Sheet("Tailstock centre off in height")
    sheet.read("off", both(low_mm, 4))
    sheet.equation(
        "diameter",
        f"2 √({num(diameter_mm / 2):.5g}² + {num(low_mm):.4g}²) - {num(diameter_mm):.5g} = {both(error, 5)}",
        GEOMETRY,
    )
    sheet.note("Small on the diameter; it matters for drills and reamers, which start off the line.")
    sheet.result("work", f"{both(error, 4)} larger at the tailstock")
    return Worked(error, sheet.close())


def _check(centre_height_mm: float, way_spacing_mm: float, diameter_mm: float) -> None:
    named = (("Centre height", centre_height_mm), ("Way spacing", way_spacing_mm), ("Diameter", diameter_mm))
    for what, size in named:
        if not (isfinite(size) and size > 0):
            raise BadEntry("is not above zero.", where=what, value=said(size))
