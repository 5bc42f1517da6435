"""Setting angles: sine bar, compound slide with its complement trap, tailstock set-over.

Machines differ in where the compound slide's scale reads zero: along the bed on some, along the cross
slide on others. The same setting then reads as an angle or as its complement, so both are always given.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from enum import StrEnum

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.exact import exact
from rebuild.trade.sizes.own_unit import both, num, said
from rebuild.trade.sizes.typed_text import plain_of

SINE = Source("Sine bar", "stack = length x sin(angle)", Status.COMPUTED)
GEOMETRY = Source("Geometry of the lathe's slides", "", Status.COMPUTED)
STEEPEST_DEG = 60.0
ARC_SECONDS = math.degrees(1.0) * 3600.0
#: One part of an angle and the mark after it; parts are taken one after another, so that a long text costs no more
#: than its length.
_PART = re.compile(r"([0-9.,]+)\s*(°|deg(?:rees)?|min|'|\"|sec|s)?\s*", re.IGNORECASE)
#: The marks of degrees, minutes and seconds, in their order.
_MARKS = (("°", "deg", "degrees"), ("'", "min"), ('"', "s", "sec"))


class ScaleZero(StrEnum):
    """How the compound slide lies when its scale reads zero."""

    ALONG_BED = "along the bed"
    ALONG_CROSS = "along the cross slide"


@dataclass(frozen=True, slots=True)
class Stack:
    """A sine bar's stack [mm] and how far the angle moves per micrometre of stack [arc seconds]."""

    height_mm: float
    arcsec_per_um: float


@dataclass(frozen=True, slots=True)
class Setting:
    """What the compound's scale must read [degrees], and the reading on the other kind of scale."""

    dial_deg: float
    other_dial_deg: float
    slide_to_axis_deg: float


@door()
def sine_bar(length_mm: float, angle_deg: float) -> Worked[Stack]:
    """The stack of blocks under a sine bar of ``length_mm`` between rollers.

    Raises:
        BadEntry: no length, or an angle that is not between 0 and 90 degrees.
        OutOfRange: above 60 degrees, where the stack no longer fixes the angle well.

    >>> round(sine_bar(100, 30).value.height_mm, 6)
    50.0
    """
    _sound(length_mm, angle_deg)
    if angle_deg > STEEPEST_DEG:
        raise OutOfRange(
            f"is too steep for a sine bar; its range is 0 to {STEEPEST_DEG:g}° (common practice, no source).",
            where="Angle",
            value=f"{angle_deg:g}°",
            way_out=f"Set the complement, {90 - angle_deg:g}°, from a square face.",
        )
    height = length_mm * math.sin(math.radians(angle_deg))
    per_um = ARC_SECONDS * 0.001 / (length_mm * math.cos(math.radians(angle_deg)))
    sheet = Sheet("Sine bar")
    sheet.read("length between rollers", both(length_mm))
    sheet.read("angle", f"{angle_deg:.6g}°")
    sheet.equation(
        "stack",
        f"L sin a = {num(length_mm):.6g} x {math.sin(math.radians(angle_deg)):.8f} = {both(height, 6)}",
        SINE,
    )
    sheet.equation(
        "sensitivity",
        f"1 µm of stack moves the angle {per_um:.3f} arc seconds "
        f"(0.0001 in: {per_um * 2.54:.2f}); it grows as 1/cos of the angle",
        SINE,
    )
    return Worked(Stack(height, per_um), sheet.close())


@door()
def angle_of_stack(length_mm: float, height_mm: float) -> Worked[float]:
    """The angle [degrees] a stack gives on a sine bar.

    Raises:
        OutOfRange: the stack is longer than the bar.

    >>> round(angle_of_stack(100, 50).value, 6)
    30.0
    """
    _sound(length_mm, 1.0)
    if not 0 <= height_mm <= length_mm:
        raise OutOfRange(
            "does not fit under the bar: a stack lies between 0 and the bar's length.",
            where="Stack",
            value=both(height_mm),
            way_out=f"The bar is {said(length_mm)} between rollers.",
        )
    angle = math.degrees(math.asin(height_mm / length_mm))
    sheet = Sheet("Angle of a sine bar's stack")
    sheet.equation("angle", f"asin({num(height_mm):.6g} / {num(length_mm):.6g}) = {angle:.6f}°", SINE)
    return Worked(angle, sheet.close())


@door()
def taper_setting(half_angle_deg: float, zero: ScaleZero) -> Worked[Setting]:
    """The compound's dial for turning a taper of this half angle (side to axis).

    Raises:
        BadEntry: not an angle between 0 and 90 degrees.

    >>> taper_setting(1.4377, ScaleZero.ALONG_CROSS).value.dial_deg
    88.5623
    """
    _sound(1.0, half_angle_deg, least_deg=0.001)
    sheet = Sheet("Compound slide for a taper")
    sheet.read("half angle of the taper", f"{half_angle_deg:.4f}°")
    sheet.note("The slide must travel at the half angle to the spindle axis, never at the included angle.")
    setting = _set(sheet, half_angle_deg, zero)
    _proof(sheet, half_angle_deg)
    return Worked(setting, sheet.close())


@door()
def thread_setting(included_deg: float, zero: ScaleZero, relief_deg: float = 0.5) -> Worked[Setting]:
    """The compound's dial for feeding a thread down its flank: half the angle, less a little relief.

    ``included_deg`` is 60 for Unified and metric, 55 Whitworth, 29 Acme, 30 trapezoidal. The slide lies
    at half angle minus ``relief_deg`` from the line square to the axis; for Acme 14.5 is usual
    (no relief, ``relief_deg=0``).

    Raises:
        BadEntry: not an angle.

    >>> thread_setting(60, ScaleZero.ALONG_BED).value.dial_deg
    60.5
    """
    _sound(1.0, included_deg / 2.0, least_deg=1.0)
    from_square = included_deg / 2.0 - relief_deg
    sheet = Sheet("Compound slide for threading")
    sheet.read("included angle of the thread", f"{included_deg:g}°")
    sheet.equation(
        "from the square line", f"{included_deg:g}/2 - {relief_deg:g} = {from_square:g}°", GEOMETRY
    )
    sheet.note(
        f"Fed along this slide, a depth h takes h / cos {from_square:g}° = "
        f"{1 / math.cos(math.radians(from_square)):.4f} h of compound travel."
    )
    setting = _set(sheet, 90.0 - from_square, zero)
    _proof(sheet, 90.0 - from_square)
    return Worked(setting, sheet.close())


@door()
def tailstock_offset(rate: float, between_centres_mm: float) -> Worked[float]:
    """Set-over of the tailstock [mm] for a taper ``rate`` (on diameter) over the whole work length.

    Raises:
        BadEntry: no length or no taper.

    >>> round(tailstock_offset(0.05, 200).value, 3)
    5.0
    """
    _sound(between_centres_mm, 1.0)
    if not 0 < rate < 0.5:
        raise BadEntry("is no taper for a set-over.", where="Taper on diameter", value=f"{rate:g}")
    offset = between_centres_mm * rate / 2.0
    sheet = Sheet("Tailstock set-over")
    sheet.equation(
        "set-over",
        f"length between centres x taper / 2 = {num(between_centres_mm):.6g} x {rate:.6f} / 2 = {both(offset)}",
        GEOMETRY,
    )
    sheet.note("It is the whole length between centres that counts, not the tapered part; use ball centres.")
    return Worked(offset, sheet.close())


def _set(sheet: Sheet, slide_to_axis_deg: float, zero: ScaleZero) -> Setting:
    along_bed, along_cross = slide_to_axis_deg, round(90.0 - slide_to_axis_deg, 10)
    dial, other = (along_bed, along_cross) if zero is ScaleZero.ALONG_BED else (along_cross, along_bed)
    sheet.read("the scale reads 0 with the slide", zero.value)
    sheet.result("dial", f"{dial:.4f}°", GEOMETRY)
    sheet.note(
        f"Trap: on a scale that reads 0 the other way the same setting is the complement, {other:.4f}°. "
        "Swing the slide to zero and look which way it lies."
    )
    return Setting(dial, other, slide_to_axis_deg)


def _proof(sheet: Sheet, slide_to_axis_deg: float) -> None:
    along = math.cos(math.radians(slide_to_axis_deg))
    sheet.note(
        f"Prove it with an indicator on the slide: 100 mm of slide travel moves it "
        f"{100 * along:.3f} mm along the axis and {100 * math.sin(math.radians(slide_to_axis_deg)):.3f} mm "
        "square to it; a degree scale alone is good to about 0.1°."
    )


def _sound(length_mm: float, angle_deg: float, least_deg: float = 0.0) -> None:
    if not length_mm > 0:
        raise BadEntry(
            "is not a length above zero.",
            where="Length",
            value=said(length_mm),
            way_out="Type the distance between the rollers or centres.",
        )
    if not least_deg <= angle_deg < 90:
        raise BadEntry(
            f"is not an angle from {least_deg:g} to 90 degrees.",
            where="Angle",
            value=f"{angle_deg:g}°",
            way_out="Type it in degrees as 14.5.",
        )


@door()
def parse_angle(text: str, field: str = "Angle", *, decimal_comma: bool | None = None) -> float:
    """An angle [degrees] typed as ``14.5``, ``14,5°``, ``14° 30'``, ``45'`` or ``1 26 16`` (degrees, minutes, seconds).

    Raises:
        BadEntry: not an angle, or minutes or seconds of sixty and more.
        Ambiguous: ``14,500``.

    >>> parse_angle("14° 30'"), parse_angle("45'")
    (14.5, 0.75)
    """
    ways = "Type it as 14.5 or 14° 30' 0\"."
    plain = plain_of(text, field, ways, sort="an angle")
    parts: list[float] = []
    at = 0
    while at < len(plain) and len(parts) < len(_MARKS):
        part = _PART.match(plain, at)
        if part is None:
            break
        while part[2] and len(parts) < len(_MARKS) and part[2].lower() not in _MARKS[len(parts)]:
            parts.append(0.0)
        if len(parts) == len(_MARKS):
            break
        value = exact(
            part[1],
            field,
            part[2] or "°",
            typed=text,
            decimal_comma=decimal_comma,
            fractions=False,
            ways=ways,
            refusal="is not an angle.",
        )
        parts.append(float(value))
        at = part.end()
    if not parts or at < len(plain):
        raise BadEntry("is not an angle.", where=field, value=text, way_out=ways)
    degrees, minutes, seconds = (*parts, 0.0, 0.0)[: len(_MARKS)]
    if minutes >= 60 or seconds >= 60:
        raise BadEntry("has sixty or more minutes or seconds.", where=field, value=text)
    return degrees + minutes / 60.0 + seconds / 3600.0
