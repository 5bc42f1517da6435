"""The forms of a spec without a class: one limit, plus or minus, deviations, from one limit to the other."""

from __future__ import annotations

import re

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.limits.spec_parts import SpecEntry, is_size, made, size_of
from rebuild.trade.limits.spec_unit import LONGEST, unit_off
from rebuild.trade.sizes.given import text_of
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.trade.sizes.typed_text import plain_of

WAYS_DEVIATIONS = "Type it as +.001/-.000 or ±0.01."
_HIGH_ONLY = re.compile(r"(?:<=|<|≤|max\.?|up to|at most|not over)\s*(.+)", re.I)
_HIGH_AFTER = re.compile(r"(.+?)\s*(?:max\.?|or less)", re.I)
_LOW_ONLY = re.compile(r"(?:>=|>|≥|min\.?|at least|not under)\s*(.+)", re.I)
_LOW_AFTER = re.compile(r"(.+?)\s*(?:min\.?|or more)", re.I)
_RANGE = re.compile(r"(.+?)\s*(?:\.\.\.?|…|\bto\b)\s*(.+)", re.I)
_PLUS_MINUS = re.compile(r"(.*?)\s*(?:±|\+\s*/\s*-|\+-)\s*([^+\-±]+)")
_DEVIATIONS = re.compile(
    r"(?P<nominal>.*?)(?:^|\s+|(?=\+))(?P<first>[-+]\s*[\d.,]+|\b0)\s*[/ ]\s*(?P<second>[-+]?\s*[\d.,]+)"
)


def parse_deviations(text: str, unit: str = "mm", field: str = "Deviations") -> tuple[Size, Size]:
    """Read a pair of deviations; returns (upper, lower), whichever order they were typed in.

    Raises:
        BadEntry: not a pair of signed sizes.

    >>> upper, lower = parse_deviations("+.001/-.000", "in")
    >>> upper.mm, lower.mm
    (0.0254, 0.0)
    """
    plain = plain_of(text, field, WAYS_DEVIATIONS, longest=LONGEST, sort="a pair of deviations")
    rest, used = unit_off(plain, text_of("Unit", unit))
    both = _PLUS_MINUS.fullmatch(rest)
    if both and not both[1]:
        size = parse_length(both[2], used, field)
        return size, Size(f"-{size.text}", size.unit, -size.mm)
    match = _DEVIATIONS.fullmatch(rest)
    if not match or match["nominal"]:
        raise BadEntry("is not a pair of deviations.", where=field, value=text, way_out=WAYS_DEVIATIONS)
    pair = [parse_length(match[part].replace(" ", ""), used, field) for part in ("first", "second")]
    low, high = sorted(pair, key=lambda size: size.mm)
    return high, low


def one_sided(rest: str, unit: str, field: str) -> SpecEntry | None:
    """``max 0.0004``, ``0.5 min``: one limit; None for any other form.

    >>> one_sided("max 0.0004", "in", "Spec").high.text, one_sided("25", "mm", "Spec") is None
    ('0.0004', True)
    """
    for pattern in (_HIGH_ONLY, _HIGH_AFTER):
        match = pattern.fullmatch(rest)
        if match:
            return SpecEntry(None, None, size_of(match[1], unit, field, rest))
    for pattern in (_LOW_ONLY, _LOW_AFTER):
        match = pattern.fullmatch(rest)
        if match:
            return SpecEntry(None, size_of(match[1], unit, field, rest), None)
    return None


def plus_minus(rest: str, basic: str, unit: str, field: str) -> SpecEntry | None:
    """``25 ±10 µm``: the deviation in ``unit``, the nominal in the entry's own unit ``basic``.

    >>> entry = plus_minus("25 ±10", "mm", "µm", "Spec")
    >>> entry.low.text, entry.high.text
    ('24.99', '25.01')
    """
    match = _PLUS_MINUS.fullmatch(rest)
    if not match:
        return None
    half = size_of(match[2], unit, field, rest)
    if not match[1]:
        return SpecEntry(made(0.0, unit), made(-half.mm, unit), made(half.mm, unit))
    nominal = size_of(match[1], basic, field, rest)
    return SpecEntry(nominal, made(nominal.mm - half.mm, basic), made(nominal.mm + half.mm, basic))


def with_deviations(rest: str, basic: str, unit: str, field: str) -> SpecEntry | None:
    """``25 +21/0 µm``: deviations in ``unit``, the nominal in the entry's own unit ``basic``.

    >>> entry = with_deviations("25 +21/0", "mm", "µm", "Spec")
    >>> entry.low.text, entry.high.text
    ('25', '25.021')
    """
    match = None if is_size(rest, unit) else _DEVIATIONS.fullmatch(rest)
    if (
        not match
        or not match["nominal"]
        or not any(sign in match["first"] + match["second"] for sign in "+-")
    ):
        return None
    nominal = size_of(match["nominal"], basic, field, rest)
    high, low = parse_deviations(f"{match['first']}/{match['second']}", unit, field)
    return SpecEntry(nominal, made(nominal.mm + low.mm, basic), made(nominal.mm + high.mm, basic))


def between(rest: str, unit: str, field: str) -> SpecEntry | None:
    """``1.7495-1.7500``, ``20 to 21``: both limits; None for any other form. Raises Ambiguous for several ways.

    >>> entry = between("1.7495-1.7500", "in", "Spec")
    >>> entry.low.text, entry.high.text
    ('1.7495', '1.7500')
    """
    words = _RANGE.fullmatch(rest)
    if words:
        return SpecEntry(None, size_of(words[1], unit, field, rest), size_of(words[2], unit, field, rest))
    if is_size(rest, unit):
        return None
    pairs = [
        (rest[:at].strip(), rest[at + 1 :].strip())
        for at, mark in enumerate(rest)
        if at and mark == "-" and is_size(rest[:at], unit) and is_size(rest[at + 1 :], unit)
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
