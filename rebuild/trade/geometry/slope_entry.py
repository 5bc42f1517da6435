"""What a level is marked with, as typed: ``0.02 mm/m``, ``0.0005 in/ft``, ``4 arcsec``, or a bare number of µm/m."""

from __future__ import annotations

from rebuild.errors import BadEntry
from rebuild.trade.geometry.steps import SlopeUnit, slope_um_per_m
from rebuild.trade.sizes.number import read_number
from rebuild.trade.sizes.typed_text import plain_of

WAYS = "Type what the level is marked with, as 0.02 mm/m, 0.0005 in/ft or 4 arcsec."
#: Other ways to write a unit of slope, the longest first.
_WORDS = (
    ("arcseconds", SlopeUnit.ARCSEC), ("arcsec", SlopeUnit.ARCSEC), ("sec", SlopeUnit.ARCSEC),
    ("mm per 1000 mm", SlopeUnit.MM_PER_M), ("mm per metre", SlopeUnit.MM_PER_M), ("mm per m", SlopeUnit.MM_PER_M),
    ("mm/m", SlopeUnit.MM_PER_M), ("µm/m", SlopeUnit.UM_PER_M), ("um/m", SlopeUnit.UM_PER_M),
    ("in per foot", SlopeUnit.IN_PER_FT), ("in per ft", SlopeUnit.IN_PER_FT), ("in/ft", SlopeUnit.IN_PER_FT),
)  # fmt: skip
#: No level of a shop is coarser than this [µm/m]: a degree, near enough.
COARSEST_UM_PER_M = 20_000.0


def parse_division(text: str, field: str = "One division", *, decimal_comma: bool | None = None) -> float:
    """The value of one division [µm/m]; a bare number is µm/m.

    Raises:
        BadEntry: not a number with a unit of slope, a bare number below one, or coarser than a level is.
        Ambiguous: ``1,500``.

    >>> parse_division("0.02 mm/m"), round(parse_division("0.0005 in/ft"), 3), parse_division("20")
    (20.0, 41.667, 20.0)
    """
    plain = plain_of(text, field, WAYS).replace("μ", "µ")
    low, unit, number = plain.lower(), SlopeUnit.UM_PER_M, plain
    for word, meant in _WORDS:
        if low.endswith(word):
            unit, number = meant, plain[: -len(word)].strip()
            break
    value = read_number(number, field, decimal_comma=decimal_comma, at_least=0.0, ways=WAYS)
    if unit is SlopeUnit.UM_PER_M and 0 < value < 1 and number == plain:
        raise BadEntry(
            "is less than any level shows in µm/m.",
            where=field,
            value=text.strip(),
            way_out=f"With its unit: {WAYS}",
        )
    found = round(slope_um_per_m(value, unit), 9)
    if found > COARSEST_UM_PER_M:
        raise BadEntry("is coarser than a level is.", where=field, value=text.strip(), way_out=WAYS)
    return found
