"""What runs beside the bench work, as three-point waits from now: deliveries, work sent out, cures under way."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection

from rebuild.trade.schedule.pert import ThreePoint
from rebuild.work.waiting.rows import arrivals
from rebuild.work.waiting.rows_clocks import holds

#: The tables the lookups here ask.
READS = frozenset({"clock", "joint", "part", "task", "waiting"})

_DAY = 24 * 60.0


@dataclass(frozen=True, slots=True)
class Coming:
    """One thing under way and not there yet: what follows its step waits for it."""

    what: str
    task_id: int | None
    part_id: int | None
    points: ThreePoint


@dataclass(frozen=True, slots=True)
class LeadTimes:
    """Lead times said of steps and parts, and what is under way [minutes elapsed]."""

    by_task: dict[int, ThreePoint]
    by_part: dict[int, ThreePoint]
    coming: tuple[Coming, ...]

    def of(self, task_id: int, part_id: int | None) -> ThreePoint | None:
        """The lead time said for a step, or for its part."""
        return self.by_task.get(task_id) or self.by_part.get(part_id or 0)


def lead_times(connection: Connection, machine_id: int, now: dt.datetime) -> LeadTimes:
    """Open orders, quotes, work sent out and running cures of a machine, from ``now`` on."""
    by_task: dict[int, ThreePoint] = {}
    by_part: dict[int, ThreePoint] = {}
    coming = []
    for one in arrivals(connection, machine_id, now):
        low, likely, high = sorted((one.low_days, one.likely_days, one.high_days))
        points = ThreePoint(*(max(0.0, days) * _DAY for days in (low, likely, high)))
        if one.task_id is not None:
            by_task[one.task_id] = points
        elif one.part_id is not None:
            by_part[one.part_id] = points
        if one.ordered:
            coming.append(Coming(f"delivery: {one.what}", one.task_id, one.part_id, points))
    for hold in holds(connection, machine_id, now):
        left = (hold.until - now).total_seconds() / 60
        coming.append(Coming(hold.words, hold.task_id, None, ThreePoint(left, left, left)))
    return LeadTimes(by_task, by_part, tuple(coming))
