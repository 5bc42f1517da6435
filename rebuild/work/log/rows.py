"""The bench log and the open questions as rows."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, case, select

from rebuild.model.tables.log import LogEntries, Questions
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.steps import Tasks
from rebuild.words.decisions import Decision
from rebuild.words.log import QuestionState

#: The tables the lookups here ask.
READS = frozenset({"log_entry", "part", "question", "task"})


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
            LogEntries.id,
            LogEntries.at,
            LogEntries.hours,
            LogEntries.temperature_c,
            LogEntries.did,
            LogEntries.found,
            LogEntries.left_on_bench,
            LogEntries.next_step,
            LogEntries.blocked_by,
            LogEntries.do_not_forget,
        )
        .where(LogEntries.machine_id == machine_id)
        .order_by(LogEntries.at.desc(), LogEntries.id.desc())
    )
    return [LogRow(*tuple(row)) for row in rows]


#: So many sessions back the owner's own next is still meant.
LAST_SESSIONS = 3


def next_said(connection: Connection, machine_id: int) -> str:
    """What the owner wrote last as the next thing to do, within the last sessions; empty when nothing."""
    sessions = log(connection, machine_id)[:LAST_SESSIONS]
    return next((row.next_step for row in sessions if row.next_step), "")


def is_begun(connection: Connection, machine_id: int) -> bool:
    """Whether there is anything to come back to: a session written down, a step, or a part decided."""
    asked = (
        select(LogEntries.id).where(LogEntries.machine_id == machine_id),
        select(Tasks.id).where(Tasks.machine_id == machine_id),
        select(Parts.id).where(Parts.machine_id == machine_id, Parts.decision != Decision.OPEN),
    )
    return any(connection.execute(query.limit(1)).first() for query in asked)


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
        {QuestionState.OPEN: 0, QuestionState.ASSUMED: 1, QuestionState.ANSWERED: 2}, value=Questions.state
    )
    rows = connection.execute(
        select(
            Questions.id,
            Questions.text,
            Questions.state,
            Parts.code,
            Parts.name,
            Tasks.title,
            Questions.asked_where,
            Questions.asked_at,
            Questions.answer,
            Questions.answered_by,
            Questions.answered_at,
        )
        .select_from(Questions)
        .outerjoin(Parts, Parts.id == Questions.part_id)
        .outerjoin(Tasks, Tasks.id == Questions.task_id)
        .where(Questions.machine_id == machine_id)
        .order_by(order, Questions.id.desc())
    )
    return [
        QuestionRow(
            row.id,
            row.text,
            row.state,
            f"{row.code or ''} {row.name or ''}".strip(),
            row.title or "",
            row.asked_where,
            row.asked_at,
            row.answer,
            row.answered_by,
            row.answered_at,
        )
        for row in rows
    ]
