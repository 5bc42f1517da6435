"""Stretches of a plan in which nothing is done at the bench, and what all of it waits for."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from rebuild.trade.schedule.plan import Plan

#: A stretch longer than this is said; common practice, no source.
LONG = dt.timedelta(days=14)


@dataclass(frozen=True, slots=True)
class Idle:
    """No work from ``since`` to ``until``; ``ended_by`` is what ends last within, empty where there are no hours."""

    since: dt.datetime
    until: dt.datetime
    ended_by: str


def idle_in(plan: Plan) -> tuple[Idle, ...]:
    """Each stretch of more than two weeks without work, before the first and between two steps.

    What only waits is no work. The hands are idle only while nothing can be begun, so the wait that ends last in the
    stretch ends it; where it ended long before, the week has no hours.
    """
    work = sorted((row.start, row.finish) for row in plan.dated if not row.step.elapsed)
    waits = sorted((row.finish, row.step.title) for row in plan.dated if row.step.elapsed)
    found = []
    free = plan.start
    for start, finish in work:
        if start - free > LONG:
            ended = [title for ends, title in waits if max(free, start - LONG) < ends <= start]
            found.append(Idle(free, start, ended[-1] if ended else ""))
        free = max(free, finish)
    return tuple(found)
