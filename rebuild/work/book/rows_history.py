"""How a rebuild went, month by month, and how far the file's journal reaches."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import Connection, select, text

from rebuild.model.tables.features import Features
from rebuild.model.tables.log import LogEntries
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Readings
from rebuild.model.tables.steps import Tasks
from rebuild.words.steps import TaskState

#: The tables the lookups here ask.
READS = frozenset({"act", "feature", "log_entry", "part", "reading", "task"})


@dataclass(frozen=True, slots=True)
class MonthLine:
    """What was done in one month (``2026-03``)."""

    month: str
    sessions: int
    hours: float
    readings: int
    decisions: int
    steps_done: int


@dataclass(frozen=True, slots=True)
class JournalSpan:
    """The journal of the whole file: how many acts, how many of them taken back, the first and the last."""

    acts: int
    taken_back: int
    first: dt.datetime | None
    last: dt.datetime | None


def months(connection: Connection, machine_id: int) -> tuple[MonthLine, ...]:
    """The months in which anything was done on a machine, in order."""
    log = connection.execute(
        select(LogEntries.at, LogEntries.hours).where(LogEntries.machine_id == machine_id)
    ).all()
    hours: dict[str, float] = {}
    for row in log:
        hours[_month(row.at)] = hours.get(_month(row.at), 0.0) + (row.hours or 0.0)
    sessions = _counted(row.at for row in log)
    readings = _counted(
        connection.execute(
            select(Readings.taken_at)
            .join(Features, Features.id == Readings.feature_id)
            .join(Parts, Parts.id == Features.part_id)
            .where(Parts.machine_id == machine_id)
        ).scalars()
    )
    decisions = _counted(
        connection.execute(select(Parts.decided_at).where(Parts.machine_id == machine_id)).scalars()
    )
    done = _counted(
        connection.execute(
            select(Tasks.done_at).where(Tasks.machine_id == machine_id, Tasks.state == TaskState.DONE)
        ).scalars()
    )
    named = sorted({*sessions, *readings, *decisions, *done})
    return tuple(
        MonthLine(
            month, sessions[month], hours.get(month, 0.0), readings[month], decisions[month], done[month]
        )
        for month in named
    )


def _month(at: dt.datetime) -> str:
    return f"{at:%Y-%m}"


def _counted(moments: Iterable[dt.datetime | None]) -> Counter[str]:
    return Counter(_month(at) for at in moments if at is not None)


def journal_span(connection: Connection) -> JournalSpan:
    """How far the journal of the file reaches."""
    row = connection.execute(
        text("SELECT COUNT(*), COALESCE(SUM(undone), 0), MIN(at), MAX(at) FROM act WHERE reverses IS NULL")
    ).one()
    first, last = (dt.datetime.fromisoformat(at) if at else None for at in (row[2], row[3]))
    return JournalSpan(int(row[0]), int(row[1]), first, last)
