"""What a caller gives to a function of the trade: numbers, whole numbers, text and words, or a sentence why not.

Checked at the doors, so that ``iso_fit("25 mm", "H7", "g6")`` says what is wrong instead of failing inside.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from decimal import Decimal
from enum import StrEnum
from numbers import Real
from typing import TypeVar

from rebuild.errors import BadEntry, OutOfRange

Word = TypeVar("Word", bound=StrEnum)
Record = TypeVar("Record")

BARE = "Give the bare number, as 25 or 12.5; read a typed size by parse_length first."


def number_of(
    name: str,
    value: object,
    *,
    above: float | None = None,
    at_least: float | None = None,
    at_most: float | None = None,
    finite: bool = True,
) -> float:
    """A finite number as a float.

    Args:
        name: of the argument, for the message.
        value: whatever was given; a truth value is no number.
        above: refuse it unless it is more than this.
        at_least: the least allowed.
        at_most: the most allowed.
        finite: False where the range of a table or rule refuses what is not finite in its own words.

    Raises:
        BadEntry: text, nothing, a truth value, any other thing, or no finite number.
        OutOfRange: outside the range.

    >>> number_of("Bore", 25), number_of("Bore", Decimal("0.5"), above=0)
    (25.0, 0.5)
    >>> number_of("Bore", "25 mm")
    Traceback (most recent call last):
    rebuild.errors.BadEntry: Bore: “25 mm” is not a number. Give the bare number, as 25 or 12.5; ...
    """
    number = value if type(value) is float else _float(name, value)
    if finite and not math.isfinite(number):
        raise BadEntry("is not a finite number.", where=name, value=str(value), way_out=BARE)
    if above is not None and not number > above:
        raise _outside(name, number, f"is not above {above:g}.")
    if at_least is not None and number < at_least:
        raise _outside(name, number, f"is below {at_least:g}.")
    if at_most is not None and number > at_most:
        raise _outside(name, number, f"is above {at_most:g}.")
    return number


def _outside(name: str, number: float, what: str) -> OutOfRange:
    return OutOfRange(what, where=name, value=f"{number:g}", way_out="Check the size and its sign.")


def _float(name: str, value: object) -> float:
    if isinstance(value, (Real, Decimal)) and not isinstance(value, bool):
        try:
            return float(value)
        except OverflowError:
            raise BadEntry("is too large.", where=name, value=f"{value}"[:20], way_out=BARE) from None
    raise BadEntry("is not a number.", where=name, value=_shown(value), way_out=BARE)


def numbers_of(name: str, values: object) -> Sequence[float]:
    """A row of finite numbers, as it was given; a long row is looked at in bulk.

    Raises:
        BadEntry: no row of numbers, or one that ``number_of`` refuses; the message counts from 1.

    >>> numbers_of("Reading", [24.98, 24.99])
    [24.98, 24.99]
    """
    if isinstance(values, (str, bytes)) or not isinstance(values, Iterable):
        raise BadEntry(
            f"is {_sort(values)} and not a row of numbers.",
            where=name,
            value=_shown(values),
            way_out="Give a list, as [24.98, 24.99].",
        )
    row = values if isinstance(values, Sequence) else tuple(values)
    if {float, int}.issuperset(map(type, row)) and math.isfinite(sum(row)):
        return row
    return [number_of(f"{name} {count}", value) for count, value in enumerate(row, start=1)]


def maybe_number_of(name: str, value: object) -> float | None:
    """As ``number_of``; nothing given stays nothing (an open limit, a temperature not noted).

    >>> maybe_number_of("Low limit", None) is None
    True
    """
    return None if value is None else number_of(name, value)


def whole_of(name: str, value: object, *, least: int | None = None) -> int:
    """A whole number, as ``2`` or ``2.0``.

    Raises:
        BadEntry: no number, or a part of one.
        OutOfRange: less than the least.

    >>> whole_of("Starts", 2.0, least=1)
    2
    """
    number = number_of(name, value)
    if number != int(number):
        raise BadEntry("is no whole number.", where=name, value=f"{number:g}", way_out="Give it as 2.")
    if least is not None and number < least:
        raise OutOfRange(
            f"is less than {least}.", where=name, value=f"{number:g}", way_out=f"Give {least} or more."
        )
    return int(number)


def text_of(name: str, value: object, way_out: str = "Give it in quotes, as people type it.") -> str:
    """Text as it was given.

    Raises:
        BadEntry: anything else.

    >>> text_of("Class", "H7")
    'H7'
    """
    if isinstance(value, str):
        return value
    raise BadEntry(f"is {_sort(value)} and not text.", where=name, value=_shown(value), way_out=way_out)


def word_of(name: str, value: object, words: type[Word]) -> Word:
    """One of a closed list of words, given as the member or as its text.

    Raises:
        BadEntry: not in the list; the message shows the list.

    >>> from rebuild.words.fits import FitJoint
    >>> word_of("Joint", "nut and screw", FitJoint)
    <FitJoint.NUT_AND_SCREW: 'nut and screw'>
    """
    if isinstance(value, words):
        return value
    try:
        return words(str(value))
    except ValueError:
        known = ", ".join(words)
        raise BadEntry(
            "is not one of the words.", where=name, value=_shown(value), way_out=f"Words: {known}."
        ) from None


def record_of(name: str, value: object, kind: type[Record]) -> Record:
    """A record of the trade that another function made.

    Raises:
        BadEntry: anything else.

    >>> record_of("Size", Decimal(1), Decimal)
    Decimal('1')
    """
    if isinstance(value, kind):
        return value
    raise BadEntry(
        f"is {_sort(value)} and not a {kind.__name__}.",
        where=name,
        value=_shown(value),
        way_out=f"Give a {kind.__name__}, as the functions beside it return it.",
    )


def records_of(name: str, values: object, kind: type[Record]) -> Sequence[Record]:
    """A row of records, each looked at.

    Raises:
        BadEntry: no row, or one that ``record_of`` refuses.

    >>> records_of("Size", [Decimal(1)], Decimal)
    [Decimal('1')]
    """
    if isinstance(values, (str, bytes)) or not isinstance(values, Iterable):
        raise BadEntry(
            f"is {_sort(values)} and not a row.", where=name, value=_shown(values), way_out="Give a list."
        )
    return [record_of(f"{name} {count}", value, kind) for count, value in enumerate(values, start=1)]


def _sort(value: object) -> str:
    """What a thing is, in words."""
    if value is None:
        return "nothing"
    if isinstance(value, str):
        return "text"
    return "a yes or no" if isinstance(value, bool) else f"a {type(value).__name__}"


def _shown(value: object) -> str:
    text = value if isinstance(value, str) and value else repr(value)
    return text if len(text) <= 60 else text[:59] + "…"
