"""The pint edge: every unit that is not a workshop length. One registry, built on first need.

pint costs 0.25 s for its first registry and 57 µs a conversion, so nothing in a loop comes here.
Levels of temperature are ``degC``; differences are ``delta_degC``.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from rebuild.trade.sizes.given import text_of

if TYPE_CHECKING:
    import pint


@cache
def registry() -> pint.UnitRegistry[float]:
    """The program's one pint registry.

    >>> registry() is registry()
    True
    """
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


def length_in_mm(unit: str) -> Fraction | None:
    """Millimetres in one ``unit`` as pint knows it, to 12 decimals; None when it is no length, or no word.

    >>> float(length_in_mm("yard"))
    914.4
    """
    import pint

    if not text_of("Unit", unit).isalpha():
        return None
    try:
        mm = registry().Quantity(1.0, unit).to("mm").magnitude
    except (pint.errors.PintError, AttributeError, TypeError, ValueError, AssertionError):
        return None
    exact = Fraction(f"{float(mm):.12f}")
    return exact if exact > 0 else None
