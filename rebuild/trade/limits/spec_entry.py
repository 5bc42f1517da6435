"""Read a spec as people write it: ``25 +0.021/0``, ``1.7495-1.7500``, ``<= 0.0004``, ``25 H7``, ``±0.01``.

A bare number is in the entry's unit; a unit written once at the end holds for every number in the entry. ISO 286 goes
by millimetres: a bare size with one of its classes is asked about where the entry goes by inches.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from rebuild.errors import Ambiguous, BadEntry, OutOfRange
from rebuild.trade.sizes.comma import refuse_doubtful
from rebuild.trade.sizes.given import text_of
from rebuild.trade.sizes.length_units import INCH_UNITS, UNIT_OF
from rebuild.trade.sizes.quantity import FACTORS, Size, parse_length, tidy
from rebuild.trade.sizes.show import exact_text
from rebuild.trade.sizes.typed_text import plain_of

#: The longest spec looked at.
LONGEST = 200
WAYS_DEVIATIONS = "Type it as +.001/-.000 or ±0.01."
WAYS_TO_TYPE = "Type it as 25 +0.021/0, 1.7495-1.7500, 25 ±0.01, 25 H7, max 0.0004 or 25."

_UNIT_AT_END = re.compile(
    r"(?P<rest>.*\d)\s*(?P<unit>mm|cm|m|µm|um|in\.?|inch|inches|thou|tenths?|µin|\"|'')", re.I
)
_UNIT_INSIDE = re.compile(r"\d\s*(?:(?:mm|cm|m|µm|um|in|inch|inches|thou|tenths?|µin)\b|[\"'])", re.I)
_HIGH_ONLY = re.compile(r"(?:<=|<|≤|max\.?|up to|at most|not over)\s*(.+)", re.I)
_HIGH_AFTER = re.compile(r"(.+?)\s*(?:max\.?|or less)", re.I)
_LOW_ONLY = re.compile(r"(?:>=|>|≥|min\.?|at least|not under)\s*(.+)", re.I)
_LOW_AFTER = re.compile(r"(.+?)\s*(?:min\.?|or more)", re.I)
_RANGE = re.compile(r"(.+?)\s*(?:\.\.\.?|…|\bto\b)\s*(.+)", re.I)
_PLUS_MINUS = re.compile(r"(.*?)\s*(?:±|\+\s*/\s*-|\+-)\s*([^+\-±]+)")
_DEVIATIONS = re.compile(
    r"(?P<nominal>.*?)(?:^|\s+|(?=\+))(?P<first>[-+]\s*[\d.,]+|\b0)\s*[/ ]\s*(?P<second>[-+]?\s*[\d.,]+)"
)
_CLASS = re.compile(
    r"(?P<nominal>[\d.,/ -]*\d)\s*(?P<unit>mm|cm|in\.?|inch|\")?\s*(?P<cls>(?!in\d)[A-Za-z]{1,2}\d{1,2})"
)

_BARE_CLASS = re.compile(r"(?P<size>\s*[Øø⌀∅]?\s*[\d.,/ -]*\d)\s+(?P<cls>[A-Za-z]{1,2}\s?\d{1,2}.*)")


@dataclass(frozen=True, slots=True)
class SpecEntry:
    """What a spec says: any of nominal, low and high limit; ``origin`` names a standard that was used."""

    nominal: Size | None
    low: Size | None
    high: Size | None
    origin: str = ""


def parse_deviations(text: str, unit: str = "mm", field: str = "Deviations") -> tuple[Size, Size]:
    """Read a pair of deviations; returns (upper, lower), whichever order they were typed in.

    Raises:
        BadEntry: not a pair of signed sizes.

    >>> upper, lower = parse_deviations("+.001/-.000", "in")
    >>> upper.mm, lower.mm
    (0.0254, 0.0)
    """
    plain = plain_of(text, field, WAYS_DEVIATIONS, longest=LONGEST, sort="a pair of deviations")
    rest, used = _unit_off(plain, text_of("Unit", unit))
    both = _PLUS_MINUS.fullmatch(rest)
    if both and not both[1]:
        size = parse_length(both[2], used, field)
        return size, Size(f"-{size.text}", size.unit, -size.mm)
    match = _DEVIATIONS.fullmatch(rest)
    if not match or match["nominal"]:
        raise BadEntry(
            "is not a pair of deviations.",
            where=field,
            value=text,
            way_out=WAYS_DEVIATIONS,
        )
    pair = [parse_length(match[part].replace(" ", ""), used, field) for part in ("first", "second")]
    low, high = sorted(pair, key=lambda size: size.mm)
    return high, low


def parse_spec(
    text: str, unit: str = "mm", field: str = "Spec", *, decimal_comma: bool | None = None
) -> SpecEntry:
    """Read a spec; see the module's first line for the forms. ``decimal_comma`` as in ``parse_length``.

    Raises:
        BadEntry: not a spec, or the low limit lies above the high one.
        Ambiguous: two honest readings.
        OutOfRange: a tolerance class outside its table.

    >>> entry = parse_spec("1.7495-1.7500", "in")
    >>> entry.low.text, entry.high.text
    ('1.7495', '1.7500')
    """
    unit = text_of("Unit", unit)
    if not text_of(field, text).strip():
        return SpecEntry(None, None, None)
    plain = plain_of(text, field, WAYS_TO_TYPE, longest=LONGEST, sort="a spec")
    refuse_doubtful(plain, field, decimal_comma)
    plain = comma_settled(plain, decimal_comma)
    rest, used = _unit_off(plain, unit)
    bare = rest == plain
    basic = unit if used in ("µm", "thou", "tenth", "µin") else used
    try:
        entry = (
            _one_sided(rest, used, field)
            or _plus_minus(rest, basic, used, field)
            or _class(rest, used, field, bare)
            or _with_deviations(rest, basic, used, field)
            or _between(rest, used, field)
            or SpecEntry(_size(rest, used, field, text), None, None)
        )
    except Ambiguous as asked:
        raise _asked_of_whole(asked, plain) from None
    if entry.low and entry.high and entry.low.mm > entry.high.mm:
        raise _swapped(entry.low, entry.high, "" if bare else used, field, text)
    return entry


def names_unit(text: str) -> bool:
    """Whether a spec names its unit itself.

    >>> names_unit("25 +0.021/0 mm"), names_unit("0.5 min")
    (True, False)
    """
    return len(text) <= LONGEST and _UNIT_AT_END.fullmatch(tidy(text)) is not None


def with_unit(text: str, unit: str) -> str:
    """A spec as typed, for saying it: with the unit its bare numbers are in, unless it names one itself.

    >>> with_unit("25 +0.021/0", "mm"), with_unit("25 mm H7", "in"), with_unit("0.5 min", "in")
    ('25 +0.021/0 mm', '25 mm H7', '0.5 min in')
    """
    text = text.strip()
    if not text or (len(text) <= LONGEST and _UNIT_INSIDE.search(tidy(text))):
        return text
    return f"{text} {unit}"


def class_with_unit(text: str, unit: str) -> str:
    """A size with an ISO class, or a fit, as typed: with the unit put behind a bare size.

    >>> class_with_unit("25 H7/g6", "mm"), class_with_unit("1 in g6", "mm"), class_with_unit("H7", "mm")
    ('25 mm H7/g6', '1 in g6', 'H7')
    """
    match = _BARE_CLASS.fullmatch(text)
    return f"{match['size']} {unit} {match['cls']}" if match else text


def comma_settled(plain: str, decimal_comma: bool | None) -> str:
    """``plain`` with a doubtful comma settled the way the file reads it; other commas are no doubt.

    >>> comma_settled("1,250-1,300", True), comma_settled("1,250-1,300", False)
    ('1.250-1.300', '1250-1300')
    """
    if decimal_comma is None or "," not in plain:
        return plain
    if decimal_comma:
        return plain if "." in plain else plain.replace(",", ".")
    return re.sub(r"(?<![\d.,])([1-9]\d{0,2}),(\d{3})(?![\d,])", r"\1\2", plain)


def _unit_off(plain: str, unit: str) -> tuple[str, str]:
    match = _UNIT_AT_END.fullmatch(plain)
    if not match:
        return plain, unit
    used = parse_length(f"1 {match['unit']}", "in").unit
    return match["rest"].strip(), used


def _asked_of_whole(asked: Ambiguous, plain: str) -> Ambiguous:
    """A question about one size of a spec, with readings that can be typed instead of the whole spec."""
    if asked.value == plain or asked.value not in plain:
        return asked
    readings = tuple((words, plain.replace(asked.value, retyped, 1)) for words, retyped in asked.readings)
    return Ambiguous(asked.what, where=asked.where, value=asked.value, readings=readings)


def _swapped(low: Size, high: Size, unit: str, field: str, typed: str) -> Ambiguous:
    """Limits typed the larger first: the order is offered, since which end was mistyped is not known."""
    end = f" {unit}" if unit and low.text[-1].isdigit() else ""
    return Ambiguous(
        f"has its low limit {low.text} above its high limit {high.text}.",
        where=field,
        value=typed.strip(),
        readings=(("the smaller one first", f"{high.text} to {low.text}{end}"),),
    )


def _one_sided(rest: str, unit: str, field: str) -> SpecEntry | None:
    for pattern in (_HIGH_ONLY, _HIGH_AFTER):
        match = pattern.fullmatch(rest)
        if match:
            return SpecEntry(None, None, _size(match[1], unit, field, rest))
    for pattern in (_LOW_ONLY, _LOW_AFTER):
        match = pattern.fullmatch(rest)
        if match:
            return SpecEntry(None, _size(match[1], unit, field, rest), None)
    return None


def _plus_minus(rest: str, basic: str, unit: str, field: str) -> SpecEntry | None:
    """``25 ±10 µm``: the deviation in ``unit``, the nominal in the entry's own unit ``basic``."""
    match = _PLUS_MINUS.fullmatch(rest)
    if not match:
        return None
    half = _size(match[2], unit, field, rest)
    if not match[1]:
        return SpecEntry(_made(0.0, unit), _made(-half.mm, unit), _made(half.mm, unit))
    nominal = _size(match[1], basic, field, rest)
    return SpecEntry(nominal, _made(nominal.mm - half.mm, basic), _made(nominal.mm + half.mm, basic))


def _class(rest: str, unit: str, field: str, bare: bool) -> SpecEntry | None:
    match = _CLASS.fullmatch(rest)
    if not match:
        return None
    from rebuild.trade.limits import iso286

    if match["unit"]:
        unit = UNIT_OF[match["unit"].lower()]
    elif bare:
        refuse_bare_inches(match["nominal"].strip(), match["cls"], unit, field, rest)
    nominal = _size(match["nominal"], unit, field, rest)
    limits = iso286.limits(nominal.mm, match["cls"]).value
    return SpecEntry(
        nominal,
        _made(limits.low_mm, unit),
        _made(limits.high_mm, unit),
        f"ISO 286-2:2010 {match['cls']}",
    )


def refuse_bare_inches(size: str, named: str, unit: str, field: str, typed: str) -> None:
    """Raise Ambiguous for a bare size with an ISO class where a bare number is inches: the class goes by millimetres.

    >>> refuse_bare_inches("25", "H7", "mm", "Spec", "25 H7")
    >>> refuse_bare_inches("25", "H7", "in", "Spec", "25 H7")
    Traceback (most recent call last):
    rebuild.errors.Ambiguous: ... Type 25 mm H7 (millimetres, as ISO 286 goes by) or 25 in H7 (inches).
    """
    if unit not in INCH_UNITS:
        return
    ways = {
        f"{size} {unit} {named}": words
        for unit, words in (("mm", "millimetres, as ISO 286 goes by"), ("in", "inches"))
    }
    held = [way for way, unit in zip(ways, ("mm", "in"), strict=True) if _is_held(size, unit, named)]
    raise Ambiguous(
        "has a class of ISO 286, which goes by millimetres, and this entry goes by inches.",
        where=field,
        value=typed,
        readings=tuple((ways[way], way) for way in held or ways),
    )


def _is_held(size: str, unit: str, named: str) -> bool:
    """Whether every class named is held for a size in this unit; a reading that would be refused is not offered."""
    from rebuild.trade.limits import iso286

    try:
        mm = parse_length(size, unit).mm
        return all(iso286.limits(mm, one.strip()).value for one in named.split("/"))
    except (BadEntry, OutOfRange):
        return False


def _with_deviations(rest: str, basic: str, unit: str, field: str) -> SpecEntry | None:
    """``25 +21/0 µm``: deviations in ``unit``, the nominal in the entry's own unit ``basic``."""
    match = None if _is_size(rest, unit) else _DEVIATIONS.fullmatch(rest)
    if (
        not match
        or not match["nominal"]
        or not any(sign in match["first"] + match["second"] for sign in "+-")
    ):
        return None
    nominal = _size(match["nominal"], basic, field, rest)
    high, low = parse_deviations(f"{match['first']}/{match['second']}", unit, field)
    return SpecEntry(nominal, _made(nominal.mm + low.mm, basic), _made(nominal.mm + high.mm, basic))


def _between(rest: str, unit: str, field: str) -> SpecEntry | None:
    words = _RANGE.fullmatch(rest)
    if words:
        return SpecEntry(None, _size(words[1], unit, field, rest), _size(words[2], unit, field, rest))
    if _is_size(rest, unit):
        return None
    pairs = [
        (rest[:at].strip(), rest[at + 1 :].strip())
        for at, mark in enumerate(rest)
        if at and mark == "-" and _is_size(rest[:at], unit) and _is_size(rest[at + 1 :], unit)
    ]
    rising = [(low, high) for low, high in pairs if parse_length(low, unit).mm < parse_length(high, unit).mm]
    if len(pairs) == 1 and not rising:
        low, high = pairs[0]
        return SpecEntry(None, parse_length(low, unit, field), parse_length(high, unit, field))
    if len(rising) == 1:
        low, high = rising[0]
        return SpecEntry(None, parse_length(low, unit, field), parse_length(high, unit, field))
    if len(rising) > 1:
        readings = tuple((f"from {low} to {high}", f"{low} to {high}") for low, high in rising)
        raise Ambiguous(
            "can be split into two limits in several ways.", where=field, value=rest, readings=readings
        )
    return None


def _is_size(text: str, unit: str) -> bool:
    try:
        parse_length(text, unit)
    except BadEntry:
        return False
    return True


def _size(text: str, unit: str, field: str, whole: str) -> Size:
    try:
        return parse_length(text, unit, field)
    except Ambiguous:
        raise
    except BadEntry:
        raise BadEntry("is not a spec.", where=field, value=whole, way_out=WAYS_TO_TYPE) from None


def _made(mm: float, unit: str) -> Size:
    """A limit worked out from nominal and deviation, with its text in the entry's unit."""
    shown = unit if unit in FACTORS else "mm"
    rounded = round(mm, 9)
    return Size(exact_text(rounded, shown), shown, rounded)
