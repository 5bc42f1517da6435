"""A row of stations as typed: the unit behind the last one is meant for all of them."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.errors import BadEntry
from rebuild.trade.sizes.quantity import parse_length


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
