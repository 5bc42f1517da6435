"""A comma with two honest readings: ``1,500`` is 1500 or 1.5, and is asked about unless the file says which."""

from __future__ import annotations

import re

from rebuild.errors import Ambiguous
from rebuild.trade.sizes.typed_text import short

COMMA_DOUBT = "has a comma that may mark decimals or thousands."
COMMA_WORDS = ("decimal comma", "thousands")
#: A doubtful comma within a longer text: no part of a longer number.
_DOUBTFUL_IN = re.compile(r"(?<![0-9.,])([1-9][0-9]{0,2}),([0-9]{3})(?![0-9,]|\.[0-9])")


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
