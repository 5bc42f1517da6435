"""A pitch as typed: ``12 tpi``, ``12 per in``, ``1.25 mm``, ``1/8 in``."""

from __future__ import annotations

import re
from fractions import Fraction

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.exact import exact
from rebuild.trade.sizes.quantity import parse_length
from rebuild.trade.sizes.typed_text import plain_of

_PER_INCH = re.compile(
    r"(?P<number>\d+(?:\.\d+)?|\d+[ -]\d+/\d+)\s*"
    r"(?:t\.?p\.?i\.?|per inch|per in\.?|/ ?in\.?|threads per inch|threads)",
    re.I,
)
_BARE = re.compile(r"\d*[.,]?\d+")
WAYS = "Type it as 12 tpi, 1.25 mm or 1/8 in."


def parse_pitch(text: str, field: str = "Pitch", *, decimal_comma: bool | None = None) -> float:
    """A pitch in mm.

    Raises:
        BadEntry: not a pitch, or not more than zero.
        Ambiguous: a bare number, which may be threads per inch or millimetres; ``1,500 mm``.

    >>> round(parse_pitch("12 tpi"), 4), parse_pitch("1.25 mm"), parse_pitch("1/8 in")
    (2.1167, 1.25, 3.175)
    """
    plain = plain_of(text, field, WAYS, sort="a pitch")
    match = _PER_INCH.fullmatch(plain)
    if match:
        number = mixed(match["number"])
        if number <= 0:
            raise BadEntry("must be more than zero.", where=field, value=text.strip(), way_out=WAYS)
        return float(Fraction(127, 5) / number)
    if _BARE.fullmatch(plain):
        raise Ambiguous(
            "may be threads per inch or a pitch.",
            where=field,
            value=text.strip(),
            readings=(("threads per inch", f"{plain} tpi"), ("millimetres", f"{plain} mm")),
        )
    size = parse_length(plain, "mm", field, decimal_comma=decimal_comma)
    if size.mm <= 0:
        raise BadEntry("must be more than zero.", where=field, value=text.strip(), way_out=WAYS)
    return size.mm


def mixed(text: str) -> Fraction:
    """A whole, decimal, fraction or mixed number such as ``1-1/4``; nought when it divides by nought.

    A comma is a decimal comma: no thread is counted in thousands.

    >>> mixed("11-1/2"), mixed("1/0")
    (Fraction(23, 2), Fraction(0, 1))
    """
    top, slash, bottom = text.rpartition("/")
    if slash and top and not bottom.strip("0"):
        return Fraction(0)
    return exact(text, "Thread", decimal_comma=True, lost_space=False)
