"""From an old manual's figure (``300 SUS at 100 °F``, ``SAE 20``, ``AGMA 4``) to today's ISO class.

A Saybolt figure is at 100 °F (37.78 °C), an ISO grade at 40 °C: the oil is a little thinner there, so
many old figures land in the gap between two bands. The gap is shown; the nearest grade is named as
custom, not as a class.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.lubrication.duties import duty
from rebuild.trade.lubrication.grades import Band, agma, iso_band, iso_bands, iso_place, nearest_grade, sae
from rebuild.trade.lubrication.old_names import old_name
from rebuild.trade.lubrication.viscosity import Scale, celsius, to_cSt
from rebuild.trade.lubrication.viscosity_index import D2270, line_of_index
from rebuild.trade.lubrication.walther import D341
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked, Working
from rebuild.trade.sizes.exact import exact
from rebuild.trade.sizes.number import read_number, read_whole
from rebuild.trade.sizes.typed_text import plain_of

USUAL_INDEX = 95.0
#: The standard temperatures of the Saybolt viscometer [°F] (ASTM D88; from memory): a bare one of these is no doubt.
SAYBOLT_F = (70.0, 100.0, 130.0, 210.0)
S_NUMBERS = Source("ASTM D2422", "Saybolt numbers beside the ISO grades", Status.FROM_MEMORY)
ASSUMED_INDEX = Source("Viscosity index 95", "usual for straight mineral oil", Status.COMMON_PRACTICE)
WAYS = (
    "Type it as 300 SUS at 100 °F, SAE 20, SAE 90 gear, AGMA 4, ASLE S-315, medium way oil, ISO VG 68, 5 °E at "
    "50 °C or 68 cSt."
)

_NUMBER = r"(?P<number>\d[\d.,]*)"
_AT = r"(?:\s*(?:at|@)\s*(?P<temperature>\d[\d.,]*)\s*(?:°?\s*(?P<degree>[CF])\.?|°|deg\.?)?)?"
_SCALES = (
    (Scale.SAYBOLT, r"(?:sus|ssu|suv|saybolt(?:\s+universal)?(?:\s+seconds?)?|seconds?\s+saybolt)", 100.0),
    (
        Scale.REDWOOD,
        r"(?:redwood(?:\s*(?:no\.?\s*)?1(?![\d.,]))?(?:\s+seconds?)?|seconds?\s+redwood(?:\s*1(?!\d))?)",
        70.0,
    ),
    (Scale.ENGLER, r"(?:°\s*e|engler|degrees?\s+engler|°\s*engler|e°)", 122.0),
    (Scale.CST, r"(?:cst|mm²/s|mm2/s|centistokes?)", 104.0),
)


@dataclass(frozen=True, slots=True)
class OldOil:
    """An old figure as read: a range of viscosity [mm²/s] at a temperature [°C], and what was assumed."""

    text: str
    low_cSt: float
    high_cSt: float
    at_C: float
    band: Band | None
    assumed: tuple[str, ...]
    working: Working
    at_assumed: str = ""  # the temperature, in words, where none or no degree was written


@dataclass(frozen=True, slots=True)
class Today:
    """What an old figure is today: viscosity at 40 °C [mm²/s], ISO grades, and a sentence.

    ``exact`` are the grades whose band holds the viscosity (or, for an old class, whose mid-point lies
    inside it); ``usual`` is the customary or nearest grade.
    """

    old: OldOil
    low_40C_cSt: float
    high_40C_cSt: float
    exact: tuple[int, ...]
    usual: int
    text: str


@door()
def read_old_oil(text: str, *, decimal_comma: bool | None = None) -> OldOil:
    """Read an old figure. A missing temperature is assumed by custom and said to be.

    Raises:
        BadEntry: not a figure of this kind.
        Ambiguous: ``5,000 cSt``.
        OutOfRange: an unknown class, or a figure outside its unit's range.

    >>> read_old_oil("300 SUS at 100 F").at_C
    37.77777777777778
    """
    plain = plain_of(text, "Old oil", WAYS, sort="an oil figure").replace("º", "°").replace("˚", "°")
    for scale, spelling, usual_F in _SCALES:
        match = re.fullmatch(
            rf"(?:{_NUMBER}\s*{spelling}|{spelling}\s*{_NUMBER.replace('number', 'after')}){_AT}",
            plain,
            re.IGNORECASE,
        )
        if match:
            return _reading(text, scale, match, usual_F, decimal_comma)
    return _class(text, plain)


def _reading(text: str, scale: Scale, match: re.Match[str], usual_F: float, comma: bool | None) -> OldOil:
    value = float(
        exact(
            match["number"] or match["after"],
            "Old oil",
            scale.value,
            typed=text,
            decimal_comma=comma,
            fractions=False,
            ways=WAYS,
        )
    )
    assumed: tuple[str, ...] = ()
    at_assumed = ""
    if match["temperature"]:
        degree = (match["degree"] or "").upper()
        degrees = read_number(match["temperature"], "Temperature", degree, decimal_comma=comma)
        if not degree:
            _refuse_bare_degrees(text, match, scale, degrees)
            assumed, at_assumed = _assumed("no degree written", degrees)
        at_C = degrees if degree == "C" else celsius(degrees)
    else:
        at_C = celsius(usual_F)
        assumed, at_assumed = _assumed("no temperature given", usual_F)
    worked = to_cSt(value, scale, at_C)
    return OldOil(text.strip(), worked.value, worked.value, at_C, None, assumed, worked.working, at_assumed)


def _assumed(why: str, at_F: float) -> tuple[tuple[str, ...], str]:
    said = f"taken at {at_F:g} °F ({celsius(at_F):.4g} °C), the custom of its unit"
    return (f"{why}: {said}",), f"{at_F:g} °F"


def _refuse_bare_degrees(text: str, match: re.Match[str], scale: Scale, degrees: float) -> None:
    """``300 SUS @ 100`` is one of the viscometer's own temperatures; any other bare number is asked about."""
    if scale is Scale.SAYBOLT and degrees in SAYBOLT_F:
        return
    head = text.strip().rstrip("°").rstrip()
    raise Ambiguous(
        f"does not say whether {match['temperature']} is °C or °F.",
        where="Old oil",
        value=text.strip(),
        readings=(("Celsius", f"{head} °C"), ("Fahrenheit", f"{head} °F")),
    )


def _class(text: str, plain: str) -> OldOil:
    readers: tuple[tuple[str, Callable[[str], tuple[Band, tuple[str, ...]]]], ...] = (
        (r"(?:iso\s*)?vg\s*(\d+)|iso\s*(\d+)", _iso),
        (r"agma\s*(?:no\.?\s*)?(\d+a?\s*(?:ep|comp(?:ounded)?\.?|s)?)", _agma),
        (r"sae\s*(?:no\.?\s*)?(\d+w?(?:\s*(?:gear|engine|motor|crankcase)(?:\s+oil)?)?)", _sae),
    )
    for pattern, reader in readers:
        match = re.fullmatch(pattern, plain, re.IGNORECASE)
        if match:
            band, assumed = reader(next(group for group in match.groups() if group))
            sheet = Sheet(f"{text.strip()} as kinematic viscosity")
            most = f"{band.max_cSt:g}" if band.max_cSt else "up"
            edition = f" ({band.edition})" if band.edition else ""
            sheet.table(
                band.name + edition, f"{band.min_cSt:g} to {most} mm²/s at {band.at_C:g} °C", band.source
            )
            high = band.max_cSt or band.min_cSt
            return OldOil(text.strip(), band.min_cSt, high, band.at_C, band, assumed, sheet.close())
    named = old_name(plain)
    if named is None:
        raise BadEntry(
            "is not an oil figure this program reads.", where="Old oil", value=text.strip(), way_out=WAYS
        )
    band, assumed = named
    sheet = Sheet(f"{text.strip()} as kinematic viscosity")
    sheet.table("old class name", band.name, table("old_oil_names").source)
    sheet.table(band.name, f"{band.min_cSt:g} to {band.max_cSt:g} mm²/s at 40 °C", band.source)
    high = band.max_cSt or band.min_cSt
    return OldOil(text.strip(), band.min_cSt, high, band.at_C, band, assumed, sheet.close())


def _iso(number: str) -> tuple[Band, tuple[str, ...]]:
    return iso_band(read_whole(number, "ISO VG")), ()


def _agma(number: str) -> tuple[Band, tuple[str, ...]]:
    words = number.upper()
    said: list[str] = []
    if "EP" in words:
        said.append("EP: with extreme-pressure additive")
    if "COMP" in words:
        said.append("Comp: compounded with fatty oil, for worm gears")
    return agma(number), tuple(said)


def _sae(number: str) -> tuple[Band, tuple[str, ...]]:
    grade, _, kind_word = number.upper().partition(" ")
    known_gear = {"80", "85", "90", "110", "140", "190", "250", "75W", "80W", "85W"}
    kind = "gear" if "GEAR" in kind_word or (not kind_word and grade in known_gear) else "engine"
    bands = sae(grade, kind)
    said = [
        f"read on the SAE {kind} scale; the engine and gear scales are different",
        "public charts disagree by one ISO grade for the same SAE number",
    ]
    if len(bands) > 1:
        said.append(f"the {bands[0].edition} limits are used, since the manual is old")
    return bands[0], tuple(said)


@door()
def today(
    text: str, *, index: float = USUAL_INDEX, for_duty: str = "", decimal_comma: bool | None = None
) -> Worked[Today]:
    """The ISO class of an old figure, with the gap shown, and how it sits with a duty.

    Args:
        text: the old figure.
        index: the old oil's viscosity index; 95 is usual for straight mineral oil.
        for_duty: a name of ``duties.duty_names``, or empty.

    Raises:
        BadEntry: not a figure of this kind.
        OutOfRange: outside the tables or rules.

    >>> today("300 SUS at 100 °F").value.text
    'about 57.9 mm²/s at 40 °C: falls between VG 46 (to 50.6) and VG 68 (from 61.2); by custom VG 68'
    """
    old = read_old_oil(text, decimal_comma=decimal_comma)
    low, high = (_at_40(nu, old.at_C, index) for nu in (old.low_cSt, old.high_cSt))
    sheet = Sheet(f"{old.text} today")
    sheet.take(old.working)
    for said in old.assumed:
        sheet.note(said)
    if old.at_C != 40.0:
        sheet.read("viscosity index", f"{index:g}", ASSUMED_INDEX if index == USUAL_INDEX else None)
        sheet.equation(
            "at 40 °C", f"from {old.at_C:.4g} °C along the oil's line: {_span(low, high)} mm²/s", D341
        )
        sheet.note("The line is the one whose viscosities at 40 and 100 °C give that index.", D2270)
    found = _single(old, low, sheet) if low == high else _ranged(old, low, high)
    sheet.result("today", found.text)
    _say_duty(found, for_duty, sheet)
    _say_cautions(old, for_duty, sheet)
    return Worked(found, sheet.close())


def _at_40(nu: float, at_C: float, index: float) -> float:
    return nu if at_C == 40.0 else line_of_index(at_C, nu, index).viscosity_cSt(40.0)


def _single(old: OldOil, nu: float, sheet: Sheet) -> Today:
    worked = iso_place(nu)
    sheet.take(worked.working)
    place = worked.value
    taken = f"taken as at {old.at_assumed}: " if old.at_assumed else ""
    text = f"{taken}about {nu:.3g} mm²/s at 40 °C: {place.text.split(', nearest')[0]}"
    if place.grade is not None:
        return Today(old, nu, nu, (place.grade,), place.grade, text)
    text += f"; by custom VG {place.nearest}"
    if abs(old.at_C - celsius(100.0)) < 0.05:
        by_number = nearest_grade(old.low_cSt)
        sheet.note(
            "Custom matches Saybolt numbers at 100 °F with the grade of the same mm²/s, leaving out the "
            f"2.2 °C to 40 °C: that gives VG {by_number}.",
            S_NUMBERS,
        )
        if by_number != place.nearest:
            text += f" (VG {by_number} if the 2.2 °C are left out)"
    return Today(old, nu, nu, (), place.nearest, text)


def _ranged(old: OldOil, low: float, high: float) -> Today:
    if old.band is not None and old.band.iso_vg is not None:
        grade = old.band.iso_vg
        return Today(
            old, low, high, (grade,), grade, f"is ISO VG {grade} ({_span(low, high)} mm²/s at 40 °C)"
        )
    inside = tuple(
        band.iso_vg
        for band in iso_bands()
        if band.iso_vg is not None and low <= (band.min_cSt + (band.max_cSt or 0.0)) / 2 <= high
    )
    custom = old.band.custom_vg if old.band is not None else None
    usual = custom or nearest_grade((low * high) ** 0.5)
    names = " and ".join(f"VG {grade}" for grade in inside) or "no grade's middle"
    said = "by custom" if custom else "its middle is nearest"
    text = f"about {_span(low, high)} mm²/s at 40 °C: covers {names}; {said} VG {usual}"
    return Today(old, low, high, inside, usual, text)


def _say_duty(found: Today, for_duty: str, sheet: Sheet) -> None:
    if not for_duty:
        return
    asked = duty(for_duty)
    sheet.table(asked.label, f"{' or '.join(asked.symbols)}; {asked.about}", asked.source)
    grades = ", ".join(str(grade) for grade in asked.grades)
    if not asked.grades:
        sheet.note("This duty takes grease: see the NLGI numbers.")
    elif found.usual in asked.grades:
        sheet.note(f"VG {found.usual} is among the grades usual for this duty ({grades}).", asked.source)
    else:
        sheet.note(
            f"VG {found.usual} is not among the grades usual for this duty ({grades}): look again.",
            asked.source,
        )


def _say_cautions(old: OldOil, for_duty: str, sheet: Sheet) -> None:
    topics = list(duty(for_duty).cautions) if for_duty else []
    words = old.text.upper()
    gear_like = "AGMA" in words or "GEAR" in words or (old.band is not None and "gear" in old.band.name)
    if gear_like:
        topics.append("ep-and-bronze")
    attach(sheet, *dict.fromkeys(topics))


def _span(low: float, high: float) -> str:
    return f"{low:.3g}" if low == high else f"{low:.3g} to {high:.3g}"
