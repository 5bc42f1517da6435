"""The attempts on a machine: how much came off in each, and how much of it is on again."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.machines import Machines, Subassemblies
from rebuild.model.tables.refit import RefitSteps
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.teardown import Attempts, Removals
from rebuild.words.steps import TaskState

#: The tables the lookups here ask.
READS = frozenset({"attempt", "machine", "refit_step", "removal", "subassembly", "task"})


@dataclass(frozen=True, slots=True)
class AttemptRow:
    """One attempt on a subassembly, with how much came off and how much of it is on again."""

    id: int
    number: int
    subassembly_id: int | None
    of: str
    began_at: dt.datetime
    stopped_by: str
    changed: str
    removals: int
    drafted: int
    refitted: int


def attempts(connection: Connection, machine_id: int) -> list[AttemptRow]:
    """Every attempt on a machine, newest first."""
    rows = connection.execute(
        select(
            Attempts.id,
            Attempts.number,
            Attempts.subassembly_id,
            Attempts.began_at,
            Attempts.stopped_by,
            Attempts.changed,
            Subassemblies.code,
            Subassemblies.name,
            Machines.name.label("machine"),
        )
        .select_from(Attempts)
        .join(Machines, Machines.id == Attempts.machine_id)
        .outerjoin(Subassemblies, Subassemblies.id == Attempts.subassembly_id)
        .where(Attempts.machine_id == machine_id)
        .order_by(Attempts.began_at.desc(), Attempts.id.desc())
    ).all()
    counts = _counts(connection, machine_id)
    return [
        AttemptRow(
            row.id,
            row.number,
            row.subassembly_id,
            f"{row.code or ''} {row.name or ''}".strip() or row.machine,
            row.began_at,
            row.stopped_by,
            row.changed,
            *counts.get(row.id, (0, 0, 0)),
        )
        for row in rows
    ]


def _counts(connection: Connection, machine_id: int) -> dict[int, tuple[int, int, int]]:
    rows = connection.execute(
        select(Removals.attempt_id, RefitSteps.task_id, Tasks.state)
        .select_from(Removals)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .outerjoin(RefitSteps, RefitSteps.removal_id == Removals.id)
        .outerjoin(Tasks, Tasks.id == RefitSteps.task_id)
        .where(Attempts.machine_id == machine_id)
    )
    found: dict[int, tuple[int, int, int]] = {}
    for attempt_id, task_id, state in rows:
        off, drafted, done = found.get(attempt_id, (0, 0, 0))
        found[attempt_id] = (off + 1, drafted + (task_id is not None), done + (state is TaskState.DONE))
    return found


def current_attempt(connection: Connection, machine_id: int, subassembly_id: int | None) -> AttemptRow | None:
    """The newest attempt on a subassembly."""
    of_it = [row for row in attempts(connection, machine_id) if row.subassembly_id == subassembly_id]
    return max(of_it, key=lambda row: row.number, default=None)
