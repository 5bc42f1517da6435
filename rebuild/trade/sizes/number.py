"""The one reader of typed numbers: every field, cell, command, import and survey comes here.

A decimal point or a decimal comma, thousands in groups, a fraction where one is asked for. ``1,500`` has two honest
readings, 1500 and 1.5, and is asked about unless the file says how its comma is meant. Nothing endless is a number:
``nan``, ``inf`` and ``1e400`` are refused. Every reading takes time in proportion to the text, and a long text is
refused before it is looked at. A length, an angle, a torque, a temperature is one of these and a unit.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

from rebuild.errors import Ambiguous, BadEntry, OutOfRange
from rebuild.trade.sizes.given import text_of
from rebuild.trade.sizes.length_units import TYPOGRAPHY

LONGEST_TEXT = 80
#: The largest number a field takes; far above anything in a shop, far below what SQLite holds.
LARGEST = 10**12
#: No number of a sum of the shop is larger.
LARGEST_IN_SHOP = 1e9
#: The largest power of ten a number of a computer has; above it there is none.
LARGEST_POWER = 308
WAYS = "Type a number, for example 1.5."
WAYS_WHOLE = "Type a whole number, for example 2."
COMMA_DOUBT = "has a comma that may mark decimals or thousands."
COMMA_WORDS = ("decimal comma", "thousands")
#: A number at the start of a text, and the rest; ``ASCII`` so that a digit is 0 to 9.
_LEADING = re.compile(
    r"([-+]?[ ]?[0-9.,]*[0-9.,](?:e[-+]?[0-9]+(?![0-9.,a-z]))?)(.*)", re.IGNORECASE | re.DOTALL
)
_DIGITS = re.compile(r"[0-9]+\.?[0-9]*|\.[0-9]+")
_EXPONENT = re.compile(r"e([-+]?[0-9]{1,3})\Z", re.IGNORECASE)
_SPACED = re.compile(r"[0-9]{1,3}(?: [0-9]{3})+(?:[.,][0-9]+)?")
_GROUPED = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+")
_WHOLE = re.compile(r"[-+]? ?(?:[0-9]+|[0-9]{1,3}(?: [0-9]{3})+|[0-9]{1,3}(?:,[0-9]{3})+)")
_DOUBTFUL = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
#: The same within a longer text: no part of a longer number.
_DOUBTFUL_IN = re.compile(r"(?<![0-9.,])([1-9][0-9]{0,2}),([0-9]{3})(?![0-9,]|\.[0-9])")
_MIXED = re.compile(r"(?P<whole>[0-9]+)(?: ?- ?| )(?P<top>[0-9]+) ?/ ?(?P<bottom>[0-9]+)")
_FRACTION = re.compile(r"(?P<top>[0-9]+) ?/ ?(?P<bottom>[0-9]+)")


#: What nine entries in ten are: digits with a point or none, in mm or in. Nothing in it can be read two ways.
_PLAIN = re.compile(r"(?P<whole>[-+]?[0-9]{1,6})(?:\.(?P<part>[0-9]{1,12}))?(?: ?(?P<word>mm|in))?")


class PlainDecimal(NamedTuple):
    """A decimal as a quotient of whole numbers, and the unit behind it, if any."""

    top: int
    bottom: int
    word: str


def plain_decimal(text: str) -> PlainDecimal | None:
    """A plain decimal at once, as ``exact`` reads it; None leaves anything else to that.

    >>> plain_decimal("24.98 mm")
    PlainDecimal(top=2498, bottom=100, word='mm')
    >>> plain_decimal("1,250") is None
    True
    """
    found = _PLAIN.fullmatch(text)
    if found is None:
        return None
    part = found["part"] or ""
    return PlainDecimal(int(found["whole"] + part), 10 ** len(part), found["word"] or "")


def tidy(text: str) -> str:
    """The text with typographic signs replaced by plain ones and spaces folded.

    >>> tidy(" 1–1/4\u00a0″ ")
    '1-1/4 "'
    """
    return " ".join(text.translate(TYPOGRAPHY).split())


def short(text: str) -> str:
    """A text as a message quotes it: its beginning where it is long.

    >>> short("24.98"), short("9" * 99)
    ('24.98', '99999999999999999999…')
    """
    return text if len(text) <= LONGEST_TEXT else text[:20] + "…"


def both_ways(text: str) -> tuple[str, str] | None:
    """The text with every doubtful comma read as a decimal one, and as thousands; None where there is none.

    >>> both_ways("1,250 ±0.01"), both_ways("0,5 mm")
    (('1.250 ±0.01', '1250 ±0.01'), None)
    """
    if not _DOUBTFUL_IN.search(text):
        return None
    return _DOUBTFUL_IN.sub(r"\1.\2", text), _DOUBTFUL_IN.sub(r"\1\2", text)


def settled(text: str, decimal_comma: bool | None) -> str:
    """The text as it is kept where only the text is: a doubtful comma the way it was read, for whoever reads it again.

    >>> settled("1,200 lb-in", False), settled("1,200 lb-in", True), settled("0,5 mm", True)
    ('1200 lb-in', '1.200 lb-in', '0,5 mm')
    """
    ways = both_ways(text) if decimal_comma is not None else None
    return text if ways is None else ways[0 if decimal_comma else 1]


def refuse_doubtful(text: str, field: str, decimal_comma: bool | None) -> None:
    """Raise Ambiguous for a text with a doubtful comma anywhere in it, both readings whole; unless that is settled.

    >>> refuse_doubtful("1,250 ±0.01", "Spec", None)
    Traceback (most recent call last):
    rebuild.errors.Ambiguous: ... Type 1.250 ±0.01 (decimal comma) or 1250 ±0.01 (thousands).
    """
    ways = both_ways(text) if decimal_comma is None else None
    if ways is not None:
        readings = tuple(zip(COMMA_WORDS, ways, strict=True))
        raise Ambiguous(COMMA_DOUBT, where=field, value=short(text.strip()), readings=readings)


def plain_of(
    text: str, field: str = "Number", ways: str = WAYS, *, longest: int = LONGEST_TEXT, sort: str = "a number"
) -> str:
    """The tidied text of one entry, looked at for nothing and for too much before any pattern is tried on it.

    Raises:
        BadEntry: no text, empty, or longer than ``longest``.

    >>> plain_of(" 12 ")
    '12'
    """
    plain = text_of(field, text, ways)
    if len(plain) <= 10 * longest:
        plain = tidy(plain)
    if not plain:
        raise BadEntry("is empty.", where=field, way_out=ways)
    if len(plain) > longest:
        raise BadEntry(f"is too long for {sort}.", where=field, value=plain[:20] + "…", way_out=ways)
    return plain


def read_number(
    text: str,
    field: str = "Number",
    unit: str = "",
    *,
    decimal_comma: bool | None = None,
    above: float | None = None,
    at_least: float | None = None,
    at_most: float | None = None,
    of_a_shop: bool = False,
    ways: str = WAYS,
) -> float:
    """A typed number; its own unit may stand behind it.

    Args:
        field: named in every message.
        unit: as it is shown beside the field; it may be typed too, and the message echoes it.
        decimal_comma: how to read ``1,500``: True decimal, False thousands, None asks.
        above, at_least, at_most: the range; outside it the sentence says the whole range.
        of_a_shop: beyond ``LARGEST_IN_SHOP``, or unless zero nearer to it than one over that, it can only be a slip.

    Raises:
        BadEntry: no number, or none that ends.
        Ambiguous: two honest readings, both listed.
        OutOfRange: outside the range.

    >>> read_number("1,5"), read_number("−3 °C", unit="°C")
    (1.5, -3.0)
    >>> read_number("1,500", "Load", "kg")
    Traceback (most recent call last):
    rebuild.errors.Ambiguous: Load: “1,500” has a comma ... Type 1.500 kg (decimal comma) or 1500 kg (thousands).
    """
    plain = plain_of(text, field, ways)
    bare = _without(unit, plain)
    if unit and ways == WAYS:
        ways = f"Type a number in {unit}, for example 1.5."
    value = exact(
        bare, field, unit, typed=text.strip(), decimal_comma=decimal_comma, fractions=False, ways=ways
    )
    number = float(value)
    _refuse_outside(number, field, text.strip(), unit, above, at_least, at_most)
    if of_a_shop and (abs(number) > LARGEST_IN_SHOP or 0 < abs(number) < 1 / LARGEST_IN_SHOP):
        raise OutOfRange(
            f"is too {'large' if abs(number) > LARGEST_IN_SHOP else 'small'} for anything in a shop.",
            where=field,
            value=short(text.strip()),
            way_out="Check the decimal point and the unit.",
        )
    return number


#: Other ways to write a unit a field has.
_SAME_UNIT = {
    "mm²/s": ("cst", "mm2/s", "mm^2/s"), "kg": ("kgs",), "lb": ("lbs", "lb."), "°C": ("c", "deg c"), "°": ("deg",),
    "µm": ("um",), "rpm": ("r/min", "1/min"), "%": ("percent", "per cent"), "h": ("hours", "hrs", "hr"),
}  # fmt: skip


def _without(unit: str, plain: str) -> str:
    """A number without the unit typed behind it."""
    for word in (unit, *_SAME_UNIT.get(unit, ())) if unit else ():
        if plain.lower().endswith(word.lower()):
            return plain[: -len(word)].rstrip()
    return plain


def read_whole(
    text: str,
    field: str = "Number",
    *,
    decimal_comma: bool | None = None,
    at_least: int | None = None,
    at_most: int | None = None,
    ways: str = WAYS_WHOLE,
) -> int:
    """A typed count: ``12``, ``1 200``; ``1,200`` is asked about, since it may be one and a fifth.

    Raises:
        BadEntry: no number, or a part of one.
        Ambiguous: ``1,200``.
        OutOfRange: outside the range.

    >>> read_whole("22", "Teeth")
    22
    """
    plain = plain_of(text, field, ways, sort="a whole number")
    if not _WHOLE.fullmatch(plain):
        raise BadEntry("is not a whole number.", where=field, value=text.strip(), way_out=ways)
    try:
        value = exact(
            plain,
            field,
            typed=text,
            decimal_comma=decimal_comma,
            fractions=False,
            ways=ways,
            refusal="is not a whole number.",
        )
    except Ambiguous as asked:
        raise _whole_readings(asked, field) from None
    if value.denominator != 1:
        raise BadEntry("is not a whole number.", where=field, value=text.strip(), way_out=ways)
    _refuse_outside(int(value), field, text.strip(), "", None, at_least, at_most)
    return int(value)


def _whole_readings(asked: Ambiguous, field: str) -> Ambiguous:
    """The readings that are whole numbers, as such: ``1,000`` may be 1 or 1000, ``1,200`` only 1200."""
    read = [(words, exact(retyped, field)) for words, retyped in asked.readings]
    whole = tuple((words, str(value.numerator)) for words, value in read if value.denominator == 1)
    return Ambiguous(asked.what, where=field, value=asked.value, readings=whole)


def _refuse_outside(
    number: float,
    field: str,
    typed: str,
    unit: str,
    above: float | None,
    at_least: float | None,
    at_most: float | None,
) -> None:
    low_out = (above is not None and not number > above) or (at_least is not None and number < at_least)
    if not low_out and not (at_most is not None and number > at_most):
        return
    raise OutOfRange(
        f"is {range_words(above, at_least, at_most, unit)}.",
        where=field,
        value=typed,
        way_out=f"It was read as {number:g}{' ' + unit if unit else ''}; check the number and its sign.",
    )


def range_words(above: float | None, at_least: float | None, at_most: float | None, unit: str = "") -> str:
    """A range as a sentence says it is missed.

    >>> range_words(0, None, 0.5), range_words(None, 1, None, "rpm"), range_words(None, -40, 90, "°C")
    ('not above 0 and up to 0.5', 'below 1 rpm', 'outside -40 to 90 °C')
    """
    end = f" {unit}" if unit else ""
    if above is not None:
        return f"not above {above:.12g}{f' and up to {at_most:.12g}' if at_most is not None else ''}{end}"
    if at_least is None or at_most is None:
        return f"below {at_least:.12g}{end}" if at_least is not None else f"above {at_most:.12g}{end}"
    return f"outside {at_least:.12g} to {at_most:.12g}{end}"


def split_unit(
    text: str, field: str = "Number", ways: str = WAYS, sort: str = "an amount"
) -> tuple[str, str]:
    """The number at the start of a text and the unit after it, both as typed.

    Raises:
        BadEntry: no number at the start.

    >>> split_unit("25 lb-ft"), split_unit("1,500 kg")
    (('25', 'lb-ft'), ('1,500', 'kg'))
    """
    plain = plain_of(text, field, ways, sort=sort)
    match = _LEADING.match(plain)
    if match is None:
        raise BadEntry(f"is not {sort}.", where=field, value=text.strip(), way_out=ways)
    return match[1], match[2].strip()


_VALUE = re.compile(
    r"(?P<number>[-+]?[0-9.,/ -]*[0-9.,](?:e[-+]?[0-9]+(?![0-9.,a-z]))?)(?P<unit>.*)",
    re.IGNORECASE | re.DOTALL,
)


def split_value(text: str, field: str = "Number", ways: str = WAYS) -> tuple[str, str]:
    """The number at the start of a text, which may be a fraction or mixed, and the unit after it.

    Raises:
        BadEntry: no number at the start.

    >>> split_value("1 1/4 in"), split_value("25")
    (('1 1/4', 'in'), ('25', ''))
    """
    match = _VALUE.fullmatch(plain_of(text, field, ways, sort="an amount"))
    if match is None:
        raise BadEntry("is not a number.", where=field, value=short(text.strip()), way_out=ways)
    return match["number"].strip(), match["unit"].strip()


def exact(
    text: str,
    field: str = "Number",
    unit: str = "",
    *,
    typed: str = "",
    decimal_comma: bool | None = None,
    fractions: bool = True,
    lost_space: bool = True,
    ways: str = WAYS,
    refusal: str = "is not a number.",
) -> Fraction:
    """A signed whole, decimal, fraction or mixed number without its unit, exact.

    Args:
        typed: the whole entry, quoted in the messages; the text itself unless given.
        fractions: whether ``3/8`` and ``1-1/4`` are numbers here.
        lost_space: whether ``11/4`` is asked about (it may be 1 1/4 with the space lost).
        refusal: what the message says of no number.

    Raises:
        BadEntry, Ambiguous: as ``read_number``.

    >>> exact("1-1/4"), exact("-0,02"), exact("1e-3")
    (Fraction(5, 4), Fraction(-1, 50), Fraction(1, 1000))
    """
    plain = plain_of(text, field, ways)
    told = _Told(field, short((typed or text).strip()), unit, ways, refusal)
    sign, minus = (-1, "-") if plain.startswith("-") else (1, "")
    body = plain[1:].strip() if plain[:1] in ("+", "-") else plain
    mixed = _MIXED.fullmatch(body) if fractions else None
    if mixed:
        return sign * (int(mixed["whole"]) + told.ratio(mixed["top"], mixed["bottom"], mixed=True))
    fraction = _FRACTION.fullmatch(body) if fractions else None
    if fraction:
        if lost_space:
            told.refuse_lost_space(fraction["top"], fraction["bottom"], minus)
        return sign * told.ratio(fraction["top"], fraction["bottom"])
    return sign * told.decimal(body, minus, decimal_comma)


def plain_text(value: Fraction | float) -> str:
    """A number without an exponent, as it would be typed again.

    >>> plain_text(Fraction(1, 8)), plain_text(2.0)
    ('0.125', '2')
    """
    return f"{float(value):.12f}".rstrip("0").rstrip(".")


class _Told:
    """One entry under the reader: what its messages name."""

    __slots__ = ("_field", "_refusal", "_typed", "_unit", "_ways")

    def __init__(self, field: str, typed: str, unit: str, ways: str, refusal: str) -> None:
        self._field, self._typed, self._ways, self._refusal = field, typed, ways, refusal
        self._unit = f" {unit}" if unit else ""

    def bad(self, what: str) -> BadEntry:
        return BadEntry(what, where=self._field, value=self._typed, way_out=self._ways)

    def doubtful(self, what: str, *readings: tuple[str, str]) -> Ambiguous:
        return Ambiguous(what, where=self._field, value=self._typed, readings=readings)

    def ratio(self, top: str, bottom: str, *, mixed: bool = False) -> Fraction:
        if int(bottom) == 0:
            raise self.bad("divides by zero.")
        if mixed and int(top) >= int(bottom):
            raise self.bad("has a fraction of one or more after the whole number.")
        return Fraction(int(top), int(bottom))

    def refuse_lost_space(self, top: str, bottom: str, minus: str) -> None:
        """``11/4`` may be 1 1/4 with the space lost, or eleven quarters: ask."""
        if int(bottom) == 0 or int(top) < int(bottom):
            return
        for cut in range(1, len(top)):
            whole, rest = top[:cut], top[cut:]
            if not rest.startswith("0") and int(rest) < int(bottom):
                value = plain_text(Fraction(int(top), int(bottom)))
                raise self.doubtful(
                    "may be a fraction above one or may have lost its space.",
                    ("mixed number", f"{minus}{whole}-{rest}/{bottom}{self._unit}"),
                    ("the plain fraction", f"{minus}{value}{self._unit}"),
                )

    def decimal(self, body: str, minus: str, decimal_comma: bool | None) -> Fraction:
        power = _EXPONENT.search(body)
        digits = body[: power.start()] if power else body
        if " " in digits and _SPACED.fullmatch(digits):
            digits = digits.replace(" ", "")
        if "," in digits:
            digits = self._comma_resolved(digits, minus, decimal_comma)
        if not _DIGITS.fullmatch(digits):
            raise self.bad(self._refusal)
        value = Fraction(digits) * (Fraction(10) ** int(power[1]) if power else 1)
        if power and int(power[1]) > LARGEST_POWER:
            raise self.bad(self._refusal)
        if value > LARGEST:
            raise BadEntry(
                "is too large.",
                where=self._field,
                value=self._typed,
                way_out=f"Type a smaller number. {self._ways}",
            )
        return value

    def _comma_resolved(self, digits: str, minus: str, decimal_comma: bool | None) -> str:
        """The digits with a decimal point, or Ambiguous for ``1,250``."""
        if "." in digits:
            return self._mixed_marks(digits)
        if digits.count(",") > 1:
            if not _GROUPED.fullmatch(digits):
                raise self.bad("has too many commas.")
            return digits.replace(",", "")
        if decimal_comma is None and _DOUBTFUL.fullmatch(digits):
            raise self.doubtful(COMMA_DOUBT, *zip(COMMA_WORDS, self._both_ways(digits, minus), strict=True))
        thousands = decimal_comma is False and _DOUBTFUL.fullmatch(digits)
        return digits.replace(",", "" if thousands else ".")

    def _both_ways(self, digits: str, minus: str) -> tuple[str, str]:
        """The two readings as they are typed instead of the whole entry, which may hold more than this number."""
        whole = tidy(self._typed)
        ways = both_ways(whole) if whole.lstrip("+- ") != digits else None
        if ways is not None:
            return ways
        decimal, thousands = (f"{minus}{digits.replace(',', mark)}{self._unit}" for mark in (".", ""))
        return decimal, thousands

    def _mixed_marks(self, digits: str) -> str:
        last = max(digits.rfind("."), digits.rfind(","))
        whole, part = digits[:last], digits[last + 1 :]
        groups = re.split(r"[.,]", whole)
        if digits.count(digits[last]) > 1 or any(len(group) != 3 for group in groups[1:]):
            raise self.bad("mixes commas and points.")
        return "".join(groups) + "." + part
