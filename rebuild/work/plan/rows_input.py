"""What a plan is worked out from: open steps with three-point durations, waits, what is on order, the week.

Read at one moment into frozen values, fit for another thread.
"""

from __future__ import annotations

import datetime as dt

from sqlalchemy import Connection, select

from rebuild.errors import BadEntry
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.steps import Links, TaskConstraints, Tasks
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.plan_input import PlanInput, PlanStep
from rebuild.trade.sizes.amounts import parse_minutes
from rebuild.words.decisions import Decision
from rebuild.words.steps import ConstraintKind, TaskKind, TaskState
from rebuild.work.plan.rows_lead_times import LeadTimes, lead_times
from rebuild.work.plan.rows_week import week_of

#: The tables the lookups here ask.
READS = frozenset({
    "clock", "day_off", "joint", "link", "part", "task", "task_constraint", "waiting", "work_spell",
})  # fmt: skip

OPEN = (TaskState.OPEN, TaskState.UNDER_WAY)
#: Steps that set off a wait. An estimate of more than a day is the wait itself; a shorter one is the ordering.
ELAPSED = (TaskKind.BUY, TaskKind.SEND_OUT)
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


def plan_input(connection: Connection, machine_id: int, now: dt.datetime | None = None) -> PlanInput:
    """Read a machine's open steps, their links, what is on order, its parts to make, and the week."""
    needs = _constraints(connection, machine_id)
    leads = lead_times(connection, machine_id, now or dt.datetime.now())  # noqa: DTZ005 - the shop's wall clock
    table = Tasks.clause()
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
        passing = _passing(step, mine.get(ConstraintKind.CURE, 0.0), leads.of(step.key, step.part_id))
        if passing is not None:
            after[row.id] = passing.key
            steps.append(passing)
    links = connection.execute(
        select(Links.before_id, Links.after_id)
        .join(Tasks, Tasks.id == Links.after_id)
        .where(Tasks.machine_id == machine_id)
    ).all()
    pairs = [(after.get(before, before), later) for before, later in links] + list(after.items())
    on_order, held = _on_order(leads, steps, [(row.before_id, row.after_id) for row in links])
    parts = {
        row.id: (f"{row.code} {row.name}".strip(), row.decision)
        for row in connection.execute(
            select(Parts.id, Parts.code, Parts.name, Parts.decision).where(
                Parts.machine_id == machine_id, Parts.decision.in_(TO_MAKE)
            )
        )
    }
    week, is_set = week_of(connection)
    return PlanInput((*steps, *on_order), (*pairs, *held), parts, week, is_set)


def _passing(step: PlanStep, rest: float, lead: ThreePoint | None) -> PlanStep | None:
    """What must pass after a step before the next can begin: its rest, or the delivery it sets off."""
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
    for number, order in enumerate(leads.coming):
        if order.task_id in still_open:
            continue
        behind = [later for before, later in links if before == order.task_id and later in still_open]
        if not behind:
            behind = [
                step.key
                for step in steps
                if step.part_id is not None and step.part_id == order.part_id and step.kind is TaskKind.REFIT
            ]
        key = ORDER_KEYS - number
        if behind:
            found.append(
                PlanStep(
                    key,
                    order.what,
                    TaskKind.BUY,
                    True,
                    None,
                    order.part_id,
                    order.points,
                    False,
                    True,
                    "",
                    frozenset(),
                    order.task_id,
                )
            )
            held += [(key, later) for later in behind]
    return found, held


def _constraints(connection: Connection, machine_id: int) -> dict[int, dict[ConstraintKind, float]]:
    """What each step asks for, with the rest it needs [minutes]."""
    found: dict[int, dict[ConstraintKind, float]] = {}
    rows = connection.execute(
        select(
            TaskConstraints.task_id, TaskConstraints.kind, TaskConstraints.detail, TaskConstraints.rest_min
        )
        .join(Tasks, Tasks.id == TaskConstraints.task_id)
        .where(Tasks.machine_id == machine_id)
    )
    for row in rows:
        found.setdefault(row.task_id, {})[row.kind] = row.rest_min or _cure(row.detail)
    return found


def _step(row: object, needs: frozenset[ConstraintKind]) -> PlanStep:
    get = row._mapping.__getitem__  # type: ignore[attr-defined]
    kind: TaskKind = get("kind")
    points, assumed = _points(get("low_min"), get("likely_min"), get("high_min"), kind)
    elapsed = kind in ELAPSED and points.longest > _DAY
    return PlanStep(
        get("id"),
        get("title"),
        kind,
        get("state") is TaskState.UNDER_WAY,
        get("subassembly_id"),
        get("part_id"),
        points,
        assumed,
        elapsed,
        get("place"),
        needs,
    )


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
        -step.key,
        title,
        step.kind if step.kind in ELAPSED else TaskKind.OTHER,
        False,
        step.subassembly_id,
        step.part_id if step.kind in ELAPSED else None,
        points,
        assumed,
        True,
        "",
        frozenset(),
        step.key,
    )
