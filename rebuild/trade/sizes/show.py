"""Print lengths: fixed decimals by unit, both units side by side, the typed text where it fits."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from rebuild.errors import BadEntry
from rebuild.trade.sizes.given import number_of, text_of
from rebuild.trade.sizes.quantity import FACTORS, Size

#: Decimals that suit a shop's reading of each unit.
DECIMALS = {"mm": 3, "in": 4, "µm": 1, "thou": 1, "tenth": 0, "cm": 3, "m": 4, "ft": 4, "µin": 0}
_PER_MM = {unit: float(1 / factor) for unit, factor in FACTORS.items()}


def in_unit(mm: float, unit: str) -> float:
    """``mm`` as a number of ``unit``.

    Raises:
        BadEntry: no number, or no unit of ``FACTORS``.

    >>> round(in_unit(25.4, "in"), 9), round(in_unit(0.0254, "thou"), 9)
    (1.0, 1.0)
    """
    return number_of("Length", mm) * _per_mm(unit)


def _per_mm(unit: str) -> float:
    """How many of a unit are in a millimetre."""
    if text_of("Unit", unit) not in _PER_MM:
        raise BadEntry(
            "is no unit to show a length in.",
            where="Unit",
            value=unit,
            way_out=f"Units: {', '.join(_PER_MM)}.",
        )
    return _PER_MM[unit]


def show_length(mm: float, unit: str, decimals: int | None = None, *, sign: bool = False) -> str:
    """The number with its unit; ``sign`` forces + on positives.

    >>> show_length(31.75, "in")
    '1.2500 in'
    """
    return f"{show_number(mm, unit, decimals, sign=sign)} {unit}"


def show_number(mm: float, unit: str, decimals: int | None = None, *, sign: bool = False) -> str:
    """The number alone, in ``unit``, never ``-0``.

    >>> show_number(-0.00001, "mm")
    '0.000'
    """
    try:
        value, places = mm * _PER_MM[unit], DECIMALS[unit] if decimals is None else decimals
    except (KeyError, TypeError):
        # Shown in every cell of every list, so the reason is looked for only when it fails.
        value, places = in_unit(mm, unit), DECIMALS[unit]
    text = f"{value:+.{places}f}" if sign else f"{value:.{places}f}"
    if text.lstrip("+-").strip("0.") == "":
        return text.lstrip("+-")
    return text


def show_both(mm: float, unit: str, decimals: int | None = None) -> str:
    """The length in ``unit`` with the other system in brackets.

    >>> show_both(25.4, "in")
    '1.0000 in (25.400 mm)'
    """
    other = "mm" if unit in ("in", "thou", "tenth", "ft", "µin") else "in"
    return f"{show_length(mm, unit, decimals)} ({show_length(mm, other)})"


def show_typed(size: Size, unit: str) -> str:
    """The text as typed when it was typed in ``unit``; converted otherwise.

    >>> show_typed(Size("1-1/4", "in", 31.75), "in")
    '1-1/4 in'
    """
    if size.unit != unit:
        return show_length(size.mm, unit)
    return size.text if any(mark.isalpha() or mark in "\"'" for mark in size.text) else f"{size.text} {unit}"


def exact_text(mm: float, unit: str) -> str:
    """The shortest decimal text in ``unit`` that reads back to the same double of mm, else 17 digits.

    >>> exact_text(31.75, "in")
    '1.25'
    """
    mm, per_mm, factor = number_of("Length", mm), _per_mm(unit), FACTORS[unit]
    text = ""
    for digits in range(1, 18):
        text = f"{Decimal(f'{mm * per_mm:.{digits}g}'):f}"
        if float(Fraction(text) * factor) == mm:
            break
    return text if len(text) <= 40 else f"{mm * per_mm:.20f}".rstrip("0").rstrip(".")
