"""Cut tests: what two collars or a faced disc say to adjust, and by how much.

Two collars turned at one setting show whether the tool's path is parallel to the spindle in the plane that matters.
A larger collar at the free end means the tool stands off there. Twisting the bed so that its front rises at the
tailstock end leans the tool toward the work there by the height of centres times the angle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from rebuild.errors import BadEntry
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.show import in_unit, show_length

GEOMETRY = Source("Geometry", "small angles", Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class CutFinding:
    """What a cut test found: ``error_mm`` over ``over_mm`` with its sign, in words, and what to turn."""

    error_mm: float
    over_mm: float
    text: str
    adjust: tuple[str, ...]


@door()
def two_collars(
    near_mm: float,
    far_mm: float,
    apart_mm: float,
    *,
    unit: str = "mm",
    centre_height_mm: float | None = None,
    feet_apart_mm: float | None = None,
    bed_length_mm: float | None = None,
) -> Worked[CutFinding]:
    """Taper of two collars turned at one setting with the free end unsupported, and what would take it out.

    Args:
        near_mm, far_mm: diameters at the spindle and at the free end [mm].
        apart_mm: length between the collars [mm].
        centre_height_mm: spindle above the ways [mm]; for the twist of the bed.
        feet_apart_mm: between front and rear foot [mm]; bed_length_mm: between the feet along the bed [mm].

    Raises:
        BadEntry: a size that is not one, collars of two different jobs.

    >>> two_collars(40.00, 40.02, 200).value.text
    'larger at the free end by 0.020 mm on diameter over 200 mm'
    """
    _refuse_collars(near_mm, far_mm, apart_mm)
    taper = far_mm - near_mm
    sheet = Sheet("Two-collar test")
    sheet.read(
        "collars",
        f"{show_length(near_mm, unit)} near the spindle, {show_length(far_mm, unit)} at the free end",
    )
    sheet.equation("on diameter", f"{show_length(taper, unit, sign=True)} over {_over(apart_mm, unit)}")
    if abs(taper) < 1e-9:
        sheet.result("", "no taper")
        return Worked(CutFinding(0.0, apart_mm, "no taper", ()), sheet.close())
    side = "larger" if taper > 0 else "smaller"
    text = (
        f"{side} at the free end by {show_length(abs(taper), unit)} on diameter over {_over(apart_mm, unit)}"
    )
    angle = taper / 2 / apart_mm
    sheet.equation("angle", f"{abs(taper):.5g} / 2 / {apart_mm:.6g} = {abs(angle) * 1e6:.1f} µm/m", GEOMETRY)
    adjust = ["Settle and level the bed first: a twisted bed shows the same taper."]
    adjust += _twist_words(taper, apart_mm, centre_height_mm, feet_apart_mm, bed_length_mm, unit, sheet)
    way = "toward" if taper > 0 else "away from"
    adjust.append(
        f"With the bed proved free of twist: swing the headstock so that the free end of a bar moves {way} the tool by "
        f"{show_length(abs(angle) * 300, unit)} over 300 mm."
    )
    if taper > 0:
        adjust.append(
            "A slender piece springs away and turns large at its free end: take light cuts on a stout one."
        )
    sheet.result("", text)
    for words in adjust:
        sheet.note(words)
    attach(sheet, "hand-filing", "chuck")
    return Worked(CutFinding(taper, apart_mm, text, tuple(adjust)), sheet.close())


def _over(mm: float, unit: str) -> str:
    """A length measured over, without needless decimals."""
    return f"{in_unit(mm, unit):.6g} {unit}"


def _twist_words(
    taper: float,
    apart: float,
    height: float | None,
    feet: float | None,
    bed: float | None,
    unit: str,
    sheet: Sheet,
) -> list[str]:
    """How much twist of the bed makes this taper, and what to turn at a foot."""
    if height is None or height <= 0:
        return ["Give the height of centres above the ways to see the twist that would make this taper."]
    twist = abs(taper) / (2 * height) / apart
    sheet.equation(
        "twist that makes it",
        f"{abs(taper):.5g} / (2 · {height:.5g}) / {apart:.6g} = {twist * 1e9:.1f} µm/m in each metre",
        GEOMETRY,
    )
    words = [f"A twist of {twist * 1e6:.2g} mm/m in each metre of bed would make it."]
    if feet and bed:
        lift = twist * bed * feet
        sheet.equation(
            "at a foot",
            f"{twist * 1e9:.1f} µm/m · {bed / 1000:.4g} m · {feet:.5g} mm = {lift:.4g} mm",
            GEOMETRY,
        )
        way = "raise" if taper > 0 else "lower"
        words.append(
            f"If the level shows that twist: {way} the front foot at the tailstock end by about "
            f"{show_length(lift, unit)}, or half of it there and the other half, the other way, at the rear foot."
        )
    return words


def _refuse_collars(near: float, far: float, apart: float) -> None:
    for where, value in (
        ("Collar near the spindle", near),
        ("Collar at the free end", far),
        ("Length between", apart),
    ):
        if not (math.isfinite(value) and value > 0):
            raise BadEntry(
                "is not a size above zero.", where=where, value=f"{value:g} mm", way_out="Measure it again."
            )
    if abs(far - near) > 0.02 * near:
        raise BadEntry(
            f"is more than a fiftieth off the other collar of {near:g} mm: not one setting of the tool, "
            "or a unit mixed up.",
            where="Collar at the free end",
            value=f"{far:g} mm",
            way_out="Turn both at one setting and measure again.",
        )


class FacingBy(StrEnum):
    """How the hollow of a faced disc was read."""

    STRAIGHTEDGE = "straightedge and feeler at the middle"
    INDICATOR = "indicator on the slide, across the far half"


@door()
def facing(
    hollow_mm: float, diameter_mm: float, *, by: FacingBy = FacingBy.STRAIGHTEDGE, unit: str = "mm"
) -> Worked[CutFinding]:
    """What a faced disc says: hollow is right (a little), proud in the middle is wrong.

    Args:
        hollow_mm: gap at the middle, minus when proud [mm]; by indicator its reading at the far rim.
        diameter_mm: diameter faced [mm].

    Raises:
        BadEntry: no diameter, or a hollow as deep as that cannot be.

    >>> facing(-0.02, 160).value.text
    'proud in the middle by 0.020 mm over 160 mm: a faced surface may be hollow only'
    """
    if not diameter_mm > 0:
        raise BadEntry(
            "is not a diameter.", where="Diameter faced", value=f"{diameter_mm:g} mm", way_out="Measure it."
        )
    if abs(hollow_mm) > diameter_mm / 50:
        raise BadEntry(
            "is too deep for a faced disc.",
            where="Hollow",
            value=f"{hollow_mm:g} mm",
            way_out="Check its unit.",
        )
    sheet = Sheet("Facing test")
    hollow = hollow_mm / 2 if by is FacingBy.INDICATOR else hollow_mm
    if by is FacingBy.INDICATOR:
        sheet.equation(
            "hollow", f"{hollow_mm:+.5g} mm / 2: the near half reads nothing, the far half twice", GEOMETRY
        )
    angle = 2 * abs(hollow) / diameter_mm
    sheet.equation(
        "cross slide from square",
        f"2 · {abs(hollow):.5g} / {diameter_mm:.5g} = {angle * 1e6:.0f} µm/m",
        GEOMETRY,
    )
    size, over = show_length(abs(hollow), unit), _over(diameter_mm, unit)
    adjust: tuple[str, ...] = ()
    if hollow < 0:
        text = f"proud in the middle by {size} over {over}: a faced surface may be hollow only"
        adjust = (
            f"Cross slide {angle * 1000:.2g} mm/m from square, its far end toward the tailstock: read the spindle "
            "against the carriage first, then swing the headstock or scrape the cross dovetail.",
        )
    else:
        text = f"hollow by {size} over {over}" if hollow > 0 else "flat"
    sheet.result("", text)
    for words in adjust:
        sheet.note(words)
    attach(sheet, "chuck")
    return Worked(CutFinding(hollow, diameter_mm, text, adjust), sheet.close())
