"""The plan of one machine: steps with three-point durations, waits, dates, and what each part would save.

``plan_input`` reads; everything after it is plain computing on frozen values, fit for another thread.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.errors import BadEntry
from rebuild.model.all import Link, Part, Task, TaskConstraint
from rebuild.model.enums import ConstraintKind, Decision, TaskKind, TaskState
from rebuild.trade.amounts import parse_minutes, show_minutes
from rebuild.trade.network import freed_by
from rebuild.trade.schedule.cpm import Network, Times
from rebuild.trade.schedule.hands import in_turn, turn_of_work
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.simulate import Finishes, simulate
from rebuild.trade.schedule.week import Clock, Week
from rebuild.trade.working import Sheet, Source, Status, Working
from rebuild.work.lookup.lead_times import LeadTimes, lead_times
from rebuild.work.week import week_of

OPEN = (TaskState.OPEN, TaskState.UNDER_WAY)
#: Steps that set off a wait. An estimate of more than a day is the wait itself; a shorter one is the ordering.
ELAPSED = (TaskKind.BUY, TaskKind.SEND_OUT)
MAKING = (TaskKind.MAKE, TaskKind.BUY, TaskKind.REWORK, TaskKind.SEND_OUT)
TO_MAKE = (Decision.REMAKE, Decision.REWORK, Decision.BUY)
_WEEK = 7 * 24 * 60.0
#: Keys of deliveries lie below this, clear of the steps' own.
ORDER_KEYS = -1_000_000_000
_DAY = 24 * 60.0
#: How long what is ordered or sent out takes when nobody has said [minutes elapsed].
_LEAD = {
    TaskKind.BUY: ThreePoint(0.5 * _WEEK, 2 * _WEEK, 6 * _WEEK),
    TaskKind.SEND_OUT: ThreePoint(2 * _WEEK, 4 * _WEEK, 12 * _WEEK),
}
#: Taken where a step has no estimate, by kind [minutes]; the page says which steps have none.
_ASSUMED = {
    TaskKind.BUY: ThreePoint(10, 20, 60),
    TaskKind.SEND_OUT: ThreePoint(15, 30, 60),
    TaskKind.MAKE: ThreePoint(60, 180, 480),
    TaskKind.REWORK: ThreePoint(45, 120, 360),
    TaskKind.PAINT: ThreePoint(60, 120, 300),
}
_ASSUMED_ELSE = ThreePoint(15, 45, 120)
_RANK = Source("days the finish moves up if it were done today, then steps freed", status=Status.JUDGEMENT)
_PERT = Source("Malcolm, Roseboom, Clark and Fazar 1959", "mean (a + 4m + b)/6", Status.PUBLISHED)


@dataclass(frozen=True, slots=True)
class PlanStep:
    """One open step, or what must pass after one (``cure_of``): a rest, or a delivery."""

    key: int
    title: str
    kind: TaskKind
    under_way: bool
    subassembly_id: int | None
    part_id: int | None
    points: ThreePoint
    assumed: bool
    elapsed: bool
    place: str
    needs: frozenset[ConstraintKind]
    cure_of: int | None = None


@dataclass(frozen=True, slots=True)
class PlanInput:
    """All that the plan is worked out from."""

    steps: tuple[PlanStep, ...]
    links: tuple[tuple[int, int], ...]
    parts: dict[int, tuple[str, Decision]]
    week: Week
    week_is_set: bool


@dataclass(frozen=True, slots=True)
class Dated:
    """One step on the calendar of one pair of hands."""

    step: PlanStep
    start: dt.datetime
    finish: dt.datetime
    times: Times

    @property
    def critical(self) -> bool:
        """Whether it lies on the critical path (hands aside)."""
        return self.times.critical


@dataclass(frozen=True, slots=True)
class Saving:
    """What having one part ready today would save."""

    part_id: int
    name: str
    decision: Decision
    days: float
    frees: tuple[str, ...]
    work_min: float
    wait_min: float
    working: Working


@dataclass(frozen=True, slots=True)
class Plan:
    """The dated plan: by durations at their means, one pair of hands, the owner's week."""

    start: dt.datetime
    finish: dt.datetime
    dated: tuple[Dated, ...]
    critical: tuple[int, ...]
    savings: tuple[Saving, ...]
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


def plan_input(connection: Connection, machine_id: int, now: dt.datetime | None = None) -> PlanInput:
    """Read a machine's open steps, their links, what is on order, its parts to make, and the week."""
    needs = _constraints(connection, machine_id)
    leads = lead_times(connection, machine_id, now or dt.datetime.now())  # noqa: DTZ005 - the shop's wall clock
    table = Task.__table__
    rows = connection.execute(
        select(table)
        .where(table.c.machine_id == machine_id, table.c.state.in_(OPEN))
        .order_by(table.c.position)
    ).all()
    steps: list[PlanStep] = []
    after: dict[int, int] = {}
    for row in rows:
        mine = needs.get(row.id, {})
        step = _step(row, frozenset(mine))
        steps.append(step)
        passing = _passing(step, mine.get(ConstraintKind.CURE, ""), leads.of(step.key, step.part_id))
        if passing is not None:
            after[row.id] = passing.key
            steps.append(passing)
    links = connection.execute(
        select(Link.before_id, Link.after_id)
        .join(Task, Task.id == Link.after_id)
        .where(Task.machine_id == machine_id)
    ).all()
    pairs = [(after.get(before, before), later) for before, later in links] + list(after.items())
    on_order, held = _on_order(leads, steps, [(row.before_id, row.after_id) for row in links])
    parts = {
        row.id: (f"{row.code} {row.name}".strip(), row.decision)
        for row in connection.execute(
            select(Part.id, Part.code, Part.name, Part.decision).where(
                Part.machine_id == machine_id, Part.decision.in_(TO_MAKE)
            )
        )
    }
    week, is_set = week_of(connection)
    return PlanInput((*steps, *on_order), (*pairs, *held), parts, week, is_set)


def _passing(step: PlanStep, cure: str, lead: ThreePoint | None) -> PlanStep | None:
    """What must pass after a step before the next can begin: its rest, or the delivery it sets off."""
    rest = _cure(cure)
    if rest:
        return _after(step, f"rest after “{step.title}”", ThreePoint(rest, rest, rest), assumed=False)
    if step.kind in ELAPSED and not step.elapsed:
        points = lead or _LEAD[step.kind]
        return _after(step, f"delivery after “{step.title}”", points, assumed=lead is None)
    return None


def _on_order(
    leads: LeadTimes, steps: list[PlanStep], links: list[tuple[int, int]]
) -> tuple[list[PlanStep], list[tuple[int, int]]]:
    """Deliveries of what is ordered already: each holds what follows its step, or the refit of its part."""
    still_open = {step.key for step in steps}
    found: list[PlanStep] = []
    held: list[tuple[int, int]] = []
    for order in leads.coming:
        if order.task_id in still_open:
            continue
        behind = [later for before, later in links if before == order.task_id and later in still_open]
        if not behind:
            behind = [
                step.key for step in steps
                if step.part_id is not None and step.part_id == order.part_id and step.kind is TaskKind.REFIT
            ]  # fmt: skip
        key = ORDER_KEYS - order.id
        if behind:
            found.append(
                PlanStep(key, f"delivery: {order.what}", TaskKind.BUY, True, None, order.part_id, order.points,
                         False, True, "", frozenset(), order.task_id)
            )  # fmt: skip
            held += [(key, later) for later in behind]
    return found, held


def _constraints(connection: Connection, machine_id: int) -> dict[int, dict[ConstraintKind, str]]:
    found: dict[int, dict[ConstraintKind, str]] = {}
    rows = connection.execute(
        select(TaskConstraint.task_id, TaskConstraint.kind, TaskConstraint.detail)
        .join(Task, Task.id == TaskConstraint.task_id)
        .where(Task.machine_id == machine_id)
    )
    for row in rows:
        found.setdefault(row.task_id, {})[row.kind] = row.detail
    return found


def _step(row: object, needs: frozenset[ConstraintKind]) -> PlanStep:
    get = row._mapping.__getitem__  # type: ignore[attr-defined]
    kind: TaskKind = get("kind")
    points, assumed = _points(get("low_min"), get("likely_min"), get("high_min"), kind)
    elapsed = kind in ELAPSED and points.longest > _DAY
    return PlanStep(
        get("id"), get("title"), kind, get("state") is TaskState.UNDER_WAY, get("subassembly_id"), get("part_id"),
        points, assumed, elapsed, get("place"), needs,
    )  # fmt: skip


def _points(
    low: float | None, likely: float | None, high: float | None, kind: TaskKind
) -> tuple[ThreePoint, bool]:
    """Three points from what is given; one figure alone is spread half below, double above."""
    if likely is None and low is None and high is None:
        return _ASSUMED.get(kind, _ASSUMED_ELSE), True
    middle = next(value for value in (likely, low, high) if value is not None)
    if likely is None and low is not None and high is not None:
        middle = (low + high) / 2
    least = middle / 2 if low is None else low
    most = middle * 2 if high is None else high
    return ThreePoint(min(least, middle), middle, max(most, middle)), False


def _cure(detail: str) -> float:
    try:
        return parse_minutes(detail) if detail.strip() else 0.0
    except BadEntry:
        return 0.0


def _after(step: PlanStep, title: str, points: ThreePoint, *, assumed: bool) -> PlanStep:
    return PlanStep(
        -step.key, title, step.kind if step.kind in ELAPSED else TaskKind.OTHER, False, step.subassembly_id,
        step.part_id if step.kind in ELAPSED else None, points, assumed, True, "", frozenset(), step.key,
    )  # fmt: skip


def make_plan(given: PlanInput, now: dt.datetime) -> Plan:
    """Dates, critical path and savings. Raises BrokenOrder when the links loop (they cannot by the acts)."""
    network = Network([step.key for step in given.steps], given.links)
    means = {step.key: step.points.mean for step in given.steps}
    waits = frozenset(step.key for step in given.steps if step.elapsed)
    clock = Clock(given.week, now, _days_needed(given, means))
    order = turn_of_work(network, _in_bench(means, waits, given.week))
    turns = in_turn(network, means, waits, clock, order)
    times = network.times(_in_bench(means, waits, given.week))
    end = max((finish for _, finish in turns.values()), default=0.0)
    by_key = {step.key: step for step in given.steps}
    dated = [
        Dated(
            by_key[key],
            clock.date(start) if key in waits else clock.begin_date(start),
            clock.date(finish),
            times[key],
        )
        for key, (start, finish) in sorted(turns.items(), key=lambda item: item[1])
    ]

    def finish_without(ready: set[int]) -> float:
        without = {key: 0.0 if key in ready else minutes for key, minutes in means.items()}
        return max(
            (finish for _, finish in in_turn(network, without, waits, clock, order).values()), default=0.0
        )

    return Plan(
        now,
        clock.date(end),
        tuple(dated),
        network.critical_path(_in_bench(means, waits, given.week)),
        _savings(given, finish_without, clock, end),
        sum(minutes for key, minutes in means.items() if key not in waits),
        sum(step.assumed for step in given.steps),
        given.week_is_set,
    )


def _in_bench(means: dict[int, float], waits: frozenset[int], week: Week) -> dict[int, float]:
    """Waits as the bench minutes that pass meanwhile on average, so that paths can be compared."""
    share = week.minutes_a_week / _WEEK
    return {key: minutes * share if key in waits else minutes for key, minutes in means.items()}


def _days_needed(given: PlanInput, means: dict[int, float]) -> int:
    work = sum(means[step.key] for step in given.steps if not step.elapsed)
    wait = sum(means[step.key] for step in given.steps if step.elapsed)
    return int(min(3650, work / max(1, given.week.minutes_a_week) * 7 + wait / 1440 + 30))


def _savings(
    given: PlanInput, finish_without: Callable[[set[int]], float], clock: Clock, end: float
) -> tuple[Saving, ...]:
    keys = [step.key for step in given.steps]
    titles = {step.key: step.title for step in given.steps}
    own: dict[int, list[PlanStep]] = {}
    for step in given.steps:
        if step.part_id in given.parts and step.kind in MAKING:
            own.setdefault(step.part_id or 0, []).append(step)
    found = []
    for part_id, steps in own.items():
        ready = {step.key for step in steps}
        earlier = finish_without(ready)
        days = (clock.to_elapsed(end) - clock.to_elapsed(earlier)) / 1440
        frees = tuple(titles[key] for key in sorted(freed_by(ready, keys, given.links)))
        found.append(_saving(given, part_id, steps, frees, (days, clock.date(end), clock.date(earlier))))
    return tuple(
        sorted(found, key=lambda saving: (-round(saving.days, 2), -len(saving.frees), saving.work_min))
    )


def _saving(
    given: PlanInput,
    part_id: int,
    steps: list[PlanStep],
    frees: tuple[str, ...],
    moved: tuple[float, dt.datetime, dt.datetime],
) -> Saving:
    name, decision = given.parts[part_id]
    days, end, earlier = moved
    work = sum(step.points.mean for step in steps if not step.elapsed)
    wait = sum(step.points.mean for step in steps if step.elapsed)
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
    sheet.result("saves", f"{days:.1f} days and frees {len(frees)} steps", _RANK)
    return Saving(part_id, name, decision, days, frees, work, wait, sheet.close())


def chances(given: PlanInput, now: dt.datetime, *, draws: int = 2000, seed: int = 1) -> Chances:
    """The finish drawn many times from the three-point durations; for a worker thread."""
    network = Network([step.key for step in given.steps], given.links)
    points = {step.key: step.points for step in given.steps}
    waits = frozenset(step.key for step in given.steps if step.elapsed)
    clock = Clock(given.week, now, _days_needed(given, {key: p.longest for key, p in points.items()}))
    drawn = simulate(
        network, points, draws=draws, seed=seed, waits=waits, clock=clock, one_pair_of_hands=True
    )
    paths = simulate(network, points, draws=min(draws, 1000), seed=seed, waits=waits, clock=clock)
    return Chances(
        tuple((share, clock.date(drawn.by(share))) for share in (0.1, 0.5, 0.8, 0.95)) if draws else (),
        _by_week(drawn, clock),
        _drivers(given, paths),
        draws,
        seed,
    )


def _by_week(drawn: Finishes[int], clock: Clock) -> tuple[tuple[dt.date, int], ...]:
    counts: dict[dt.date, int] = {}
    for minutes in drawn.finishes:
        day = clock.date(float(minutes)).date()
        monday = day - dt.timedelta(days=day.weekday())
        counts[monday] = counts.get(monday, 0) + 1
    return tuple(sorted(counts.items()))


def _drivers(given: PlanInput, drawn: Finishes[int]) -> tuple[tuple[str, float], ...]:
    """What drives the finish: waits, and parts to make, by how often they lie on the longest path (hands aside)."""
    shares: dict[str, float] = {}
    for step in given.steps:
        share = drawn.driven_by.get(step.key, 0.0)
        part = given.parts.get(step.part_id or 0)
        name = part[0] if part is not None else step.title
        if step.elapsed or part is not None:
            shares[name] = max(shares.get(name, 0.0), share)
    ranked = sorted(shares.items(), key=lambda item: -item[1])
    return tuple((name, share) for name, share in ranked if share > 0)[:12]


@dataclass(frozen=True, slots=True)
class Tonight:
    """What the evening offers: how long, where, warm or cold, alone or not."""

    minutes: float = 30
    place: str = ""
    warm: bool = True
    helper: bool = False


def fits_tonight(given: PlanInput, tonight: Tonight) -> list[PlanStep]:
    """Steps that can start now and fit the evening, those that fill it best first."""
    waiting = {after for before, after in given.links if before in {step.key for step in given.steps}}
    found = [
        step
        for step in given.steps
        if step.key not in waiting and not step.elapsed and step.cure_of is None and _suits(step, tonight)
    ]
    return sorted(found, key=lambda step: (not step.under_way, -step.points.likely))


def _suits(step: PlanStep, tonight: Tonight) -> bool:
    if step.points.likely > tonight.minutes:
        return False
    if tonight.place and step.place and tonight.place.lower() not in step.place.lower():
        return False
    if ConstraintKind.WARMTH in step.needs and not tonight.warm:
        return False
    return tonight.helper or ConstraintKind.TWO_PEOPLE not in step.needs
