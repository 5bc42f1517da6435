"""The one reader of typed numbers: every field, cell, command, import and survey comes here.

What is read exactly lies in ``exact``, a doubtful comma in ``comma``, the text before it is read in ``typed_text``.
Here a number gets its range and its unit. A length, an angle, a torque, a temperature is one of these and a unit.
"""

from __future__ import annotations

import re

from rebuild.errors import Ambiguous, BadEntry, OutOfRange
from rebuild.trade.sizes.exact import exact
from rebuild.trade.sizes.typed_text import WAYS, plain_of, short
from rebuild.trade.sizes.unit_behind import without_unit

#: No number of a sum of the shop is larger.
LARGEST_IN_SHOP = 1e9
WAYS_WHOLE = "Type a whole number, for example 2."
_WHOLE = re.compile(r"[-+]? ?(?:[0-9]+|[0-9]{1,3}(?: [0-9]{3})+|[0-9]{1,3}(?:,[0-9]{3})+)")


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
    bare = without_unit(unit, plain)
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
