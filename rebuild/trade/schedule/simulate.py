"""Many finishes drawn from three-point durations, on one pair of hands or on many.

Work is counted in bench minutes, waiting in elapsed ones (``Clock`` turns one into the other). With one pair of
hands, work steps follow each other in a fixed list order (least slack first); waits run beside them.
Seeded: the same network, durations and seed give the same draws.
"""

from __future__ import annotations

import itertools
from collections.abc import Collection, Hashable, Mapping, Sequence
from dataclasses import dataclass
from heapq import heapify, heappop, heappush
from typing import TYPE_CHECKING, Generic, TypeVar

from rebuild.trade.schedule.cpm import Network
from rebuild.trade.schedule.pert import QUANTILES, ThreePoint, quantiles, shape_of
from rebuild.trade.sizes.given import number_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from rebuild.trade.schedule.week import Clock

K = TypeVar("K", bound=Hashable)

#: Draws handled at once; keeps the working set in the processor's cache.
BLOCK = 1000


@dataclass(frozen=True, slots=True)
class Finishes(Generic[K]):
    """What the draws gave: finish times sorted [bench minutes], and how often each step drove the finish."""

    finishes: NDArray[np.float64]
    driven_by: Mapping[K, float]
    mean_finish: float

    def by(self, chance: float) -> float:
        """The time by which a share of the draws is finished."""
        import numpy as np

        return float(np.quantile(self.finishes, chance))


def simulate(
    network: Network[K],
    durations: Mapping[K, ThreePoint],
    *,
    draws: int = 2000,
    seed: int = 1,
    waits: frozenset[K] = frozenset(),
    clock: Clock | None = None,
    one_pair_of_hands: bool = False,
    order: Sequence[int] | None = None,
) -> Finishes[K]:
    """Draw the finish ``draws`` times.

    Args:
        durations: of every activity; work in bench minutes, ``waits`` in elapsed minutes.
        clock: needed where there are waits; without it all time is of one kind.
        one_pair_of_hands: work steps never run side by side.
        order: in which they are taken in hand then; without it as of ``hands_order``.

    Raises:
        BadEntry: draws or seed are no number.
        OutOfRange: either is below nothing.

    >>> fixed = {"A": ThreePoint(2, 2, 2), "B": ThreePoint(3, 3, 3)}
    >>> simulate(Network("AB", []), fixed, draws=10).mean_finish
    3.0
    >>> simulate(Network("AB", []), fixed, draws=10, one_pair_of_hands=True).mean_finish
    5.0
    """
    import numpy as np

    draws, seed = int(number_of("Draws", draws, at_least=0)), int(number_of("Seed", seed, at_least=0))
    points = [durations[key] for key in network.keys]
    if not one_pair_of_hands:
        order = range(len(points))
    elif order is None:
        order = hands_order(network, points, waits, clock)
    random = np.random.default_rng(seed)
    is_wait = [key in waits for key in network.keys]
    plan = _Plan(network, points, list(order), is_wait, clock, one_pair_of_hands)
    ends: list[NDArray[np.float64]] = []
    driven = np.zeros(len(points))
    for start in range(0, draws, BLOCK):
        finish, counted = plan.block(min(BLOCK, draws - start), random)
        ends.append(finish)
        driven += counted
    every = np.sort(np.concatenate(ends)) if ends else np.zeros(0)
    return Finishes(
        every,
        {key: float(driven[at] / max(1, draws)) for at, key in enumerate(network.keys)},
        float(every.mean()) if every.size else 0.0,
    )


def hands_order(
    network: Network[K],
    points: Sequence[ThreePoint],
    waits: frozenset[K] = frozenset(),
    clock: Clock | None = None,
) -> list[int]:
    """The list order for one pair of hands: among the steps that are free, least latest start first.

    >>> net = Network("ABC", [("A", "C")])  # A and C are the longest way: B can wait
    >>> points = {"A": ThreePoint(1, 1, 1), "B": ThreePoint(5, 5, 5), "C": ThreePoint(9, 9, 9)}
    >>> [net.keys[at] for at in hands_order(net, [points[key] for key in net.keys])]
    ['A', 'C', 'B']
    """
    means = [point.mean for point in points]
    start, finish = network.forward(means)
    latest = network.backward(means, max(finish, default=0.0))[0]
    places = frozenset([network.place[key] for key in waits])
    return in_hand_order(network, means, places, clock, latest, start)


def in_hand_order(
    network: Network[K],
    durations: Sequence[float],
    waits: Collection[int],
    clock: Clock | None,
    latest: Sequence[float],
    start: Sequence[float],
) -> list[int]:
    """The list order for one pair of hands that are never idle while work can be begun.

    Of the work that can be begun when the hands are free, the one with the least latest start is taken; what only
    waits runs beside it. ``durations`` and the times are in the network's order, ``waits`` are places.
    """
    by_turn = [at for _, _, at in sorted(zip(latest, start, range(len(start)), strict=True))]
    turn = [0] * len(by_turn)
    for place, at in enumerate(by_turn):
        turn[at] = place
    waiting = [len(before) for before in network.before]
    can_begin = [0.0] * len(by_turn)
    coming = [(0.0, turn[at]) for at, count in enumerate(waiting) if not count]
    heapify(coming)
    free: list[int] = []
    order: list[int] = []
    time = 0.0
    while coming or free:
        if not free and coming[0][0] > time and by_turn[coming[0][1]] not in waits:
            time = coming[0][0]
        while coming and (coming[0][0] <= time or by_turn[coming[0][1]] in waits):
            begins, place = heappop(coming)
            if by_turn[place] not in waits:
                heappush(free, place)
                continue
            at = by_turn[place]
            ends = begins + durations[at]
            if clock is not None:
                ends = clock.to_bench(clock.to_elapsed(begins) + durations[at])
            _done(network, at, ends, waiting, can_begin, coming, turn)
            order.append(at)
        if free:
            at = by_turn[heappop(free)]
            time += durations[at]
            _done(network, at, time, waiting, can_begin, coming, turn)
            order.append(at)
    return order


def _done(
    network: Network[K],
    at: int,
    ends: float,
    waiting: list[int],
    can_begin: list[float],
    coming: list[tuple[float, int]],
    turn: list[int],
) -> None:
    """What follows a place directly waits for one less."""
    for after in network.after[at]:
        waiting[after] -= 1
        if ends > can_begin[after]:
            can_begin[after] = ends
        if not waiting[after]:
            heappush(coming, (can_begin[after], turn[after]))


class _Plan:
    """The network laid out for whole arrays of draws."""

    def __init__(
        self,
        network: Network[K],
        points: Sequence[ThreePoint],
        order: list[int],
        is_wait: list[bool],
        clock: Clock | None,
        hands: bool,
    ) -> None:
        self.order, self.is_wait = order, is_wait
        self.before = _one_after_another(network.before, order, is_wait) if hands else network.before
        self.low = [point.shortest for point in points]
        self.span = [point.longest - point.shortest for point in points]
        self.table = [quantiles(shape_of(point)) for point in points]
        self.clock = clock

    def block(
        self, count: int, random: np.random.Generator
    ) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """``count`` finishes, and in how many of them each step lay on the driving path."""
        import numpy as np

        start = np.zeros((len(self.order), count))
        finish = np.zeros((len(self.order), count))
        for at in self.order:
            begin = start[at]
            for one in self.before[at]:
                np.maximum(begin, finish[one], out=begin)
            self._end(at, begin, self._draw(at, count, random), finish[at])
        if not self.order:
            return np.zeros(count), np.zeros(0)
        whole = finish.max(axis=0)
        return whole, self._drivers(start, finish, whole)

    def _draw(self, at: int, count: int, random: np.random.Generator) -> NDArray[np.float64] | float:
        if self.span[at] <= 0:
            return self.low[at]
        drawn: NDArray[np.float64] = self.table[at][random.integers(0, QUANTILES, count, dtype="uint16")]
        drawn *= self.span[at]
        drawn += self.low[at]
        return drawn

    def _end(
        self,
        at: int,
        start: NDArray[np.float64],
        duration: NDArray[np.float64] | float,
        out: NDArray[np.float64],
    ) -> None:
        import numpy as np

        if not self.is_wait[at] or self.clock is None:
            np.add(start, duration, out=out)
            return
        out[:] = self.clock.after_waiting(start, duration)

    def _drivers(
        self, start: NDArray[np.float64], finish: NDArray[np.float64], whole: NDArray[np.float64]
    ) -> NDArray[np.float64]:
        """Walk back from the finish: a step drives when one that drives began just as it ended."""
        import numpy as np

        counted = np.zeros(len(self.order))
        drives: dict[int, NDArray[np.bool_]] = {}
        for last in np.flatnonzero((finish >= whole).any(axis=1)):
            drives[int(last)] = finish[last] >= whole
        for at in reversed(self.order):
            if at not in drives:
                continue
            mine = drives.pop(at)
            counted[at] = mine.sum()
            for one in self.before[at]:
                held = mine & (finish[one] >= start[at])
                if held.any():
                    drives[one] = drives[one] | held if one in drives else held
        return counted


def _one_after_another(before: list[list[int]], order: list[int], is_wait: list[bool]) -> list[list[int]]:
    """One pair of hands as links: each work step also follows the work step before it in the list."""
    linked = [list(ones) for ones in before]
    work = [at for at in order if not is_wait[at]]
    for first, second in itertools.pairwise(work):
        if first not in linked[second]:
            linked[second].append(first)
    return linked
