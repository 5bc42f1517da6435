"""Straight bevel gears of any shaft angle: cones, blank, cutter for the virtual teeth; which pair two worn ones are.

tan δ1 = sin Σ / (z2/z1 + cos Σ), δ2 = Σ - δ1; cone distance R = m z / (2 sin δ); addendum m, dedendum by the teeth's
form, both at the large end; outside m z + 2 m cos δ; virtual teeth z / cos δ.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, atan2, cos, degrees, radians, sin

from rebuild.errors import OutOfRange
from rebuild.trade.gears.pitches import Pitch
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num

RULE = Source("Geometry of bevel gears", "two cones that roll; addendum 1 m", Status.COMPUTED)
FACE = Source("Face of a bevel gear", "at most a third of the cone distance", Status.COMMON_PRACTICE)
MILLED = Source(
    "Milled bevel teeth", "by the virtual teeth z / cos δ, filed at the small end", Status.COMMON_PRACTICE
)
LEAST_TEETH, MOST_TEETH = 6, 500


@dataclass(frozen=True, slots=True)
class Bevel:
    """One gear of a pair [mm, deg]; ``crown_mm`` from the cone's point to the tip circle along the axis."""

    teeth: int
    pitch_cone_deg: float
    face_cone_deg: float
    root_cone_deg: float
    pitch_diameter_mm: float
    outside_mm: float
    crown_mm: float
    virtual_teeth: float


@dataclass(frozen=True, slots=True)
class BevelPair:
    """A pair: pinion, gear, and what they share [mm]."""

    pinion: Bevel
    gear: Bevel
    cone_mm: float
    most_face_mm: float


@door()
def bevel_pair(
    pinion_teeth: int, gear_teeth: int, pitch: Pitch, shaft_deg: float = 90.0, dedendum: float = 1.25
) -> Worked[BevelPair]:
    """A pair of straight bevel gears from the pitch at their large end.

    Args:
        pinion_teeth: of the one.
        gear_teeth: of the other.
        pitch: at the large end.
        shaft_deg: between the shafts.
        dedendum: in modules; 1.25 full depth today, 1.157 of 14.5° teeth.

    Raises:
        OutOfRange: teeth outside 6 to 500, shafts outside 10 to 170°, an inside cone, a dedendum outside 0.8 to 1.6.

    >>> from rebuild.trade.gears.pitches import read_pitch
    >>> pair = bevel_pair(20, 40, read_pitch("module 3")).value
    >>> round(pair.pinion.pitch_cone_deg, 4), round(pair.cone_mm, 4), round(pair.pinion.outside_mm, 4)
    (26.5651, 67.082, 65.3666)
    """
    _check(pinion_teeth, gear_teeth, shaft_deg, dedendum)
    m, sigma = pitch.module_mm, radians(shaft_deg)
    delta = atan2(sin(sigma), gear_teeth / pinion_teeth + cos(sigma))
    other = sigma - delta
    if max(delta, other) >= radians(90.0):
        raise OutOfRange(
            "makes one of them a crown or inside bevel, which is not worked here.",
            where="Shaft angle",
            value=f"{shaft_deg:g}°",
            way_out="Check the angle and the teeth.",
        )
    cone = m * pinion_teeth / (2 * sin(delta))
    pair = BevelPair(
        _gear(pinion_teeth, delta, cone, m, dedendum),
        _gear(gear_teeth, other, cone, m, dedendum),
        cone,
        cone / 3,
    )
    sheet = Sheet(f"Bevel pair {pinion_teeth} and {gear_teeth}, {pitch.name}, shafts at {shaft_deg:g}°")
    sheet.equation(
        "pinion cone", f"atan(sin Σ / ({gear_teeth}/{pinion_teeth} + cos Σ)) = {degrees(delta):.4f}°", RULE
    )
    sheet.equation("gear cone", f"{shaft_deg:g} - {degrees(delta):.4f} = {degrees(other):.4f}°", RULE)
    sheet.equation("cone distance", f"{num(m):.5g} × {pinion_teeth} / (2 sin δ) = {both(cone)}", RULE)
    for name, one in (("pinion", pair.pinion), ("gear", pair.gear)):
        sheet.equation(
            f"{name} outside",
            f"{num(one.pitch_diameter_mm):.4f} + 2 × {num(m):.5g} × cos δ = {both(one.outside_mm)}",
            RULE,
        )
        sheet.equation(f"{name} cones", f"face {one.face_cone_deg:.3f}°, root {one.root_cone_deg:.3f}°", RULE)
        sheet.equation(f"{name} virtual teeth", f"{one.teeth} / cos δ = {one.virtual_teeth:.1f}", MILLED)
    sheet.note(f"Face at most {both(pair.most_face_mm, 2)}.", FACE)
    sheet.note(
        "Older pairs often have long pinion and short gear addenda: measure both outsides before making one."
    )
    return Worked(pair, sheet.close())


def _gear(teeth: int, delta: float, cone: float, m: float, dedendum: float) -> Bevel:
    up, down = atan(m / cone), atan(dedendum * m / cone)
    d = teeth * m
    return Bevel(
        teeth,
        degrees(delta),
        degrees(delta + up),
        degrees(delta - down),
        d,
        d + 2 * m * cos(delta),
        cone * cos(delta) - m * sin(delta),
        teeth / cos(delta),
    )


def _check(pinion: int, gear: int, shaft_deg: float, dedendum: float) -> None:
    for where, value, low, high, unit in (
        ("Pinion teeth", pinion, LEAST_TEETH, MOST_TEETH, ""),
        ("Gear teeth", gear, LEAST_TEETH, MOST_TEETH, ""),
        ("Shaft angle", shaft_deg, 10.0, 170.0, "°"),
        ("Dedendum", dedendum, 0.8, 1.6, " modules"),
    ):
        if not low <= value <= high:
            raise OutOfRange(f"is outside {low:g} to {high:g}{unit}.", where=where, value=f"{value:g}{unit}")
