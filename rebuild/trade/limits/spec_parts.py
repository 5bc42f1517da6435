"""What a spec is made of: a nominal, a low and a high limit, each a size as typed or worked out."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.quantity import FACTORS, Size, parse_length
from rebuild.trade.sizes.show import exact_text

WAYS_TO_TYPE = "Type it as 25 +0.021/0, 1.7495-1.7500, 25 ±0.01, 25 H7, max 0.0004 or 25."


@dataclass(frozen=True, slots=True)
class SpecEntry:
    """What a spec says: any of nominal, low and high limit; ``origin`` names a standard that was used."""

    nominal: Size | None
    low: Size | None
    high: Size | None
    origin: str = ""


def is_size(text: str, unit: str) -> bool:
    """Whether a text is a size by itself.

    >>> is_size("1 1/4", "in"), is_size("25 H7", "mm")
    (True, False)
    """
    try:
        parse_length(text, unit)
    except BadEntry:
        return False
    return True


def size_of(text: str, unit: str, field: str, whole: str) -> Size:
    """One size of a spec. Raises BadEntry that names the whole spec.

    >>> size_of("25.4", "mm", "Spec", "max 25.4").mm
    25.4
    """
    try:
        return parse_length(text, unit, field)
    except Ambiguous:
        raise
    except BadEntry:
        raise BadEntry("is not a spec.", where=field, value=whole, way_out=WAYS_TO_TYPE) from None


def made(mm: float, unit: str) -> Size:
    """A limit worked out from nominal and deviation, with its text in the entry's unit.

    >>> made(25.4, "in").text
    '1'
    """
    shown = unit if unit in FACTORS else "mm"
    rounded = round(mm, 9)
    return Size(exact_text(rounded, shown), shown, rounded)
