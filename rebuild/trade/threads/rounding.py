"""Rounding as the thread standards do it: decimal arithmetic, ties to even or up, preferred numbers."""

from __future__ import annotations

from bisect import bisect_left
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from fractions import Fraction

from rebuild.trade.sizes.given import number_of

_TWO_DIGITS = (
    10, 10.6, 11.2, 11.8, 12.5, 13.2, 14, 15, 16, 17, 18, 19, 20, 21.2, 22.4, 23.6, 25, 26, 28, 30,
    32, 34, 36, 38, 40, 42, 45, 48, 50, 53, 56, 60, 63, 67, 71, 75, 80, 85, 90, 95,
)  # fmt: skip
_THREE_DIGITS = (
    100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300,
    315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950,
)  # fmt: skip
#: R40 preferred numbers as ISO 965-1 uses them for micrometres (two figures below 100).
R40 = (
    tuple(float(v) for v in _TWO_DIGITS)
    + tuple(float(v) for v in _THREE_DIGITS)
    + tuple(10.0 * v for v in _THREE_DIGITS)
)


def dec(value: float | Fraction | Decimal) -> Decimal:
    """A number as the decimal a person would write for it, clean of the dust of unit conversion.

    >>> dec(0.1), dec(11.1125 / 25.4), dec(Fraction(1, 3))
    (Decimal('0.1'), Decimal('0.4375'), Decimal('0.333333333333'))
    """
    if isinstance(value, Decimal):
        return value
    if isinstance(value, Fraction):
        return half_even(Decimal(value.numerator) / Decimal(value.denominator), 12)
    return Decimal(repr(clean(value)))


def clean(value: float, what: str = "Size") -> float:
    """The float nearest to the value's nine decimals: 11.1125 / 25.4 becomes 0.4375.

    Ranges and tables are entered by exact sizes, so a last bit must not push a size over a boundary.

    Raises:
        BadEntry: no number; the message names it ``what``.

    >>> clean(11.1125 / 25.4)
    0.4375
    """
    return round(number_of(what, value, finite=False), 9)


def half_even(value: Decimal, places: int) -> Decimal:
    """Rounded to ``places`` decimals, an exact tie to the even digit (ASME B1.30).

    >>> half_even(Decimal("0.91005"), 4), half_even(Decimal("0.06865"), 4)
    (Decimal('0.9100'), Decimal('0.0686'))
    """
    return value.quantize(Decimal(1).scaleb(-places), ROUND_HALF_EVEN)


def half_up(value: Decimal, places: int) -> Decimal:
    """Rounded to ``places`` decimals, an exact tie away from zero.

    >>> half_up(Decimal("0.88125"), 4)
    Decimal('0.8813')
    """
    return value.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)


def r40(value_um: float) -> float:
    """The nearest R40 number (ISO 3), the rounding of ISO 965-1 for tolerances [µm].

    >>> r40(146.0), r40(184.1)
    (150.0, 180.0)
    """
    at = min(max(bisect_left(R40, value_um), 1), len(R40) - 1)
    below, above = R40[at - 1], R40[at]
    return below if value_um - below < above - value_um else above


def r40_step(value_um: float, steps: int) -> float:
    """The R40 number ``steps`` places up (or down) the series from one that is in it [µm].

    >>> r40_step(112.0, 5), r40_step(112.0, -3)
    (150.0, 95.0)
    """
    return R40[R40.index(value_um) + steps]
