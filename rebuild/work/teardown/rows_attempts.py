"""The attempts on a machine: how much came off in each, and how much of it is on again."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.named import Attempt, Machine, RefitStep, Removal, Subassembly, Task
from rebuild.words.steps import TaskState


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
            Attempt.id, Attempt.number, Attempt.subassembly_id, Attempt.began_at, Attempt.stopped_by,
            Attempt.changed, Subassembly.code, Subassembly.name, Machine.name.label("machine"),
        )
        .select_from(Attempt)
        .join(Machine, Machine.id == Attempt.machine_id)
        .outerjoin(Subassembly, Subassembly.id == Attempt.subassembly_id)
        .where(Attempt.machine_id == machine_id)
        .order_by(Attempt.began_at.desc(), Attempt.id.desc())
    ).all()  # fmt: skip
    counts = _counts(connection, machine_id)
    return [
        AttemptRow(
            row.id, row.number, row.subassembly_id, f"{row.code or ''} {row.name or ''}".strip() or row.machine,
            row.began_at, row.stopped_by, row.changed, *counts.get(row.id, (0, 0, 0)),
        )
        for row in rows
    ]  # fmt: skip


def _counts(connection: Connection, machine_id: int) -> dict[int, tuple[int, int, int]]:
    rows = connection.execute(
        select(Removal.attempt_id, RefitStep.task_id, Task.state)
        .select_from(Removal)
        .join(Attempt, Attempt.id == Removal.attempt_id)
        .outerjoin(RefitStep, RefitStep.removal_id == Removal.id)
        .outerjoin(Task, Task.id == RefitStep.task_id)
        .where(Attempt.machine_id == machine_id)
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
