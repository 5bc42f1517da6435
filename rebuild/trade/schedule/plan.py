"""The plan of one machine: dates, the critical path, chances, and what each part would save.

Plain computing on frozen values, fit for another thread.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple

from rebuild.trade.results.working import Sheet, Source, Status, Working
from rebuild.trade.schedule.cpm import Network, Times
from rebuild.trade.schedule.graph import Node, Ref
from rebuild.trade.schedule.hands import turns_of
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.trade.schedule.simulate import Finishes, in_hand_order, simulate
from rebuild.trade.schedule.unswept import unswept
from rebuild.trade.schedule.week import Clock
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.words.counted import counted
from rebuild.words.decisions import Decision

_RANK = Source("the longest way to the finish now and without it, hands aside", status=Status.JUDGEMENT)
_PERT = Source("Malcolm, Roseboom, Clark and Fazar 1959", "mean (a + 4m + b)/6", Status.PUBLISHED)


class Dated(NamedTuple):
    """One step on the calendar of one pair of hands. Made by thousands."""

    step: Node
    start: dt.datetime
    finish: dt.datetime
    times: Times

    @property
    def critical(self) -> bool:
        """Whether it lies on the critical path (hands aside)."""
        return self.times.critical


@dataclass(frozen=True, slots=True)
class Saving:
    """What having one part ready today would save: days as the rank has them, minutes the likely ones.

    ``finish`` is the date as planned, ``sooner`` the date if the part were there.
    """

    part_id: int
    name: str
    decision: Decision
    days: float
    frees: tuple[str, ...]
    work_min: float
    wait_min: float
    finish: dt.datetime
    sooner: dt.datetime
    working: Working


@dataclass(frozen=True, slots=True)
class Plan:
    """The dated plan: by durations at their means, one pair of hands, the owner's week."""

    start: dt.datetime
    finish: dt.datetime
    dated: tuple[Dated, ...]
    critical: tuple[int, ...]
    bench_minutes: float
    without_estimate: int
    week_is_set: bool


@dataclass(frozen=True, slots=True)
class Chances:
    """The finish as a distribution: dates by which a share of the draws is done, and what drives it."""

    by: tuple[tuple[float, dt.datetime], ...]
    weeks: tuple[tuple[dt.date, int], ...]
    drivers: tuple[tuple[str, float], ...]
    draws: int
    seed: int


def make_plan(given: PlanInput, now: dt.datetime) -> Plan:
    """Dates and critical path. Raises BrokenOrder when the links loop (they cannot by the acts)."""
    with unswept():
        return _make_plan(given, now)


def _make_plan(given: PlanInput, now: dt.datetime) -> Plan:
    turn = _Turns.of(given, now)
    timed = given.timed()
    times = timed.network.told(timed.start, timed.finish, timed.last_start, timed.last_finish)
    keys = timed.network.keys
    by_key = {step.key: step for step in given.steps}
    listed = sorted(turn.order, key=lambda at: (turn.starts[at], turn.ends[at]))
    starts = [turn.starts[at] for at in listed]
    dates = zip(turn.clock.dates(starts), turn.clock.begin_dates(starts), strict=True)
    finishes = turn.clock.dates([turn.ends[at] for at in listed])
    over = turn.waits_over()
    dated = [
        Dated(by_key[keys[at]], passing, over[at], times[at])
        if at in over
        else Dated(by_key[keys[at]], begun, finish, times[at])
        for at, (passing, begun), finish in zip(listed, dates, finishes, strict=True)
    ]
    return Plan(
        now,
        turn.finish(over),
        tuple(dated),
        timed.path,
        sum([minutes for key, minutes in turn.means.items() if key not in turn.waits]),
        sum([step.assumed for step in given.steps]),
        given.week_is_set,
    )


@dataclass(frozen=True, slots=True)
class _Turns:
    """Every step in turn on one pair of hands, by the mean durations; starts and ends in the network's order."""

    network: Network[int]
    means: dict[int, float]
    waits: frozenset[int]
    clock: Clock
    order: list[int]
    starts: list[float]
    ends: list[float]
    end: float

    @classmethod
    def of(cls, given: PlanInput, now: dt.datetime) -> _Turns:
        timed = given.timed()
        means = {step.key: step.points.mean for step in given.steps}
        waits = frozenset([step.key for step in given.steps if step.elapsed])
        clock = Clock(given.week, now, _days_needed(given, means))
        order = _order(given, means, clock)
        starts, ends = turns_of(timed.network, means, waits, clock, order)
        return cls(timed.network, means, waits, clock, order, starts, ends, max(ends, default=0.0))

    def without(self, keys: Collection[int]) -> _Turns:
        """The same turns, some of the work taken to last nothing."""
        means = {**self.means, **dict.fromkeys(keys, 0.0)}
        starts, ends = turns_of(self.network, means, self.waits, self.clock, self.order)
        return replace(self, means=means, starts=starts, ends=ends, end=max(ends, default=0.0))

    def waits_over(self) -> dict[int, dt.datetime]:
        """When each wait ends, by its place: at its own hour, not at the end of the evening before it."""
        at = [self.network.place[key] for key in self.waits]
        ends = self.clock.wait_dates(
            [self.starts[one] for one in at], [self.means[self.network.keys[one]] for one in at]
        )
        return dict(zip(at, ends, strict=True))

    def finish(self, over: Mapping[int, dt.datetime]) -> dt.datetime:
        """When all of it is done, waits (as of ``waits_over``) and work."""
        return max([self.clock.date(self.end), *over.values()])


def _order(given: PlanInput, means: Mapping[int, float], clock: Clock) -> list[int]:
    """In which order the places of the network are taken in hand."""
    timed = given.timed()
    network = timed.network
    waits = frozenset([network.place[step.key] for step in given.steps if step.elapsed])
    lasting = [means[key] for key in network.keys]
    return in_hand_order(network, lasting, waits, clock, timed.last_start, timed.start)


def _days_needed(given: PlanInput, means: dict[int, float]) -> int:
    work = sum([means[step.key] for step in given.steps if not step.elapsed])
    wait = sum([means[step.key] for step in given.steps if step.elapsed])
    return int(
        min(3650, work / max(1, given.week.minutes_a_week) * 7 + wait / 1440 + 30 + len(given.week.days_off))
    )


def savings(
    given: PlanInput, now: dt.datetime, part_ids: Collection[int] | None = None
) -> tuple[Saving, ...]:
    """What having each part ready today would save, of all parts to be had or of some: the finish without its work."""
    turn = _Turns.of(given, now)
    by_key = {step.key: step for step in given.steps}
    own = {
        part_id: tuple(key for key in keys if key in by_key)
        for part_id, keys in given.making.items()
        if part_id in given.parts and (part_ids is None or part_id in part_ids)
    }
    own = {part_id: keys for part_id, keys in own.items() if keys}
    end = turn.finish(turn.waits_over())
    found = []
    for part_id, keys in own.items():
        sooner = turn.without(keys)
        frees = _freed(turn.network, by_key, set(keys))
        moved = (end, sooner.finish(sooner.waits_over()))
        found.append(_saving(given, part_id, [by_key[key] for key in keys], frees, moved))
    return tuple(sorted(found, key=lambda saving: given.rank.place_of_part(saving.part_id)))


def _freed(network: Network[int], by_key: Mapping[int, Node], ready: set[int]) -> tuple[str, ...]:
    """What would be held by nothing any more."""
    places = {network.place[key] for key in ready}
    next_up = dict.fromkeys(after for at in sorted(places) for after in network.after[at])
    return tuple(
        by_key[network.keys[at]].title
        for at in next_up
        if at not in places and places.issuperset(network.before[at])
    )


def _saving(
    given: PlanInput,
    part_id: int,
    steps: list[Node],
    frees: tuple[str, ...],
    moved: tuple[dt.datetime, dt.datetime],
) -> Saving:
    name, decision = given.parts[part_id]
    end, earlier = moved
    gain = given.rank.gain_of_part(part_id)
    sheet = Sheet(f"What having {name} ready would save")
    for step in steps:
        points = step.points
        given_as = "assumed, no estimate" if step.assumed else "as estimated"
        spread = " / ".join(
            show_minutes(minutes) for minutes in (points.shortest, points.likely, points.longest)
        )
        sheet.read(step.title, f"{spread}, {given_as}")
        sheet.equation("mean", f"(a + 4m + b)/6 = {show_minutes(points.mean)}", _PERT)
    sheet.equation("finish as planned", f"{end:%Y-%m-%d}, one pair of hands, the owner's week")
    sheet.equation("finish if it were ready today", f"{earlier:%Y-%m-%d}")
    sheet.equation("steps freed at once", f"{len(frees)}: " + ("; ".join(frees) or "none"))
    sheet.result(
        "saves", f"{gain.days:.1f} days on the longest way and frees {counted(len(frees), 'step')}", _RANK
    )
    return Saving(
        part_id, name, decision, gain.days, frees, gain.work_min, gain.wait_min, end, earlier, sheet.close()
    )


def chances(given: PlanInput, now: dt.datetime, *, draws: int = 2000, seed: int = 1) -> Chances:
    """The finish drawn many times from the three-point durations; for a worker thread."""
    network = given.network()
    points = {step.key: step.points for step in given.steps}
    waits = frozenset(step.key for step in given.steps if step.elapsed)
    clock = Clock(given.week, now, _days_needed(given, {key: p.longest for key, p in points.items()}))
    order = _order(given, {key: point.mean for key, point in points.items()}, clock)
    drawn = simulate(
        network, points, draws=draws, seed=seed, waits=waits, clock=clock, one_pair_of_hands=True, order=order
    )
    return Chances(
        tuple((share, clock.date(drawn.by(share))) for share in (0.1, 0.5, 0.8, 0.95)) if draws else (),
        _by_week(drawn, clock),
        tuple((one.name, one.share) for one in drivers(given, critical_shares(given, now))),
        draws,
        seed,
    )


def critical_shares(
    given: PlanInput, now: dt.datetime, *, draws: int = 200, seed: int = 1
) -> Mapping[int, float]:
    """In which share of schedules drawn from the three-point durations each step drove the finish, hands aside.

    >>> from rebuild.trade.schedule.week import Week
    >>> critical_shares(PlanInput((), (), {}, Week(()), False), dt.datetime(2026, 3, 14))
    {}
    """
    if not given.steps:
        return {}
    points = {step.key: step.points for step in given.steps}
    waits = frozenset(step.key for step in given.steps if step.elapsed)
    clock = Clock(given.week, now, _days_needed(given, {key: p.longest for key, p in points.items()}))
    network = given.network()
    return simulate(network, points, draws=draws, seed=seed, waits=waits, clock=clock).driven_by


def _by_week(drawn: Finishes[int], clock: Clock) -> tuple[tuple[dt.date, int], ...]:
    counts: dict[dt.date, int] = {}
    for minutes in drawn.finishes:
        day = clock.date(float(minutes)).date()
        monday = day - dt.timedelta(days=day.weekday())
        counts[monday] = counts.get(monday, 0) + 1
    return tuple(sorted(counts.items()))


@dataclass(frozen=True, slots=True)
class Driver:
    """What drives the finish: a wait or a part to be had, its row, in which share of the schedules drawn."""

    name: str
    share: float
    ref: Ref


def drivers(given: PlanInput, shares: Mapping[int, float]) -> tuple[Driver, ...]:
    """Waits, and parts to make, by how often they lie on the longest path (hands aside), the most often first.

    ``shares`` are those of ``critical_shares``: every page that says what drives the finish asks here.
    """
    found: dict[str, Driver] = {}
    for step in given.steps:
        share = shares.get(step.key, 0.0)
        part = given.parts.get(step.part_id or 0)
        if share <= 0 or not (step.elapsed or part is not None):
            continue
        name = part[0] if part is not None else step.title
        ref = Ref("part", step.part_id) if part is not None and step.part_id is not None else step.ref
        if name not in found or found[name].share < share:
            found[name] = Driver(name, share, ref)
    return tuple(sorted(found.values(), key=lambda one: -one.share))[:12]


def finish_of(given: PlanInput, now: dt.datetime) -> dt.datetime:
    """When the open work is finished by the mean durations: the date ``make_plan`` gives, and no more worked out."""
    turn = _Turns.of(given, now)
    return turn.finish(turn.waits_over())
