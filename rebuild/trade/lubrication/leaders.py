"""Where the numbers of an oil map stand: round the outline, each at the end of a leader to its own spot."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.trade.results.door import door

Spot = tuple[float, float]
_LEFT, _RIGHT, _TOP, _FOOT = range(4)


@door()
def around(spots: Sequence[Spot], wide: float, high: float, gap: float, pitch: float) -> list[Spot]:
    """A place outside the field for the number of each spot, in the order given; all in one measure, e.g. pixels.

    A number stands on the side nearest to its spot (by its share of the field) that still has room, ``gap`` outside
    the field, numbers of a side ``pitch`` apart at the least and in the order of their spots, so that leaders of one
    side do not cross. Where all sides are full they stand closer.

    >>> around([(1.0, 5.0), (1.0, 5.5), (9.0, 5.0)], 10.0, 10.0, 2.0, 2.0)
    [(-2.0, 4.25), (-2.0, 6.25), (12.0, 5.0)]
    """
    room = [_places(high, pitch)] * 2 + [_places(wide, pitch)] * 2
    sides: list[list[int]] = [[], [], [], []]
    away = [(x / wide, 1 - x / wide, y / high, 1 - y / high) for x, y in spots]
    for at in sorted(range(len(spots)), key=lambda one: min(away[one])):
        nearest = sorted(range(4), key=lambda side: away[at][side])
        free = [side for side in nearest if len(sides[side]) < room[side]]
        sides[(free or nearest)[0]].append(at)
    found: dict[int, Spot] = {}
    for side, ones in enumerate(sides):
        upright = side in (_LEFT, _RIGHT)
        own = [spots[one][1 if upright else 0] for one in ones]
        ranked = sorted(range(len(ones)), key=own.__getitem__)
        places = _spread([own[one] for one in ranked], 0.0, high if upright else wide, pitch)
        across = {_LEFT: -gap, _RIGHT: wide + gap, _TOP: -gap, _FOOT: high + gap}[side]
        for one, along in zip(ranked, places, strict=True):
            found[ones[one]] = (across, along) if upright else (along, across)
    return [found[at] for at in range(len(spots))]


def _places(length: float, pitch: float) -> int:
    return int(length / pitch) + 1


def _spread(wished: list[float], low: float, high: float, pitch: float) -> list[float]:
    """Rising places as near to those wished as their distance and the ends of the side allow."""
    if len(wished) > 1:
        pitch = min(pitch, (high - low) / (len(wished) - 1))
    groups: list[tuple[float, int]] = []  # where a run of touching numbers begins, and how many it holds
    for place in wished:
        start, count = min(max(place, low), high), 1
        while groups and groups[-1][0] + groups[-1][1] * pitch > start:
            before, many = groups.pop()
            start = (before * many + (start - many * pitch) * count) / (many + count)
            count += many
            start = min(max(start, low), high - (count - 1) * pitch)
        groups.append((start, count))
    return [start + at * pitch for start, count in groups for at in range(count)]
