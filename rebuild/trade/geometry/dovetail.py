"""Dovetails over and between rollers, both ways; how much to scrape; taper gibs.

A roller of diameter D in the sharp corner of angle α touches base and flank; its centre stands D/2 × cot(α/2) from
the corner. Over rollers of an external dovetail M = narrow width + D (1 + cot(α/2)); between rollers of an internal
one M = wide width - D (1 + cot(α/2)). Wide and narrow differ by 2 h cot α.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin, tan

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, said

RULE = Source("Geometry of a circle in a corner", "roller against base and flank", Status.COMPUTED)
EXTERNAL, INTERNAL = "external", "internal"
LEAST_DEG, MOST_DEG = 30.0, 85.0


@dataclass(frozen=True, slots=True)
class Dovetail:
    """A dovetail [mm]: widths at its sharp corners, size over (between) the rollers, height the rollers touch at."""

    narrow_mm: float
    wide_mm: float
    rollers_mm: float
    touch_mm: float


@dataclass(frozen=True, slots=True)
class Scraping:
    """What to take off to bring a dovetail from one roller size to another [mm]."""

    each_flank_mm: float
    one_flank_mm: float
    base_mm: float


@dataclass(frozen=True, slots=True)
class Gib:
    """A taper gib [mm]: thickness at both ends, how far in it goes for the play, the shim in its place."""

    thick_mm: float
    advance_mm: float
    shim_mm: float


@door()
def roller_factor(angle_deg: float) -> float:
    """1 + cot(α/2), by which a roller's diameter counts.

    Raises:
        OutOfRange: an angle outside 30 to 85°.

    >>> round(roller_factor(60.0), 4)
    2.7321
    """
    if not LEAST_DEG <= angle_deg <= MOST_DEG:
        raise OutOfRange(
            f"is outside {LEAST_DEG:g} to {MOST_DEG:g}°.",
            where="Angle",
            value=f"{angle_deg:g}°",
            way_out="It is the angle between the flank and the flat the rollers lie on; 55 and 60 are usual.",
        )
    return 1.0 + 1.0 / tan(radians(angle_deg) / 2)


@door()
def over_rollers(
    kind: str, width_mm: float, height_mm: float, angle_deg: float, roller_mm: float, at: str = "narrow"
) -> Worked[Dovetail]:
    """The size over (internal: between) two rollers from a width.

    Args:
        kind: external (rollers outside, in its undercut corners) or internal (rollers inside).
        width_mm: width at the sharp corners, whether or not they are cleared.
        height_mm: height of the dovetail.
        angle_deg: between flank and the flat the rollers lie on.
        roller_mm: roller diameter.
        at: which width is given, "narrow" or "wide".

    Raises:
        BadEntry: no such kind or width, or a size not above zero.
        OutOfRange: rollers that do not measure the flank, or have no room.

    >>> round(over_rollers("external", 40.0, 20.0, 60.0, 10.0).value.rollers_mm, 4)
    67.3205
    """
    narrow, wide = _widths(width_mm, height_mm, angle_deg, at)
    part = roller_mm * roller_factor(angle_deg)
    M = narrow + part if _external(kind) else wide - part
    return _worked(kind, narrow, wide, height_mm, angle_deg, roller_mm, M, "size")


@door()
def width_from_rollers(
    kind: str, reading_mm: float, height_mm: float, angle_deg: float, roller_mm: float
) -> Worked[Dovetail]:
    """The widths a reading over (between) rollers shows.

    Raises:
        as ``over_rollers``.

    >>> round(width_from_rollers("internal", 32.6795, 20.0, 60.0, 10.0).value.wide_mm, 3)
    60.0
    """
    part = roller_mm * roller_factor(angle_deg)
    lean = _lean(height_mm, angle_deg)
    narrow = reading_mm - part if _external(kind) else reading_mm + part - lean
    return _worked(kind, narrow, narrow + lean, height_mm, angle_deg, roller_mm, reading_mm, "widths")


@door()
def scraping(kind: str, now_mm: float, wanted_mm: float, angle_deg: float) -> Worked[Scraping]:
    """What to scrape to bring the size over (between) rollers from one reading to another.

    A flank scraped s deep, square to itself, moves M by s / sin α; the flat the rollers lie on, t deep, by 2 t cot α.

    Raises:
        OutOfRange: metal would have to be put on.

    >>> round(scraping("external", 67.40, 67.32, 60.0).value.each_flank_mm, 4)
    0.0346
    """
    roller_factor(angle_deg)
    off = now_mm - wanted_mm if _external(kind) else wanted_mm - now_mm
    if off < 0:
        raise OutOfRange(
            "would need metal put on, not taken off.",
            where="Wanted",
            value=f"{said(wanted_mm, 4)} from {said(now_mm, 4)}",
            way_out="Scraping makes an external dovetail smaller and an internal one larger; a gib takes up the rest.",
        )
    alpha = radians(angle_deg)
    found = Scraping(off * sin(alpha) / 2, off * sin(alpha), off * tan(alpha) / 2)
    sheet = Sheet("Scraping a dovetail to a size over rollers")
    sheet.read("readings", f"now {both(now_mm, 4)}, wanted {both(wanted_mm, 4)}")
    sheet.equation(
        "both flanks",
        f"{num(off):.5g} × sin {angle_deg:g}° / 2 = {both(found.each_flank_mm, 4)} each",
        RULE,
    )
    sheet.equation(
        "one flank alone", f"{num(off):.5g} × sin {angle_deg:g}° = {both(found.one_flank_mm, 4)}", RULE
    )
    sheet.equation("or the flat", f"{num(off):.5g} × tan {angle_deg:g}° / 2 = {both(found.base_mm, 4)}", RULE)
    sheet.note("Scraping the flat lowers the slide too: look what follows it (screw, nut, rack).")
    return Worked(found, sheet.close())


@door()
def taper_gib(
    play_mm: float, taper: float, length_mm: float, thin_mm: float, angle_deg: float
) -> Worked[Gib]:
    """A taper gib on a flank: how far in it goes to take up a play, and the shim that does the same.

    Args:
        play_mm: side play of the slide, as an indicator reads it.
        taper: n of 1:n on the gib's thickness.
        length_mm: its length.
        thin_mm: thickness of its thin end.
        angle_deg: of the flank; 90 for a square way.

    Raises:
        BadEntry: a size not above zero, or a play below it.
        OutOfRange: a taper outside 1:10 to 1:500, an angle outside 30 to 90°.

    >>> round(taper_gib(0.1, 60.0, 300.0, 6.0, 60.0).value.advance_mm, 3)
    5.196
    """
    if not 10.0 <= taper <= 500.0:
        raise OutOfRange("is outside 1:10 to 1:500.", where="Taper, one in", value=f"{taper:g}")
    if not LEAST_DEG <= angle_deg <= 90.0:
        raise OutOfRange(f"is outside {LEAST_DEG:g} to 90°.", where="Angle", value=f"{angle_deg:g}°")
    _above_zero("Length of the gib", length_mm)
    _above_zero("Thin end", thin_mm)
    if play_mm < 0:
        raise BadEntry("is below nought.", where="Side play", value=said(play_mm))
    shim = play_mm * sin(radians(angle_deg))
    found = Gib(thin_mm + length_mm / taper, shim * taper, shim)
    sheet = Sheet(f"Taper gib 1:{taper:g}")
    sheet.equation("square to the flank", f"{num(play_mm):.4g} × sin {angle_deg:g}° = {both(shim, 4)}", RULE)
    sheet.equation("further in", f"{num(shim):.4f} × {taper:g} = {both(found.advance_mm, 2)}", RULE)
    sheet.equation(
        "thick end",
        f"{num(thin_mm):.4g} + {num(length_mm):.5g} / {taper:g} = {both(found.thick_mm, 3)}",
        RULE,
    )
    sheet.note("The play left for oil is not taken off here: take less than the whole play.")
    return Worked(found, sheet.close())


def _external(kind: str) -> bool:
    if kind not in (EXTERNAL, INTERNAL):
        raise BadEntry("is no kind.", where="Dovetail", value=kind, way_out="Choose external or internal.")
    return kind == EXTERNAL


def _lean(height_mm: float, angle_deg: float) -> float:
    _above_zero("Height", height_mm)
    return 2 * height_mm / tan(radians(angle_deg))


def _widths(width_mm: float, height_mm: float, angle_deg: float, at: str) -> tuple[float, float]:
    if at not in ("narrow", "wide"):
        raise BadEntry("is no width.", where="Width is the", value=at, way_out="Choose narrow or wide.")
    _above_zero("Width", width_mm)
    roller_factor(angle_deg)
    lean = _lean(height_mm, angle_deg)
    return (width_mm, width_mm + lean) if at == "narrow" else (width_mm - lean, width_mm)


def _above_zero(where: str, mm: float) -> None:
    if not mm > 0:
        raise BadEntry("is not above zero.", where=where, value=said(mm), way_out="Type its size.")


def _worked(
    kind: str, narrow: float, wide: float, height: float, angle: float, roller: float, M: float, result: str
) -> Worked[Dovetail]:
    _above_zero("Rollers", roller)
    if narrow <= 0 or M <= 0:
        what = "narrow width" if narrow <= 0 else "room between the rollers"
        raise OutOfRange(
            f"leaves no {what}: {said(narrow if narrow <= 0 else M, 4)}.",
            where="Rollers" if narrow > 0 else "Width",
            value=said(roller if narrow > 0 else wide, 4),
            way_out="Check the width, the height and the rollers.",
        )
    touch = roller / 2 * (1 + cos(radians(angle)))
    if touch >= height:
        raise OutOfRange(
            f"touch the flank {said(touch)} up, not inside its height of {said(height, 4)}.",
            where="Rollers",
            value=said(roller, 4),
            way_out=f"Take rollers below {said(2 * height / (1 + cos(radians(angle))))}.",
        )
    factor, sign = roller_factor(angle), "+" if kind == EXTERNAL else "-"
    base = narrow if kind == EXTERNAL else wide
    words = "over" if kind == EXTERNAL else "between"
    sheet = Sheet(f"{kind.capitalize()} dovetail {words} rollers")
    sheet.read("dovetail", f"{angle:g}°, {both(height)} high, rollers {both(roller, 4)}")
    sheet.equation("factor", f"1 + cot({angle:g}°/2) = {factor:.5f}", RULE)
    sheet.equation(
        "wide - narrow", f"2 × {num(height):.5g} × cot {angle:g}° = {both(wide - narrow, 4)}", RULE
    )
    sheet.equation(
        f"{words} rollers",
        f"{num(base):.4f} {sign} {num(roller):.5g} × {factor:.5f} = {both(M, 4)}",
        RULE,
    )
    sheet.note(f"The rollers touch the flank {both(touch, 2)} above the flat; a worn corner there misleads.")
    sheet.result(result, f"{both(M, 4)}; narrow {both(narrow, 4)}, wide {both(wide, 4)}")
    return Worked(Dovetail(narrow, wide, M, touch), sheet.close())
