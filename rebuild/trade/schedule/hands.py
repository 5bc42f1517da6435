"""The plan of one pair of hands: each work step in turn, waits beside them, on the owner's clock."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from typing import TypeVar

from rebuild.trade.schedule.cpm import Network
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.simulate import hands_order
from rebuild.trade.schedule.week import Clock

K = TypeVar("K", bound=Hashable)


def turn_of_work(
    network: Network[K],
    durations: Mapping[K, float],
    waits: frozenset[K] = frozenset(),
    clock: Clock | None = None,
) -> list[int]:
    """The places of the network in the order they are taken in hand.

    >>> net = Network("AB", [("B", "A")])
    >>> [net.keys[at] for at in turn_of_work(net, {"A": 1.0, "B": 2.0})]
    ['B', 'A']
    """
    points = [ThreePoint(durations[key], durations[key], durations[key]) for key in network.keys]
    return hands_order(network, points, waits, clock)


def in_turn(
    network: Network[K],
    durations: Mapping[K, float],
    waits: frozenset[K] = frozenset(),
    clock: Clock | None = None,
    order: Sequence[int] | None = None,
) -> dict[K, tuple[float, float]]:
    """Start and finish of every step [bench minutes]; ``waits`` have elapsed minutes as durations.

    >>> net = Network("AB", [])
    >>> in_turn(net, {"A": 5.0, "B": 3.0})["B"]
    (5.0, 8.0)
    """
    order = order if order is not None else turn_of_work(network, durations, waits, clock)
    starts, ends = turns_of(network, durations, waits, clock, order)
    return {network.keys[at]: (starts[at], ends[at]) for at in order}


def turns_of(
    network: Network[K],
    durations: Mapping[K, float],
    waits: frozenset[K],
    clock: Clock | None,
    order: Sequence[int],
) -> tuple[list[float], list[float]]:
    """Starts and finishes as of ``in_turn``, in the network's order."""
    keys, before = network.keys, network.before
    begun = [0.0] * len(keys)
    finish = [0.0] * len(keys)
    hands_free = 0.0
    for at in order:
        key = keys[at]
        start = 0.0
        for one in before[at]:
            if finish[one] > start:
                start = finish[one]
        if key in waits:
            end = start + durations[key]
            if clock is not None:
                end = clock.to_bench(clock.to_elapsed(start) + durations[key])
        else:
            start = max(start, hands_free)
            hands_free = end = start + durations[key]
        begun[at], finish[at] = start, end
    return begun, finish
