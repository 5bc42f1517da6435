"""Read a stored entry again: the same text and unit must give the same millimetres.

A comma that was doubtful when typed (``1,250``) was settled by the file's setting at that time; which
way it went shows in the millimetres stored beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from statistics import fmean, stdev

from rebuild.errors import BadEntry
from rebuild.trade.sizes.quantity import Size, parse_length, parse_repeats

#: Two lengths this close [mm] are the same entry; a limit worked out from deviations keeps 9 decimals.
SAME_MM = 1e-8


def near(first_mm: float, second_mm: float) -> bool:
    """Whether two lengths [mm] are the same entry: to 1e-8 mm, or to the last digits of a long one.

    >>> near(25.4, 25.4 + 1e-10), near(25.4, 25.401)
    (True, False)
    """
    return abs(first_mm - second_mm) <= max(SAME_MM, 1e-12 * abs(second_mm))


def lengths_again(text: str, unit: str) -> Iterator[Size]:
    """Every way a stored text can have been read.

    >>> [size.mm for size in lengths_again("1,250", "mm")]
    [1.25, 1250.0]
    """
    for comma in (None, True, False):
        try:
            yield parse_length(text, unit, decimal_comma=comma)
        except BadEntry:
            continue


def repeats_again(typed: str, unit: str, mean_mm: float) -> tuple[Size, ...] | None:
    """The repeats of a stored reading whose mean is ``mean_mm``, or None when no reading of it gives that.

    >>> [size.mm for size in repeats_again("1,250; 1,252", "mm", 1.251)]
    [1.25, 1.252]
    """
    for comma in (None, True, False):
        try:
            sizes = parse_repeats(typed, unit, decimal_comma=comma)
        except BadEntry:
            continue
        if near(mean_and_spread(sizes)[0], mean_mm):
            return sizes
    return None


def mean_and_spread(sizes: Sequence[Size]) -> tuple[float, float | None]:
    """The mean of repeats and their sample standard deviation (None for one) [mm].

    Raises:
        BadEntry: no sizes.

    >>> mean_and_spread(parse_repeats("10; 12"))
    (11.0, 1.4142135623730951)
    """
    values = [size.mm for size in sizes]
    if not values:
        raise BadEntry("is empty.", where="Reading", way_out="Give one size or more.")
    return fmean(values), stdev(values) if len(values) > 1 else None
