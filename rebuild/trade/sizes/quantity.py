"""Sizes as people type them: ``1-1/4``, ``1 1/4"``, ``.4375``, ``0,02``, ``3 thou``, ``25 µm``.

The typed text is kept with its unit; the number is read by ``number.exact`` and goes into millimetres by exact
fractions, rounded once, to a double. What has two honest readings is asked about (``Ambiguous``), never guessed.
Factors: 1 in = 25.4 mm exactly (ISO 31-1 / the 1959 agreement); thou = 0.001 in and tenth = 0.0001 in
are common practice in the trade. Units this module does not know are offered to pint.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.comma import refuse_doubtful
from rebuild.trade.sizes.exact import exact, plain_decimal, plain_text
from rebuild.trade.sizes.given import text_of
from rebuild.trade.sizes.length_units import FACTORS as FACTORS, UNIT_OF
from rebuild.trade.sizes.typed_text import plain_of, tidy as tidy

_FEET_INCHES = re.compile(
    r"(?P<sign>[-+]?)\s*(?P<feet>\d+)\s*(?:'|ft\.?|foot|feet)[\s-]*"
    r"(?P<inches>[\d.,/ -]*\d[\d.,/ -]*?)\s*(?:\"|''|in\.?|inches)?"
)
_NUMBER_AND_UNIT = re.compile(
    r"(?P<number>[-+]?\s*[\d.,/ -]*\d[.,]?)\s*(?P<unit>[^\d.,/+\s-].*)?", re.IGNORECASE
)
_BARE = re.compile(r"[-+\d.,/ ]*\d[-+\d.,/ ]*")

LONGEST_MM = 1_000_000.0
WAYS_TO_TYPE = "Type it as 12.7 mm, 1-1/4, .4375, 3 thou or 25 µm."


@dataclass(frozen=True, slots=True)
class Size:
    """A length: what was typed, its unit (a key of ``FACTORS``), and the value [mm].

    A rare unit that only pint knows (``2 yards``) stays in the text; ``unit`` is then the entry's own.
    """

    text: str
    unit: str
    mm: float


def parse_length(
    text: str, unit: str = "mm", field: str = "Size", *, decimal_comma: bool | None = None
) -> Size:
    """Read one length as typed; a bare number is in ``unit``.

    Args:
        text: what was typed; kept in the result as it was, less outer spaces.
        unit: a key of ``FACTORS``, the unit of a bare number.
        field: named in the message when the text cannot be taken.
        decimal_comma: how to read ``1,250``: True decimal, False thousands, None asks.

    Raises:
        BadEntry: not a size.
        Ambiguous: two honest readings, both listed.

    >>> parse_length("1-1/4", "in").mm
    31.75
    >>> parse_length("3 thou").mm
    0.0762
    """
    at_once = _plain_length(text, unit)
    if at_once is not None:
        return at_once
    plain, unit = plain_of(text, field, WAYS_TO_TYPE, sort="a size"), text_of("Unit", unit)
    value, used = _value_and_unit(plain, unit, text.strip(), field, decimal_comma)
    mm = float(value * _factor(used, text, field))
    if abs(mm) > LONGEST_MM:
        raise BadEntry("is longer than a kilometre.", where=field, value=text.strip(), way_out=WAYS_TO_TYPE)
    return Size(text.strip(), used if used in FACTORS else unit, mm)


def _plain_length(text: object, unit: object) -> Size | None:
    """A plain decimal at once, to the very double the whole reader comes to; anything else is left to that one."""
    if type(text) is not str or type(unit) is not str or (found := plain_decimal(text)) is None:
        return None
    used = found.word or unit
    factor = FACTORS.get(used)
    if factor is None:
        return None
    # A quotient of whole numbers is rounded once, as the fraction is.
    mm = found.top * factor.numerator / (found.bottom * factor.denominator)
    return Size(text, used, mm) if abs(mm) <= LONGEST_MM else None


def is_bare(text: str) -> bool:
    """Whether a size is typed without any unit.

    >>> is_bare("1-1/4"), is_bare("25 mm"), is_bare("1' 6")
    (True, False, False)
    """
    return _BARE.fullmatch(tidy(text)) is not None


def _value_and_unit(
    plain: str, unit: str, typed: str, field: str, decimal_comma: bool | None
) -> tuple[Fraction, str]:
    feet = _FEET_INCHES.fullmatch(plain)
    if feet:
        inches = _number(feet["inches"].strip(), "in", typed, field, decimal_comma)
        total = _number(feet["feet"], "ft", typed, field, decimal_comma) * 12 + inches
        return (-total if feet["sign"] == "-" else total), "in"
    match = _NUMBER_AND_UNIT.fullmatch(plain)
    if not match:
        raise BadEntry("is not a size.", where=field, value=typed, way_out=WAYS_TO_TYPE)
    word = (match["unit"] or "").strip()
    number = match["number"].strip()
    named = _unit_named(word, number, unit, typed, field, decimal_comma) if word else unit
    if not word and "/" in number and unit in ("mm", "µm", "cm", "m"):
        _refuse_no_number(number, unit, typed, field)
        raise Ambiguous(
            "is a fraction, and this entry is metric.",
            where=field,
            value=typed,
            readings=(("inches", f"{number} in"), ("that part of a unit", f"{number} {unit}")),
        )
    return _number(number, named, typed, field, decimal_comma), named


def _refuse_no_number(number: str, unit: str, typed: str, field: str) -> None:
    """What is no number at all is not worth a question about its unit."""
    try:
        _number(number, unit, typed, field, decimal_comma=None)
    except Ambiguous:
        return


def _unit_named(
    word: str, number: str, default: str, typed: str, field: str, decimal_comma: bool | None
) -> str:
    found = UNIT_OF.get(word) or UNIT_OF.get(word.lower()) or UNIT_OF.get(word.lower().rstrip("."))
    if found == "tenth" and default in ("mm", "cm", "m", "µm"):
        value = _number(number, "tenth", typed, field, decimal_comma)
        raise Ambiguous(
            "can mean tenths of a thou or of a millimetre.",
            where=field,
            value=typed,
            readings=(
                ("inch tenths", f"{plain_text(value / 10_000)} in"),
                ("millimetres", f"{plain_text(value / 10)} mm"),
            ),
        )
    if found:
        return found
    if word.lower() in ("mil", "mils"):
        raise Ambiguous(
            "can mean thou or millimetres.",
            where=field,
            value=typed,
            readings=(("0.001 in", f"{number} thou"), ("millimetres", f"{number} mm")),
        )
    return word


def _factor(unit: str, typed: str, field: str) -> Fraction:
    known = FACTORS.get(unit)
    if known is not None:
        return known
    from rebuild.trade.sizes.units import length_in_mm

    mm = length_in_mm(unit)
    if mm is None:
        names = "mm, µm, cm, m, in, thou, tenth, ft"
        raise BadEntry(
            f"has a unit “{unit}” that is not a length.",
            where=field,
            value=typed.strip(),
            way_out=f"Use {names}.",
        )
    return mm


def _number(text: str, unit: str, typed: str, field: str, decimal_comma: bool | None) -> Fraction:
    """The number of a length, which may be a fraction."""
    return exact(
        text,
        field,
        unit,
        typed=typed,
        decimal_comma=decimal_comma,
        ways=WAYS_TO_TYPE,
        refusal="is not a size.",
    )


def parse_repeats(
    text: str, unit: str = "mm", field: str = "Reading", *, decimal_comma: bool | None = None
) -> tuple[Size, ...]:
    """One or more sizes separated by semicolons (repeated readings of one thing).

    >>> [size.mm for size in parse_repeats("24.98; 24.99")]
    [24.98, 24.99]
    """
    parts = [part for part in text_of(field, text, WAYS_TO_TYPE).split(";") if part.strip()]
    if len(parts) > 1:
        refuse_doubtful(text, field, decimal_comma)
    if not parts:
        raise BadEntry("is empty.", where=field, way_out=WAYS_TO_TYPE)
    return tuple(parse_length(part, unit, field, decimal_comma=decimal_comma) for part in parts)
