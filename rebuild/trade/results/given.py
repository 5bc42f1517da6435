"""What a caller gives to the library: a number that is none is refused in a sentence, at the door."""

from __future__ import annotations

import math
from numbers import Real

from rebuild.errors import BadEntry, OutOfRange


def number_of(
    name: str,
    value: object,
    *,
    above: float | None = None,
    at_least: float | None = None,
    at_most: float | None = None,
) -> float:
    """The number given for ``name``.

    Args:
        name: what it is, as the sentence is to say it.
        value: as given; a text, a truth value and nothing are no numbers here.
        above: it must be more than this.
        at_least: the least allowed.
        at_most: the most allowed.

    Raises:
        BadEntry: no number, or not a finite one.
        OutOfRange: a number outside the range.

    >>> number_of("Diameter", 12, above=0)
    12.0
    >>> number_of("Diameter", "12 mm")
    Traceback (most recent call last):
    rebuild.errors.BadEntry: Diameter: “12 mm” is not a number. Give it as a number, e.g. 12.5.
    """
    if isinstance(value, bool) or not isinstance(value, Real):
        shown = "None" if value is None else str(value)
        raise BadEntry("is not a number.", where=name, value=shown, way_out="Give it as a number, e.g. 12.5.")
    number = float(value)
    if not math.isfinite(number):
        raise BadEntry(
            "is not a finite number.", where=name, value=f"{number:g}", way_out="Measure it again."
        )
    if above is not None and not number > above:
        raise OutOfRange(
            f"is not above {above:g}.", where=name, value=f"{number:g}", way_out="Give a larger one."
        )
    if at_least is not None and number < at_least:
        raise OutOfRange(
            f"is below {at_least:g}.", where=name, value=f"{number:g}", way_out="Give a larger one."
        )
    if at_most is not None and number > at_most:
        raise OutOfRange(
            f"is above {at_most:g}.", where=name, value=f"{number:g}", way_out="Give a smaller one."
        )
    return number
