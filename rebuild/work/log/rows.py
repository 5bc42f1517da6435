"""The bench log and the open questions as rows."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, case, select

from rebuild.model.named import LogEntry, Part, Question, Task
from rebuild.words.log import QuestionState


@dataclass(frozen=True, slots=True)
class LogRow:
    """One session at the bench."""

    id: int
    at: dt.datetime
    hours: float | None
    temperature_c: float | None
    did: str
    found: str
    left_on_bench: str
    next_step: str
    blocked_by: str
    do_not_forget: str


def log(connection: Connection, machine_id: int) -> list[LogRow]:
    """The sessions of a machine, newest first."""
    rows = connection.execute(
        select(
            LogEntry.id, LogEntry.at, LogEntry.hours, LogEntry.temperature_c, LogEntry.did, LogEntry.found,
            LogEntry.left_on_bench, LogEntry.next_step, LogEntry.blocked_by, LogEntry.do_not_forget,
        )
        .where(LogEntry.machine_id == machine_id)
        .order_by(LogEntry.at.desc(), LogEntry.id.desc())
    )  # fmt: skip
    return [LogRow(*tuple(row)) for row in rows]


def is_begun(connection: Connection, machine_id: int) -> bool:
    """Whether a session at the machine has been written down."""
    any_entry = select(LogEntry.id).where(LogEntry.machine_id == machine_id).limit(1)
    return connection.execute(any_entry).first() is not None


@dataclass(frozen=True, slots=True)
class QuestionRow:
    """One question with what it is about and what it holds up."""

    id: int
    text: str
    state: QuestionState
    about: str
    holds_up: str
    asked_where: str
    asked_at: dt.datetime | None
    answer: str
    answered_by: str
    answered_at: dt.datetime | None


def questions(connection: Connection, machine_id: int) -> list[QuestionRow]:
    """The questions of a machine: open ones first, then assumed, then answered."""
    order = case(
        {QuestionState.OPEN: 0, QuestionState.ASSUMED: 1, QuestionState.ANSWERED: 2}, value=Question.state
    )
    rows = connection.execute(
        select(
            Question.id, Question.text, Question.state, Part.code, Part.name, Task.title, Question.asked_where,
            Question.asked_at, Question.answer, Question.answered_by, Question.answered_at,
        )
        .select_from(Question)
        .outerjoin(Part, Part.id == Question.part_id)
        .outerjoin(Task, Task.id == Question.task_id)
        .where(Question.machine_id == machine_id)
        .order_by(order, Question.id.desc())
    )  # fmt: skip
    return [
        QuestionRow(
            row.id, row.text, row.state, f"{row.code or ''} {row.name or ''}".strip(), row.title or "",
            row.asked_where, row.asked_at, row.answer, row.answered_by, row.answered_at,
        )
        for row in rows
    ]  # fmt: skip
