"""Which names of a row are shown in the room there is."""

from __future__ import annotations

from collections.abc import Sequence


def fit(
    texts: Sequence[int], more: int, room: int, sides: tuple[int, int], chosen: int
) -> tuple[frozenset[int], int]:
    """The places shown and the margin [px] at each side of a name, for text widths and a room [px].

    Names first stand closer; then the last ones go, never the chosen one, and *more* takes their place.

    >>> fit([40, 40, 40], 30, 174, (9, 4), 0)
    (frozenset({0, 1, 2}), 9)
    >>> fit([40, 40, 40], 30, 150, (9, 4), 0)
    (frozenset({0, 1, 2}), 5)
    >>> shown, side = fit([40, 40, 40, 40], 30, 150, (9, 4), 3)
    >>> sorted(shown), side
    ([0, 3], 6)
    """
    wide, least = sides
    count = len(texts)
    if count and sum(texts) + 2 * least * count <= room:
        return frozenset(range(count)), min(wide, (room - sum(texts)) // (2 * count))
    shown = list(range(count))
    for place in range(count - 1, -1, -1):
        if len(shown) > 1 and _width(texts, shown, more, least) > room and place != chosen:
            shown.remove(place)
    spare = room - sum(texts[place] for place in shown) - more
    return frozenset(shown), max(least, min(wide, spare // (2 * (len(shown) + 1))))


def _width(texts: Sequence[int], shown: Sequence[int], more: int, side: int) -> int:
    return sum(texts[place] for place in shown) + more + 2 * side * (len(shown) + 1)
