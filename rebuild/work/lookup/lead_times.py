"""What is on order or out at a shop, as three-point waits from now."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, Row, select

from rebuild.model.all import Waiting
from rebuild.model.enums import WaitingKind
from rebuild.trade.schedule.pert import ThreePoint

_DAY = 24 * 60.0
#: A promised date slips more often than it comes early: shortest, likely and longest against the days left.
EARLY, LATE = 0.8, 1.5


@dataclass(frozen=True, slots=True)
class Coming:
    """One thing ordered and not there yet."""

    id: int
    what: str
    task_id: int | None
    part_id: int | None
    points: ThreePoint


@dataclass(frozen=True, slots=True)
class LeadTimes:
    """Lead times said of steps and parts, and what is under way."""

    by_task: dict[int, ThreePoint]
    by_part: dict[int, ThreePoint]
    coming: tuple[Coming, ...]

    def of(self, task_id: int, part_id: int | None) -> ThreePoint | None:
        """The lead time said for a step, or for its part."""
        return self.by_task.get(task_id) or self.by_part.get(part_id or 0)


def lead_times(connection: Connection, machine_id: int, now: dt.datetime) -> LeadTimes:
    """Read the open orders, quotes and work sent out of a machine."""
    rows = connection.execute(
        select(Waiting.__table__).where(
            Waiting.machine_id == machine_id,
            Waiting.arrived_at.is_(None),
            Waiting.kind.in_([WaitingKind.ORDER, WaitingKind.SENT_OUT, WaitingKind.QUOTE]),
        )
    ).all()
    by_task: dict[int, ThreePoint] = {}
    by_part: dict[int, ThreePoint] = {}
    coming = []
    for row in rows:
        points = _points(row, now)
        if points is None:
            continue
        if row.task_id is not None:
            by_task[row.task_id] = points
        elif row.part_id is not None:
            by_part[row.part_id] = points
        if row.ordered_at is not None:
            coming.append(Coming(row.id, row.what, row.task_id, row.part_id, points))
    return LeadTimes(by_task, by_part, tuple(coming))


def _points(row: Row[tuple[object, ...]], now: dt.datetime) -> ThreePoint | None:
    """Days left by the promise, else by the lead days said; None when neither is there."""
    ordered: dt.datetime | None = row.ordered_at
    promised: dt.datetime | None = row.promised_at
    if promised is not None:
        left = max(_DAY, (promised - now).total_seconds() / 60)
        return ThreePoint(left * EARLY, left, left * LATE)
    said = [
        days for days in (row.lead_low_days, row.lead_likely_days, row.lead_high_days) if days is not None
    ]
    if not said:
        return None
    gone = (now - ordered).total_seconds() / 86_400 if ordered is not None else 0.0
    least, most = min(said), max(said)
    middle = row.lead_likely_days if row.lead_likely_days is not None else (least + most) / 2
    return ThreePoint(*(max(1.0, days - gone) * _DAY for days in sorted((least, middle, most))))
