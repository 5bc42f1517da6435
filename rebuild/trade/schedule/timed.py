"""A network timed once by some durations, hands aside: ranking and dates ask the same times."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass
from typing import Generic, TypeVar

from rebuild.trade.schedule.cpm import NO_SLACK, Network

K = TypeVar("K", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Timed(Generic[K]):
    """Durations, earliest and latest times and slack in the network's order, and one longest way: all in one unit."""

    network: Network[K]
    lasting: list[float]
    start: list[float]
    finish: list[float]
    last_start: list[float]
    last_finish: list[float]
    slack: list[float]
    end: float
    path: tuple[K, ...]

    @classmethod
    def of(cls, network: Network[K], durations: Mapping[K, float]) -> Timed[K]:
        """Time it. Raises BadEntry for a duration missing, negative or no number.

        >>> timed = Timed.of(Network("ABC", [("A", "C")]), {"A": 2.0, "B": 4.0, "C": 3.0})
        >>> timed.end, timed.path, timed.critical("B")
        (5.0, ('A', 'C'), False)
        """
        lasting = network.listed(durations)
        start, finish = network.forward(lasting)
        end = max(finish, default=0.0)
        last_start, last_finish = network.backward(lasting, end)
        slack = [last - first for last, first in zip(last_finish, finish, strict=True)]
        path = network.longest_way(finish)
        return cls(network, lasting, start, finish, last_start, last_finish, slack, end, path)

    def critical(self, key: K) -> bool:
        """Whether any slip of it moves the finish."""
        return self.slack[self.network.place[key]] <= NO_SLACK
