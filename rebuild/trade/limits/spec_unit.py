"""The unit a spec is in: named once at its end, within it, or put behind a bare size."""

from __future__ import annotations

import re

from rebuild.trade.sizes.quantity import parse_length, tidy

#: The longest spec looked at.
LONGEST = 200
_UNIT_AT_END = re.compile(
    r"(?P<rest>.*\d)\s*(?P<unit>mm|cm|m|µm|um|in\.?|inch|inches|thou|tenths?|µin|\"|'')", re.I
)
_UNIT_INSIDE = re.compile(r"\d\s*(?:(?:mm|cm|m|µm|um|in|inch|inches|thou|tenths?|µin)\b|[\"'])", re.I)
_BARE_CLASS = re.compile(r"(?P<size>\s*[Øø⌀∅]?\s*[\d.,/ -]*\d)\s+(?P<cls>[A-Za-z]{1,2}\s?\d{1,2}.*)")


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


def unit_off(plain: str, unit: str) -> tuple[str, str]:
    """The spec without the unit at its end, and the unit its bare numbers are in.

    >>> unit_off("25 +21/0 µm", "mm"), unit_off("25 H7", "mm")
    (('25 +21/0', 'µm'), ('25 H7', 'mm'))
    """
    match = _UNIT_AT_END.fullmatch(plain)
    if not match:
        return plain, unit
    used = parse_length(f"1 {match['unit']}", "in").unit
    return match["rest"].strip(), used
