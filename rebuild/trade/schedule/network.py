"""Precedence between steps: loops spelled out, what is free to start, what a step holds up.

Plain dictionaries of hashable keys; ``graphlib`` of the standard library orders them.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Collection, Hashable, Iterable, Mapping
from graphlib import CycleError, TopologicalSorter
from typing import TypeVar

K = TypeVar("K", bound=Hashable)


def predecessors(links: Iterable[tuple[K, K]]) -> dict[K, set[K]]:
    """Each key's direct predecessors from ``(before, after)`` pairs.

    >>> predecessors([("a", "b")])["b"]
    {'a'}
    """
    found: dict[K, set[K]] = {}
    for before, after in links:
        found.setdefault(after, set()).add(before)
        found.setdefault(before, set())
    return found


def loop_in(links: Iterable[tuple[K, K]]) -> tuple[K, ...] | None:
    """One loop among the links in the order of the work, first key repeated at the end, or None.

    >>> loop = loop_in([("a", "b"), ("b", "c"), ("c", "a")])
    >>> loop[loop.index("a") + 1]
    'b'
    >>> loop_in([("a", "b")]) is None
    True
    """
    try:
        TopologicalSorter(predecessors(links)).prepare()
    except CycleError as found:
        return tuple(found.args[1])
    return None


def loop_closed_by(before: K, after: K, links: Iterable[tuple[K, K]]) -> tuple[K, ...] | None:
    """The loop a new link ``before → after`` would close: after … before → after; or None.

    The path found is the shortest one.

    >>> loop_closed_by("c", "a", [("a", "b"), ("b", "c")])
    ('a', 'b', 'c', 'a')
    """
    if before == after:
        return (after, after)
    following: dict[K, list[K]] = {}
    for first, second in links:
        following.setdefault(first, []).append(second)
    came_from: dict[K, K] = {}
    queue = deque([after])
    seen = {after}
    while queue:
        here = queue.popleft()
        for there in following.get(here, ()):
            if there in seen:
                continue
            came_from[there] = here
            if there == before:
                return (*_path(came_from, after, before), after)
            seen.add(there)
            queue.append(there)
    return None


def _path(came_from: Mapping[K, K], start: K, end: K) -> tuple[K, ...]:
    path = [end]
    while path[-1] != start:
        path.append(came_from[path[-1]])
    return tuple(reversed(path))


def ordered(links: Iterable[tuple[K, K]], keys: Iterable[K] = ()) -> list[K]:
    """All keys in an order that respects every link. Raises graphlib.CycleError on a loop.

    >>> ordered([("b", "c"), ("a", "b")])
    ['a', 'b', 'c']
    """
    graph = predecessors(links)
    for key in keys:
        graph.setdefault(key, set())
    return list(TopologicalSorter(graph).static_order())


def held_up_by(start: Collection[K], links: Iterable[tuple[K, K]]) -> set[K]:
    """Everything that comes after any of ``start``, directly or not (``start`` itself left out).

    >>> sorted(held_up_by(["a"], [("a", "b"), ("b", "c"), ("x", "c")]))
    ['b', 'c']
    """
    following: dict[K, list[K]] = {}
    for before, after in links:
        following.setdefault(before, []).append(after)
    found: set[K] = set()
    queue = deque(start)
    while queue:
        for there in following.get(queue.popleft(), ()):
            if there not in found:
                found.add(there)
                queue.append(there)
    return found - set(start)
