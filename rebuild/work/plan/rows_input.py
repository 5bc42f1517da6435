"""What a plan is worked out from: the open work of the graph, the rests and deliveries after it, the week.

Read at one moment into frozen values, fit for another thread.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace

from sqlalchemy import Connection

from rebuild.errors import BadEntry
from rebuild.trade.schedule.graph import Node, Ref
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.plan import critical_shares
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.trade.schedule.rank import Rank, rank
from rebuild.trade.schedule.unswept import unswept
from rebuild.trade.schedule.usual import LEAD
from rebuild.trade.schedule.week import Week
from rebuild.trade.sizes.amounts import parse_minutes
from rebuild.words.steps import ConstraintKind, TaskKind, TaskState
from rebuild.work.plan import rows_graph
from rebuild.work.plan.holds_in_work import lead_of
from rebuild.work.plan.laying import said_elsewhere
from rebuild.work.plan.making_of_parts import TO_MAKE
from rebuild.work.plan.nodes import ELAPSED
from rebuild.work.plan.rows_graph import Work, work_graph

#: The tables the lookups here ask.
READS = rows_graph.READS
#: So many steps are drawn two hundred times within a few hundredths of a second.
MOST_DRAWN = 600


def plan_input(connection: Connection, machine_id: int, now: dt.datetime | None = None) -> PlanInput:
    """A machine's open work with its ties, what is on order, its parts to make, and the week."""
    return planned(work_graph(connection, machine_id, now))


def planned(work: Work) -> PlanInput:
    """What the plan of some work is worked out from, worked out once."""
    if not work.planned:
        with unswept():
            work.planned.append(input_of(work, work.week, work.week_is_set, work.since))
    return work.planned[0]


def rank_of(work: Work) -> Rank:
    """The order in which every list offers some work."""
    return planned(work).rank


def critical_shares_of(work: Work) -> Mapping[int, float]:
    """How often each step drove the finish in simulated schedules, drawn once for some work.

    Of more than ``MOST_DRAWN`` steps nothing until ``draw`` was called, which may be on another thread.
    """
    if is_to_be_drawn(work):
        return {}
    draw(work)
    return work.drawn[0]


def is_to_be_drawn(work: Work) -> bool:
    """Whether the schedules are still to be drawn, and take longer than anyone should wait for."""
    return not work.drawn and len(planned(work).steps) > MOST_DRAWN


def draw(work: Work) -> None:
    """Draw the schedules of some work, unless they were; the same work gives the same shares on any thread."""
    if not work.drawn:
        work.drawn.append(critical_shares(planned(work), work.since))


def input_of(work: Work, week: Week, week_is_set: bool, now: dt.datetime) -> PlanInput:
    """What the plan of some work is worked out from."""
    graph = work.graph
    rests = _rests(work)
    leads = _leads(work, now)
    steps: list[Node] = []
    after: dict[int, int] = {}
    for node in graph.nodes:
        if not node.open:
            continue
        key = node.key
        if key < 0:
            if not said_elsewhere(node):
                steps.append(node)
            continue
        steps.append(node)
        lead = (leads.get(("task", key)) or leads.get(("part", node.part_id or 0))) if leads else None
        passing = _passing(node, rests.get(key, 0.0), lead)
        if passing is not None:
            after[key] = passing.key
            steps.append(passing)
    making = (
        {
            part_id: tuple([k for key in keys for k in ((key, after[key]) if key in after else (key,))])
            for part_id, keys in graph.making.items()
        }
        if after
        else graph.making
    )
    laid = graph.frame.network(tuple([step.key for step in steps]), lambda: _links(graph.links, after))
    given = PlanInput(
        tuple(steps),
        laid.links,
        {part.id: (part.called, part.decision) for part in work.facts.parts if part.decision in TO_MAKE},
        week,
        week_is_set,
        frozenset([node.key for node in graph.ready]),
        making,
    )
    given.laid.append(laid.network)
    timed = given.timed()
    ranked = replace(given, rank=rank(graph, given.steps, making, week, timed))
    ranked.laid.append(laid.network)
    ranked.times.append(timed)
    return ranked


def _links(links: tuple[tuple[int, int], ...], after: Mapping[int, int]) -> tuple[tuple[int, int], ...]:
    """What passes after a step comes between it and what follows it."""
    if not after:
        return links
    return (*((after.get(before, before), later) for before, later in links), *after.items())


def _rests(work: Work) -> dict[int, float]:
    """How long each step must rest before what follows it [minutes]."""
    return {
        need.task_id: need.rest_min or _cure(need.detail)
        for need in work.facts.needs
        if need.kind is ConstraintKind.CURE
    }


def _leads(work: Work, now: dt.datetime) -> dict[tuple[str, int], ThreePoint]:
    """Lead times said of a step, else of its part, that is not ordered yet."""
    found: dict[tuple[str, int], ThreePoint] = {}
    for order in work.facts.orders:
        points = lead_of(order, now) if order.arrived_at is None else None
        if points is not None and order.task_id is not None:
            found[("task", order.task_id)] = points
        elif points is not None and order.part_id is not None:
            found[("part", order.part_id)] = points
    return found


def _passing(step: Node, rest: float, lead: ThreePoint | None) -> Node | None:
    """What must pass after a step before the next can begin: its rest, or the delivery it sets off."""
    if rest:
        points = ThreePoint(rest, rest, rest)
        return _after(step, f"rest after “{step.title}”", points, assumed=False)
    if step.kind in ELAPSED and not step.elapsed:
        points = lead or LEAD[step.kind]
        return _after(step, f"delivery after “{step.title}”", points, assumed=lead is None)
    return None


def _cure(detail: str) -> float:
    try:
        return parse_minutes(detail) if detail.strip() else 0.0
    except BadEntry:
        return 0.0


def _after(step: Node, title: str, points: ThreePoint, *, assumed: bool) -> Node:
    return Node(
        -step.key,
        step.kind if step.kind in ELAPSED else TaskKind.OTHER,
        title,
        step.part_id if step.kind in ELAPSED else None,
        step.subassembly_id,
        TaskState.OPEN,
        points,
        assumed,
        True,
        Ref("task", step.key),
    )
