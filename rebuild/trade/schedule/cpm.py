"""Critical path on a network of activities (activity on node), built once and re-timed at will.

ES, EF, LS, LF as everywhere: forward pass by the latest predecessor, backward pass by the earliest
successor. Total slack = LS - ES; free slack = least ES of the successors - EF (Moder, Phillips, Davis,
"Project Management with CPM, PERT and Precedence Diagramming", 3rd ed., ch. 4; from memory).
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping, Sequence
from heapq import heappop, heappush
from itertools import pairwise
from math import inf
from typing import Generic, NamedTuple, TypeVar

from rebuild.errors import BadEntry, BrokenOrder
from rebuild.trade.schedule.network import loop_in
from rebuild.trade.sizes.given import number_of

K = TypeVar("K", bound=Hashable)

#: Slack below this many minutes counts as none (sums of many durations are not exact).
NO_SLACK = 1e-6


class Times(NamedTuple):
    """The times of one activity, in the unit of the durations. Made by thousands."""

    earliest_start: float
    earliest_finish: float
    latest_start: float
    latest_finish: float
    free_slack: float

    @property
    def total_slack(self) -> float:
        """How long it may slip without moving the finish (negative: a target is missed)."""
        return self.latest_start - self.earliest_start

    @property
    def critical(self) -> bool:
        """Whether any slip moves the finish."""
        return self.total_slack <= NO_SLACK


class Network(Generic[K]):
    """Activities and their links, in an order that respects every link.

    >>> net = Network("AB", [("A", "B")])
    >>> net.times({"A": 2.0, "B": 3.0})["B"].earliest_finish
    5.0
    """

    def __init__(self, keys: Iterable[K], links: Iterable[tuple[K, K]]) -> None:
        """Order the activities. Links to unknown keys are left out.

        Raises:
            BrokenOrder: the links close a loop; it is spelled out.
        """
        listed = list(dict.fromkeys(keys))
        place = {key: at for at, key in enumerate(listed)}
        pairs = [pair for pair in dict.fromkeys(links) if pair[0] in place and pair[1] in place]
        count = len(listed)
        following: list[list[int]] = [[] for _ in range(count)]
        waiting = [0] * count
        for first, second in pairs:
            after = place[second]
            following[place[first]].append(after)
            waiting[after] += 1
        order = [at for at in range(count) if not waiting[at]]
        for at in order:
            for after in following[at]:
                waiting[after] -= 1
                if not waiting[after]:
                    order.append(after)
        if len(order) < count:
            loop = loop_in(pairs) or ()
            raise BrokenOrder(
                "The steps wait for each other in a loop:",
                chain=tuple(str(key) for key in loop),
                way_out="Take one of these links away.",
            )
        self.keys = tuple(listed[at] for at in order)
        new = [0] * count
        for at, old in enumerate(order):
            new[old] = at
        self.before: list[list[int]] = [[] for _ in range(count)]
        self.after: list[list[int]] = []
        for at, old in enumerate(order):
            then = [new[one] for one in following[old]]
            if len(then) > 1:
                then.sort()
            self.after.append(then)
            for one in then:
                self.before[one].append(at)
        self.place = {key: at for at, key in enumerate(self.keys)}

    def listed(self, durations: Mapping[K, float]) -> list[float]:
        """Durations in the network's order. Raises BadEntry for one missing, negative or no number."""
        found = []
        for key in self.keys:
            duration = durations.get(key)
            if type(duration) is not float or not 0 <= duration < inf:
                duration = _refuse(key, duration)
            found.append(duration)
        return found

    def times(self, durations: Mapping[K, float], target: float | None = None) -> dict[K, Times]:
        """All times; ``target`` is a wanted finish (else the earliest one). Raises BadEntry."""
        listed = self.listed(durations)
        start, finish = self.forward(listed)
        end = max(finish, default=0.0) if target is None else target
        return dict(zip(self.keys, self.told(start, finish, *self.backward(listed, end)), strict=True))

    def told(
        self,
        start: Sequence[float],
        finish: Sequence[float],
        last_start: Sequence[float],
        last_finish: Sequence[float],
    ) -> list[Times]:
        """Times in the network's order, as ``forward`` and ``backward`` give them."""
        whole = max(finish, default=0.0)
        free = []
        for at, then in enumerate(self.after):
            least = whole
            for one in then:
                if start[one] < least:
                    least = start[one]
            free.append(least - finish[at])
        return list(map(Times, start, finish, last_start, last_finish, free))

    def forward(self, durations: Sequence[float]) -> tuple[list[float], list[float]]:
        """Earliest starts and finishes in the network's order."""
        start = [0.0] * len(durations)
        finish = [0.0] * len(durations)
        for at, before in enumerate(self.before):
            begin = 0.0
            for one in before:
                if finish[one] > begin:
                    begin = finish[one]
            start[at] = begin
            finish[at] = begin + durations[at]
        return start, finish

    def slack(self, durations: Sequence[float], finish: Sequence[float]) -> list[float]:
        """The total slack of each place, ``finish`` being its earliest finish."""
        last = self.backward(durations, max(finish, default=0.0))[1]
        return [last[at] - finish[at] for at in range(len(finish))]

    def end_without(
        self,
        finish: Sequence[float],
        durations: Sequence[float],
        gone: Sequence[int],
        latest: Sequence[int],
        slack: Sequence[float],
    ) -> float:
        """The end if the activities at some places took no time: only what may decide it is timed anew.

        The end comes no sooner than by all the time saved, so what has more slack than that cannot decide it. Mostly
        another way decides it long before: what has little slack is timed first, more while that decides nothing.

        Args:
            finish: earliest finishes as they are (``forward``).
            durations: in the network's order.
            gone: places in that order.
            latest: every place, the one that finishes last first.
            slack: of every place.

        >>> net = Network("ABC", [("A", "C")])
        >>> lasting = [2.0, 4.0, 3.0]
        >>> _, finish = net.forward(lasting)
        >>> latest = sorted(range(3), key=lambda at: -finish[at])
        >>> net.end_without(finish, lasting, [net.place["A"]], latest, net.slack(lasting, finish))
        4.0
        """
        saved = sum([durations[at] for at in gone])
        end, most = finish[latest[0]], saved / 64
        while True:
            moved = self._moved(finish, durations, gone, slack, most + NO_SLACK)
            still = next((finish[at] for at in latest if at not in moved), 0.0)
            ends = max(still, max(moved.values(), default=0.0))
            if most >= saved or ends >= end - most:
                return max(ends, end - saved)
            most = min(saved, most * 8)

    def _moved(
        self,
        finish: Sequence[float],
        durations: Sequence[float],
        gone: Sequence[int],
        slack: Sequence[float],
        most: float,
    ) -> dict[int, float]:
        """The finishes that come earlier when some places take no time; what has more slack than ``most`` is left."""
        free = set(gone)
        moved: dict[int, float] = {}
        queue = sorted(free)
        waiting = set(queue)
        while queue:
            at = heappop(queue)
            begin = 0.0
            for one in self.before[at]:
                ends = moved.get(one, finish[one])
                if ends > begin:
                    begin = ends
            ends = begin if at in free else begin + durations[at]
            if ends != finish[at]:
                moved[at] = ends
                for after in self.after[at]:
                    if after not in waiting and slack[after] <= most:
                        waiting.add(after)
                        heappush(queue, after)
        return moved

    def ends_without_one(
        self,
        gone: Sequence[Sequence[int]],
        durations: Sequence[float],
        finish: Sequence[float],
        slack: Sequence[float],
    ) -> list[float]:
        """The end for each set of ``gone`` places in one line (``in_line``) on a longest way, as of ``end_without``.

        The longest way of all goes over the whole set, and is shorter by it. Any other way leaps over the place
        of its first: along one pair from before to behind it in the order, with the longest way to and from that pair.

        >>> net = Network("ABC", [("A", "C")])
        >>> lasting = [2.0, 4.0, 3.0]
        >>> _, finish = net.forward(lasting)
        >>> net.ends_without_one([[net.place["A"]]], lasting, finish, net.slack(lasting, finish))
        [4.0]
        """
        if not gone:
            return []
        end = max(finish, default=0.0)
        saved = [sum([durations[at] for at in places]) for places in gone]
        tail = [end - ends - left + lasts for ends, left, lasts in zip(finish, slack, durations, strict=True)]
        beside = self._beside(tail, finish, slack, end, max(saved))
        return [max(beside[places[0]], end - less) for places, less in zip(gone, saved, strict=True)]

    def _beside(
        self,
        tail: Sequence[float],
        finish: Sequence[float],
        slack: Sequence[float],
        end: float,
        saved: float,
    ) -> list[float]:
        """The longest way past each place, not over it; ``tail`` is the longest way from each place on.

        A way shorter than the end by more than ``saved`` decides nothing, and is left out (0.0 stands where no other
        is). The longest leaps are laid first, each over the places that none was laid over before.
        """
        count, most = len(finish), saved + NO_SLACK
        near = [at for at in range(count) if slack[at] <= most]
        leaps = [(tail[at], -1, at) for at in near if at and not self.before[at]]
        leaps += [(finish[at], at, count) for at in near if at < count - 1 and not self.after[at]]
        for at in near:
            for one in self.after[at]:
                if one > at + 1 and slack[one] <= most:
                    leaps.append((finish[at] + tail[one], at, one))
        leaps.sort(reverse=True)
        found = [0.0] * count
        bare = list(range(count + 1))
        for whole, start, stop in leaps:
            at = _next_bare(bare, start + 1)
            while at < stop:
                found[at] = whole
                bare[at] = at + 1
                at = _next_bare(bare, at + 1)
        return found

    def in_line(self, places: Sequence[int]) -> bool:
        """Whether some places follow each other directly with no way on or off between them.

        >>> net = Network("ABC", [("A", "B"), ("B", "C")])
        >>> net.in_line([0, 1]), net.in_line([0, 2])
        (True, False)
        """
        return all(self.after[one] == [then] and self.before[then] == [one] for one, then in pairwise(places))

    def backward(self, durations: Sequence[float], end: float) -> tuple[list[float], list[float]]:
        """Latest starts and finishes in the network's order for the whole to end at ``end``."""
        start = [0.0] * len(durations)
        finish = [0.0] * len(durations)
        for at in range(len(durations) - 1, -1, -1):
            stop = end
            for one in self.after[at]:
                if start[one] < stop:
                    stop = start[one]
            finish[at] = stop
            start[at] = stop - durations[at]
        return start, finish

    def critical_path(self, durations: Mapping[K, float]) -> tuple[K, ...]:
        """One longest path from start to finish, in order."""
        return self.longest_way(self.forward(self.listed(durations))[1])

    def longest_way(self, finish: Sequence[float]) -> tuple[K, ...]:
        """One longest path by earliest finishes (``forward``), in order."""
        if not finish:
            return ()
        path = [max(range(len(finish)), key=finish.__getitem__)]
        while self.before[path[-1]]:
            path.append(max(self.before[path[-1]], key=finish.__getitem__))
        return tuple(self.keys[at] for at in reversed(path))


def _next_bare(bare: list[int], at: int) -> int:
    """The first place from ``at`` on that points to itself; what was passed points further then."""
    while bare[at] != at:
        bare[at] = bare[bare[at]]
        at = bare[at]
    return at


def _refuse(key: object, duration: float | None) -> float:
    """A duration that is no ordinary number of nothing or more, or why it is none."""
    if duration is not None:
        number_of(f"Duration of {key}", duration)
    if duration is None or not duration >= 0:
        raise BadEntry(
            "has no duration." if duration is None else "has a duration below nothing.",
            where="Duration",
            value=str(key),
            way_out="Give it one of nothing or more.",
        )
    return duration
