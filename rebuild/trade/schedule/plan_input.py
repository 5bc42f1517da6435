"""What a plan is worked out from, as frozen values: open work, links, parts to be made, the week."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from rebuild.trade.schedule.cpm import Network
from rebuild.trade.schedule.graph import Node
from rebuild.trade.schedule.rank import Rank, in_bench
from rebuild.trade.schedule.timed import Timed
from rebuild.trade.schedule.week import Week
from rebuild.words.decisions import Decision


@dataclass(frozen=True, slots=True)
class PlanInput:
    """All that the plan is worked out from: open work, and what must pass after some of it (a rest, a delivery).

    ``ready`` is what can be begun now; ``making`` names what has to be done to have each part; ``rank`` is
    the order in which every list offers it.
    """

    steps: tuple[Node, ...]
    links: tuple[tuple[int, int], ...]
    parts: dict[int, tuple[str, Decision]]
    week: Week
    week_is_set: bool
    ready: frozenset[int] = frozenset()
    making: Mapping[int, tuple[int, ...]] = field(default_factory=dict)
    rank: Rank = field(default_factory=Rank)
    laid: list[Network[int]] = field(init=False, default_factory=list, compare=False, repr=False)
    times: list[Timed[int]] = field(init=False, default_factory=list, compare=False, repr=False)

    def network(self) -> Network[int]:
        """Its work and ties in order, laid once. Raises BrokenOrder when they loop (by the acts they cannot)."""
        if not self.laid:
            self.laid.append(Network([step.key for step in self.steps], self.links))
        return self.laid[0]

    def timed(self) -> Timed[int]:
        """Its network timed by the mean durations, waits as ``in_bench``; once. Raises as ``network``, and BadEntry."""
        if not self.times:
            means = {step.key: step.points.mean for step in self.steps}
            waits = frozenset([step.key for step in self.steps if step.elapsed])
            self.times.append(Timed.of(self.network(), in_bench(means, waits, self.week)))
        return self.times[0]
