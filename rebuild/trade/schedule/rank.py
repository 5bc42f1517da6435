"""What comes first: one order of the open work, and of the parts to be had, which every list keeps.

First the work the longest way to the finish begins with; then what brings the finish nearer: the end of the longest way
now, minus that end if the work were done (hands aside, waits as the bench hours that pass meanwhile); then what has no
slack, what is under way, what it unblocks, and the least work.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from rebuild.trade.schedule.cpm import NO_SLACK, Network
from rebuild.trade.schedule.graph import Node, WorkGraph
from rebuild.trade.schedule.timed import Timed
from rebuild.trade.schedule.week import Week
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.words.counted import counted
from rebuild.words.steps import TaskState

_WEEK = 7 * 24 * 60.0
_DAY = 24 * 60.0
#: More than any number of steps: so several counts are compared as one.
_MANY = 1_000_000
#: Days that are said, and that rank: less is none.
LEAST_DAYS = 0.05


class Gain(NamedTuple):
    """What doing some work is good for, and what it asks. ``days`` is how much nearer the finish comes.

    ``freed`` can be begun at once then, ``behind`` comes after it in all; minutes are the likely ones. ``chance``
    is the share of simulated schedules in which it drove the finish; None when none was drawn. Made by thousands.
    """

    days: float
    critical: bool
    freed: int
    behind: int
    work_min: float
    wait_min: float
    chance: float | None = None

    @property
    def reason(self) -> str:
        """Why it comes where it comes, as the end of a sentence."""
        said = [self._finish()]
        if self.chance is not None:
            said.append(f"drives the finish in {self.chance * 100:.0f} of 100 drawn schedules")
        if self.behind and not self.freed:
            said.append(
                f"{counted(self.behind, 'step')} {'waits' if self.behind == 1 else 'wait'} for it with others"
            )
        elif self.freed:
            held = f", {self.behind} in all" if self.behind > self.freed else ""
            said.append(f"unblocks {counted(self.freed, 'step')} at once{held}")
        else:
            said.append("nothing waits for it")
        cost = [f"{show_minutes(self.work_min)} of work"] if self.work_min else []
        cost += [f"{show_minutes(self.wait_min)} of waiting"] if self.wait_min else []
        said += ["likely " + " and ".join(cost)] if cost else []
        return ", ".join(filter(None, said))

    def _finish(self) -> str:
        if self.days >= LEAST_DAYS:
            return f"brings the finish {self.days:.1f} days nearer"
        return "lies on the longest way to the finish" if self.critical else ""


_NONE = Gain(0.0, False, 0, 0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Rank:
    """The order: ``work`` and ``parts`` are keys, what comes first first; ``path`` is the longest way to the finish."""

    work: tuple[int, ...] = ()
    parts: tuple[int, ...] = ()
    path: tuple[int, ...] = ()
    gains: Mapping[int, Gain] = field(default_factory=dict)
    of_parts: Mapping[int, Gain] = field(default_factory=dict)

    def in_order(self, nodes: Iterable[Node], own: int | None = None) -> tuple[Node, ...]:
        """Some work in this order; ``own`` is what the owner meant to go on with, and comes before all."""
        places = {key: place for place, key in enumerate(self.work)}
        return tuple(
            sorted(
                nodes,
                key=lambda node: (
                    own is None or node.key != own,
                    places.get(node.key, len(places)),
                    node.key,
                ),
            )
        )

    def place_of_part(self, part_id: int) -> int:
        """Where a part stands among the parts to be had."""
        return self.parts.index(part_id) if part_id in self.parts else len(self.parts)

    def gain(self, key: int) -> Gain:
        """What some work is good for."""
        return self.gains.get(key, _NONE)

    def gain_of_part(self, part_id: int) -> Gain:
        """What having a part is good for."""
        return self.of_parts.get(part_id, _NONE)


def in_bench(means: Mapping[int, float], waits: frozenset[int], week: Week) -> dict[int, float]:
    """Waits as the bench minutes that pass meanwhile on average, so that paths can be compared."""
    share = week.minutes_a_week / _WEEK
    return {key: minutes * share if key in waits else minutes for key, minutes in means.items()}


def rank(
    graph: WorkGraph,
    steps: Sequence[Node],
    making: Mapping[int, tuple[int, ...]],
    week: Week,
    timed: Timed[int],
) -> Rank:
    """Rank the open work of a graph; ``steps`` are its plan, rests and deliveries among them, as ``timed``.

    Work for a part counts what having the whole part is good for, and what waits for itself, of the same part too.
    """
    by_key = {step.key: step for step in steps}
    weighing = _Weighing(graph, timed, by_key, _WEEK / week.minutes_a_week / _DAY)
    owner = {key: part_id for part_id, keys in making.items() for key in keys}
    alone = _with_what_passes(graph, timed.network, [key for key in by_key if key not in owner])
    weighing.weigh([*making.values(), *alone.values()])
    of_parts = {part_id: weighing.gain(keys) for part_id, keys in making.items()}
    gains = {key: weighing.gain_of_one(keys) for key, keys in alone.items()}
    gains |= {key: weighing.within(of_parts[part_id], key) for key, part_id in owner.items() if key in by_key}
    work = _in_order(by_key, gains, timed)
    return Rank(work, _parts_in_order(graph, work, making), timed.path, gains, of_parts)


def _in_order(by_key: Mapping[int, Node], gains: Mapping[int, Gain], timed: Timed[int]) -> tuple[int, ...]:
    """On the longest way first; then days in tenths, as they are said: a difference nobody sees ranks nothing."""
    on_it = frozenset(timed.path)
    late = dict(zip(timed.network.keys, timed.slack, strict=True))
    placed = []
    for at, (key, node) in enumerate(by_key.items()):
        days, _, freed, behind, work_min, _, _ = gains[key]
        waits = 2 * (late[key] > NO_SLACK) + (node.state is not TaskState.UNDER_WAY)
        placed.append(
            (
                key not in on_it,
                -round(days, 1) if days >= LEAST_DAYS else 0.0,
                (waits * _MANY - freed) * _MANY - behind,
                work_min,
                node.part_id or 0,
                abs(key),
                at,
                key,
            )
        )
    placed.sort()
    return tuple([place[-1] for place in placed])


def _with_what_passes(
    graph: WorkGraph, network: Network[int], keys: Iterable[int]
) -> dict[int, tuple[int, ...]]:
    """Each step and what only passes after it: its rest, the delivery it sets off."""
    passing = [at for at, key in enumerate(network.keys) if graph.node(key) is None]
    found: dict[int, tuple[int, ...]] = {key: (key,) for key in keys}
    for at in passing:
        for one in network.before[at]:
            key = network.keys[one]
            if key in found:
                found[key] = (*found[key], network.keys[at])
    return found


def _parts_in_order(
    graph: WorkGraph, work: Sequence[int], making: Mapping[int, tuple[int, ...]]
) -> tuple[int, ...]:
    """Parts as their first work that can be begun stands; those of which nothing can be begun come after."""
    places = {key: place for place, key in enumerate(work)}
    ready = {node.key for node in graph.ready}

    def place(part_id: int) -> tuple[bool, int]:
        can = [places[key] for key in making[part_id] if key in ready and key in places]
        return not can, min(can or [places.get(key, len(places)) for key in making[part_id]] or [len(places)])

    return tuple(sorted(making, key=place))


@dataclass(slots=True)
class _Weighing:
    """One longest way, timed anew without some of its work."""

    graph: WorkGraph
    timed: Timed[int]
    by_key: Mapping[int, Node]
    days: float
    _on_it: frozenset[int] = field(init=False)
    _ends: dict[tuple[int, ...], float] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self._on_it = frozenset(self.timed.path)

    def weigh(self, sets: Iterable[tuple[int, ...]]) -> None:
        """Time the finish without each set of work; off the longest way nothing is won."""
        timed, network = self.timed, self.timed.network
        place, slack = network.place, timed.slack
        own = [
            (keys, [place[key] for key in keys if key in place])
            for keys in sets
            if not self._on_it.isdisjoint(keys)
        ]
        line = [(keys, gone) for keys, gone in own if network.in_line(gone)]
        ends = network.ends_without_one([gone for _, gone in line], timed.lasting, timed.finish, slack)
        self._ends = {keys: end for (keys, _), end in zip(line, ends, strict=True)}
        latest = sorted(range(len(timed.finish)), key=timed.finish.__getitem__, reverse=True)
        for keys, gone in own:
            if keys not in self._ends:
                self._ends[keys] = network.end_without(timed.finish, timed.lasting, gone, latest, slack)

    def gain(self, keys: tuple[int, ...]) -> Gain:
        """What all of some work is good for."""
        freed, behind = self.graph.counts(keys)
        end = self.timed.end
        won = (end - self._ends.get(keys, end)) * self.days
        on_it = not self._on_it.isdisjoint(keys)
        work, wait = 0.0, 0.0
        for key in keys:
            node = self.by_key.get(key)
            if node is not None and node.elapsed:
                wait += node.points.likely
            elif node is not None:
                work += node.points.likely
        return Gain(won, on_it, freed, behind, work, wait)

    def gain_of_one(self, keys: tuple[int, ...]) -> Gain:
        """As ``gain``; of thousands most are one step off the longest way."""
        if len(keys) > 1 or keys[0] in self._on_it:
            return self.gain(keys)
        freed, behind = self.graph.frame.counts_of(keys[0])
        node = self.by_key[keys[0]]
        likely = node.points.likely
        return Gain(0.0, False, freed, behind, *((0.0, likely) if node.elapsed else (likely, 0.0)))

    def within(self, of_part: Gain, key: int) -> Gain:
        """What some work for a part is good for: the days of the whole part, and what waits for this very work."""
        freed, behind = self.graph.frame.counts_of(key)
        return Gain(of_part.days, of_part.critical, freed, behind, of_part.work_min, of_part.wait_min)
