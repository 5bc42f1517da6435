"""A number without its unit, exact: whole, decimal, fraction or mixed, as a ``Fraction``.

Thousands may stand in groups. Nothing endless is a number: ``nan``, ``inf`` and ``1e400`` are refused. Every reading
takes time in proportion to the text.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.comma import COMMA_DOUBT, COMMA_WORDS, both_ways
from rebuild.trade.sizes.typed_text import WAYS, plain_of, short, tidy

#: The largest number a field takes; far above anything in a shop, far below what SQLite holds.
LARGEST = 10**12
#: The largest power of ten a number of a computer has; above it there is none.
LARGEST_POWER = 308
_DIGITS = re.compile(r"[0-9]+\.?[0-9]*|\.[0-9]+")
_EXPONENT = re.compile(r"e([-+]?[0-9]{1,3})\Z", re.IGNORECASE)
_SPACED = re.compile(r"[0-9]{1,3}(?: [0-9]{3})+(?:[.,][0-9]+)?")
_GROUPED = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+")
_DOUBTFUL = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
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
