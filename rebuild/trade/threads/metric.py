"""ISO metric threads (ISO 68-1, 261, 965-1): limits for any class, e.g. 6g, 6H, 4h, 5g6g, 8g, 6G.

Basic diameters come from the pitch by the constants of ISO 68-1 (d2 = d - 0.649519 P, d1 = d - 1.082532 P)
and are rounded to 0.001 mm as in ISO 724; deviations and tolerances are those of ``iso965``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from rebuild.errors import BadEntry
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import text_of
from rebuild.trade.threads import iso965
from rebuild.trade.threads.rounding import clean, dec, half_up
from rebuild.trade.threads.sizes import (
    Band,
    Side,
    ThreadLimits,
    cuttable,
    in_range,
    lead_angle_deg,
    result_lines,
)

BASIC = Source("ISO 68-1 and ISO 724", "basic profile and dimensions", Status.PUBLISHED)
TOLERANCES = Source("ISO 965-1:1998", "", Status.PUBLISHED)
COMMON_EXTERNAL = ("6g", "6h", "6e", "6f", "4h", "8g", "5g6g")
COMMON_INTERNAL = ("6H", "5H", "4H", "7H", "6G", "7G")
_CLASS = re.compile(r"(\d)([efghGH])(?:(\d)([efghGH]))?")
_PITCH_DEPTH, _MINOR_DEPTH = Decimal("0.64951905"), Decimal("1.08253175")


@dataclass(frozen=True, slots=True)
class _Class:
    """A tolerance class split into pitch diameter and crest diameter parts."""

    text: str
    side: Side
    pitch_grade: int
    crest_grade: int
    pitch_letter: str
    crest_letter: str


def limits(d_mm: float, pitch_mm: float, thread_class: str = "6g") -> Worked[ThreadLimits]:
    """Limits of an ISO metric thread.

    Args:
        d_mm: nominal diameter [mm], over 0.99 to 355.
        pitch_mm: pitch P [mm], 0.2 to 8; a pitch outside the tables takes the standard's formulas.
        thread_class: grade and position, e.g. ``6g``; two parts (``5g6g``) give pitch, then crest diameter.

    Raises:
        BadEntry: not a class, or one the standard does not give at this pitch; or no core left.
        OutOfRange: outside the standard's sizes.

    Source: ISO 68-1, ISO 724, ISO 965-1:1998.

    >>> found = limits(8, 1.25, "6g").value
    >>> found.major.low, found.major.high, found.pitch_diameter.low, found.pitch_diameter.high
    (7.76, 7.972, 7.042, 7.16)
    """
    cls, d_mm, pitch_mm = (
        _parse(text_of("Thread class", thread_class)),
        clean(d_mm, "Diameter"),
        clean(pitch_mm, "Pitch"),
    )
    in_range(d_mm, 0.99, 355, "Diameter", "mm", TOLERANCES)
    in_range(pitch_mm, 0.2, 8, "Pitch", "mm", TOLERANCES)
    cuttable(d_mm, pitch_mm, 1.25, "mm")
    sheet = Sheet(f"M{d_mm:g}x{pitch_mm:g}-{cls.text}: limits of size")
    sheet.read("nominal diameter", f"{d_mm:g} mm")
    sheet.read("pitch P", f"{pitch_mm:g} mm")
    d, P = dec(d_mm), dec(pitch_mm)
    d2, d1 = half_up(d - _PITCH_DEPTH * P, 3), half_up(d - _MINOR_DEPTH * P, 3)
    sheet.equation("basic pitch diameter d2", f"d - 0.649519 P = {d2} mm", BASIC)
    sheet.equation("basic minor diameter d1", f"d - 1.082532 P = {d1} mm", BASIC)
    build = _external if cls.side is Side.EXTERNAL else _internal
    major, pitch, minor, off, root = build(sheet, cls, d, P, d2, d1)
    found = ThreadLimits(
        designation=f"M{d_mm:g}x{pitch_mm:g}-{cls.text}",
        side=cls.side,
        thread_class=cls.text,
        unit="mm",
        decimals=3,
        nominal=d_mm,
        pitch=pitch_mm,
        starts=1,
        major=major,
        pitch_diameter=pitch,
        minor=minor,
        basic_pitch_diameter=float(d2),
        allowance=float(off),
        lead_angle_deg=lead_angle_deg(float(d2), pitch_mm),
        rounded_root_minor_max=root,
    )
    result_lines(sheet, found)
    return Worked(found, sheet.close())


_Built = tuple[Band, Band, Band, Decimal, float | None]


def _external(sheet: Sheet, cls: _Class, d: Decimal, P: Decimal, d2: Decimal, d1: Decimal) -> _Built:
    es2 = _off(sheet, cls.pitch_letter, P)
    es = es2 if cls.crest_letter == cls.pitch_letter else _off(sheet, cls.crest_letter, P)
    Td = _tolerance(sheet, "Td", cls.crest_grade, d, P)
    Td2 = _tolerance(sheet, "Td2", cls.pitch_grade, d, P)
    d_max, d2_max, d1_max = d - es, d2 - es2, d1 - es2
    d2_min = d2_max - Td2
    root_min = half_up(d2_min - Decimal("0.61602540") * P, 3)
    root_max = half_up(d - Decimal("1.22686933") * P - es2, 3)
    sheet.equation("major", f"{d} - {es} = {d_max};  less {Td} = {d_max - Td} mm", TOLERANCES)
    sheet.equation("pitch", f"{d2} - {es2} = {d2_max};  less {Td2} = {d2_min} mm", TOLERANCES)
    sheet.equation("minor, no root above", f"{d1} - {es2} = {d1_max} mm", TOLERANCES)
    sheet.note(
        f"Root rounded with R = 0.1443 P: minor diameter {root_max} mm at the upper limit; "
        "least radius 0.125 P.",
        BASIC,
    )
    return (
        _band(d_max - Td, d_max),
        _band(d2_min, d2_max),
        _band(root_min, d1_max),
        es2,
        float(root_max),
    )


def _internal(sheet: Sheet, cls: _Class, d: Decimal, P: Decimal, d2: Decimal, d1: Decimal) -> _Built:
    EI2 = _off(sheet, cls.pitch_letter, P)
    EI = EI2 if cls.crest_letter == cls.pitch_letter else _off(sheet, cls.crest_letter, P)
    TD1 = _tolerance(sheet, "TD1", cls.crest_grade, d, P)
    TD2 = _tolerance(sheet, "TD2", cls.pitch_grade, d, P)
    D2_min, D1_min = d2 + EI2, d1 + EI
    sheet.equation("pitch", f"{d2} + {EI2} = {D2_min};  plus {TD2} = {D2_min + TD2} mm", TOLERANCES)
    sheet.equation("minor", f"{d1} + {EI} = {D1_min};  plus {TD1} = {D1_min + TD1} mm", TOLERANCES)
    sharp = half_up(D2_min + TD2 + Decimal("0.79385662") * P, 3)
    sheet.note(f"The major diameter has no upper limit; a root at H/24 stands at {sharp} mm.", BASIC)
    return _band(d + EI2, None), _band(D2_min, D2_min + TD2), _band(D1_min, D1_min + TD1), EI2, None


def _off(sheet: Sheet, letter: str, P: Decimal) -> Decimal:
    found = iso965.deviation(letter, float(P))
    sheet.table("fundamental deviation", found.how, found.source)
    return dec(found.um) / 1000


def _tolerance(sheet: Sheet, symbol: str, grade: int, d: Decimal, P: Decimal) -> Decimal:
    found = iso965.tolerance(symbol, grade, float(d), float(P))
    sheet.table(f"tolerance {symbol}", found.how, found.source)
    return dec(found.um) / 1000


def _band(low: Decimal, high: Decimal | None) -> Band:
    return Band(float(low), None if high is None else float(high), "mm")


def _parse(text: str) -> _Class:
    match = _CLASS.fullmatch(text.replace(" ", ""))
    letters = [part for part in (match[2], match[4]) if part] if match else []
    if not match or len({letter.isupper() for letter in letters}) != 1:
        raise BadEntry(
            "is not a metric thread class.",
            where="Thread class",
            value=text,
            way_out=f"Screws: {', '.join(COMMON_EXTERNAL)}. Nuts: {', '.join(COMMON_INTERNAL)}.",
        )
    side = Side.INTERNAL if letters[0].isupper() else Side.EXTERNAL
    return _Class(
        match[0],
        side,
        int(match[1]),
        int(match[3] or match[1]),
        match[2],
        match[4] or match[2],
    )
