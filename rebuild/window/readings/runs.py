"""Neighbouring places folded into runs, for telling Qt about rows a stretch at a time."""

from __future__ import annotations

from collections.abc import Iterable


def runs(places: Iterable[int]) -> list[tuple[int, int]]:
    """First and last of each stretch of neighbouring numbers, rising.

    >>> runs([4, 1, 2, 3, 9])
    [(1, 4), (9, 9)]
    """
    found: list[tuple[int, int]] = []
    for place in sorted(places):
        if found and place == found[-1][1] + 1:
            found[-1] = (found[-1][0], place)
        else:
            found.append((place, place))
    return found
