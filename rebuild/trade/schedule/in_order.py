"""Keys in an order that respects every pair; a loop is named and cut where the caller says, and the order goes on."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

Pair = tuple[int, int]


@dataclass(frozen=True, slots=True)
class InOrder:
    """``after`` has what follows each key directly, in the order laid, without the pairs cut from ``loops``.

    ``waits`` counts the keys directly before each, the cut ones too.
    """

    order: tuple[int, ...]
    loops: tuple[tuple[int, ...], ...]
    after: Mapping[int, list[int]]
    waits: Mapping[int, int]
    cut: frozenset[Pair]


def in_order(keys: Iterable[int], pairs: Iterable[Pair], cut: Callable[[tuple[int, ...]], Pair]) -> InOrder:
    """Order ``keys`` by different ``pairs`` among them; ``cut`` names the pair of a loop to leave out.

    In one walk over the pairs, and one over each loop.

    >>> laid = in_order([1, 2, 3], [(1, 2), (2, 3), (3, 1)], lambda loop: (loop[-2], loop[-1]))
    >>> laid.loops, laid.order
    (((1, 2, 3, 1),), (1, 2, 3))
    """
    waiting = dict.fromkeys(keys, 0)
    after: dict[int, list[int]] = {}
    for before, then in pairs:
        after.setdefault(before, []).append(then)
        waiting[then] += 1
    waits = dict(waiting)
    order = [key for key, count in waiting.items() if not count]
    walked = _walk(order, 0, after, waiting)
    loops: list[tuple[int, ...]] = []
    gone: set[Pair] = set()
    into: dict[int, list[int]] | None = None
    while len(order) < len(waiting):
        if into is None:
            into = _into(after, waiting)
        loop = _loop(next(key for key, count in waiting.items() if count), into, waiting)
        loops.append(loop)
        before, then = cut(loop)
        gone.add((before, then))
        after[before].remove(then)
        into[then].remove(before)
        waiting[then] -= 1
        if not waiting[then]:
            order.append(then)
        walked = _walk(order, walked, after, waiting)
    return InOrder(tuple(order), tuple(loops), after, waits, frozenset(gone))


def _walk(order: list[int], at: int, after: Mapping[int, list[int]], waiting: dict[int, int]) -> int:
    """Take from ``at`` on what is free, and what becomes free by it; returns how far the order reaches."""
    while at < len(order):
        for then in after.get(order[at], ()):
            waiting[then] -= 1
            if not waiting[then]:
                order.append(then)
        at += 1
    return at


def _into(after: Mapping[int, list[int]], waiting: Mapping[int, int]) -> dict[int, list[int]]:
    """What of the rest comes directly before each of the rest."""
    found: dict[int, list[int]] = {}
    for before, followers in after.items():
        if waiting[before]:
            for then in followers:
                found.setdefault(then, []).append(before)
    return found


def _loop(start: int, into: Mapping[int, list[int]], waiting: Mapping[int, int]) -> tuple[int, ...]:
    """A loop of what is left, in the order of the work: of what is left, each has one of what is left before it."""
    way, places = [start], {start: 0}
    while True:
        before = next(key for key in into[way[-1]] if waiting[key])
        if before in places:
            return (before, *reversed(way[places[before] :]))
        places[before] = len(way)
        way.append(before)
