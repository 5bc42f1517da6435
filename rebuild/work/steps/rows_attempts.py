"""The earlier attempts at a step: what was noted each time, and why it was opened again."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.steps import StepAttempts, Tasks
from rebuild.work.records.field import show_day

#: The tables the lookups here ask.
READS = frozenset({"step_attempt", "task"})


@dataclass(frozen=True, slots=True)
class StepAttemptRow:
    """One time a step was done and opened again."""

    id: int
    task_id: int
    title: str
    number: int
    done_at: dt.datetime | None
    measured: str
    torque: str
    note: str
    joints: str
    opened_at: dt.datetime
    reason: str

    @property
    def words(self) -> str:
        """In one line: when, what was noted, why it did not stand."""
        done = f"done {show_day(self.done_at)}" if self.done_at else "done"
        noted = [
            done,
            f"measured {self.measured}" if self.measured else "",
            f"torqued {self.torque}" if self.torque else "",
            self.joints,
            self.note,
        ]
        said = ", ".join(filter(None, noted))
        return f"attempt {self.number}: {said}; opened {show_day(self.opened_at)}: {self.reason}"


def step_attempts(connection: Connection, machine_id: int) -> list[StepAttemptRow]:
    """Every earlier attempt at the steps of a machine, by step, oldest first."""
    rows = connection.execute(
        select(*StepAttempts.columns(), Tasks.title.label("title"))
        .join(Tasks, Tasks.id == StepAttempts.task_id)
        .where(Tasks.machine_id == machine_id)
        .order_by(Tasks.position, StepAttempts.task_id, StepAttempts.number)
    )
    return [
        StepAttemptRow(
            row.id,
            row.task_id,
            row.title,
            row.number,
            row.done_at,
            row.measured,
            row.torque,
            row.note,
            row.joints,
            row.opened_at,
            row.reason,
        )
        for row in rows
    ]
