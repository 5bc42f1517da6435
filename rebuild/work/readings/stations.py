"""A row of stations as typed: the unit behind the last one is meant for all of them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from rebuild.errors import BadEntry
from rebuild.trade.sizes.number import read_whole
from rebuild.trade.sizes.quantity import parse_length

#: The longest run of numbered stations that is written out.
MOST = 60
_RUN = re.compile(r"(\d{1,3})\s*(?:-|–|\.\.\.?|…|\bto\b)\s*(\d{1,3})", re.I)


def stations_of(text: str) -> list[str]:
    """Stations typed in one line: split at commas or semicolons; ``1-5`` is the five from 1 to 5.

    >>> stations_of("0 in, 3 in; far"), stations_of("near, 1-3")
    (['0 in', '3 in', 'far'], ['near', '1', '2', '3'])
    >>> stations_of("1-5/8"), stations_of("5-1")
    (['1-5/8'], ['5-1'])
    """
    names: list[str] = []
    for part in filter(None, (part.strip() for part in text.replace(";", ",").split(","))):
        run = _RUN.fullmatch(part)
        first, last = (read_whole(run[1], "Stations"), read_whole(run[2], "Stations")) if run else (0, 0)
        names += [str(at) for at in range(first, last + 1)] if first < last < first + MOST else [part]
    return names


def in_one_unit(names: Sequence[str]) -> tuple[str, ...]:
    """Give the bare numbers of a row the unit its last station is typed with.

    >>> in_one_unit(["0", "6", "12 in"])
    ('0 in', '6 in', '12 in')
    >>> in_one_unit(["near", "0", "6"]), in_one_unit(["0 mm", "6 in", "far"])
    (('near', '0', '6'), ('0 mm', '6 in', 'far'))
    """
    units = [_unit(name) for name in names]
    if not units or not units[-1] or any(units[:-1]):
        return tuple(names)
    return tuple(
        f"{name.strip()} {units[-1]}" if unit == "" else name for name, unit in zip(names, units, strict=True)
    )


def _unit(name: str) -> str | None:
    """The unit typed with a distance, empty for a bare number, None for a word."""
    try:
        read = {parse_length(name, unit).unit for unit in ("mm", "in")}
    except BadEntry:
        return None
    return read.pop() if len(read) == 1 else ""
