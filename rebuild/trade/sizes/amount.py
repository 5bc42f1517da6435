"""A mass, a force or a rate as typed, ``300 lb``, ``2 1/2 kg``, ``25 lb/in``: the number, and in whose unit it is."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.sizes.exact import exact
from rebuild.trade.sizes.typed_text import short
from rebuild.trade.sizes.unit_behind import split_value
from rebuild.trade.sizes.unit_tables import QUANTITIES, SPELLED


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount of a quantity: as typed, its unit, and its value in the unit it was asked for."""

    text: str
    unit: str
    value: float
    bare: bool


def read_amount(
    text: str, quantity: str, wanted: str, field: str, *, bare: str = "", decimal_comma: bool | None = None
) -> Amount:
    """An amount in ``wanted``; a number without a unit is in ``bare`` (``wanted`` unless given).

    Args:
        quantity: a name of ``QUANTITIES``.
        wanted: the unit of the value.
        field: named in every message.
        bare: the unit of a bare number.
        decimal_comma: as ``read_number``.

    Raises:
        BadEntry: no number, or no unit of the quantity.
        Ambiguous: two honest readings.

    >>> read_amount("300 lb", "mass", "kg", "Load").value
    136.077711
    >>> read_amount("25 lb/in", "spring rate", "N/mm", "Rate").unit
    'lbf/in'
    """
    units = QUANTITIES[quantity]
    ways = f"Type a number and its unit: {', '.join(units)}."
    typed, word = split_value(text, field, ways)
    unit = _unit_of(word, quantity) if word else (bare or wanted)
    if unit not in units:
        raise BadEntry(
            f"has a unit “{short(word)}” that is no {quantity}.",
            where=field,
            value=short(text.strip()),
            way_out=ways,
        )
    number = exact(typed, field, unit, typed=text, decimal_comma=decimal_comma, ways=ways)
    return Amount(text.strip(), unit, float(number * units[unit] / units[wanted]), not word)


def in_amount_unit(value: float, quantity: str, given: str, wanted: str) -> float:
    """A value turned from one unit of a quantity into another.

    >>> round(in_amount_unit(100.0, "mass", "kg", "lb"), 2)
    220.46
    """
    units = QUANTITIES[quantity]
    return float(value * units[given] / units[wanted])


def _unit_of(word: str, quantity: str) -> str:
    """The unit a spelling stands for, or the word itself."""
    folded = word.lower().rstrip(".")
    spelled = SPELLED.get(folded, folded)
    return next((unit for unit in QUANTITIES[quantity] if unit.lower() == spelled.lower()), word)
