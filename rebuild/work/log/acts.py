"""Open questions and the bench log."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from rebuild.errors import BadEntry
from rebuild.model.records.log import LogEntry, Question
from rebuild.model.records.machines import Machine
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.words.log import QuestionState
from rebuild.work.log import rules
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.field import show_day
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.records.wall_clock import now


def ask(
    store: Store,
    machine_id: int,
    text: str,
    *,
    subassembly_id: int | None = None,
    part_id: int | None = None,
    task_id: int | None = None,
    typed: Mapping[str, str] | None = None,
) -> int:
    """Note an open question; returns its id. Raises BadEntry."""
    columns = read_typed("question", {"text": text, **(typed or {})})
    with store.act(Act.ADD_QUESTION, "") as tx:
        tx.get(Machine, machine_id, "machine")
        refuse_other_machine(tx, machine_id, subassembly=subassembly_id, part=part_id, step=task_id)
        row = Question(
            machine_id=machine_id,
            subassembly_id=subassembly_id,
            part_id=part_id,
            task_id=task_id,
            asked_at=now(),
        )
        set_columns(row, columns)
        rules.question(tx, row, {}, typed or {})
        tx.session.add(row)
        tx.session.flush()
        tx.subject = title(row)
        return row.id


def answer(
    store: Store,
    question_id: int,
    text: str,
    by: str = "",
    *,
    assumed: bool = False,
    at: dt.datetime | None = None,
) -> None:
    """Answer a question (``at`` now unless given), or note what is assumed until someone knows. Raises BadEntry."""
    if not text.strip():
        raise BadEntry("is empty.", where="Answer", way_out="Type what was found out, or what you assume.")
    with store.act(Act.ANSWER, "") as tx:
        row = tx.get(Question, question_id, "question")
        row.answer = text.strip()
        row.answered_by = by.strip()
        row.answered_at = at or now()
        row.state = QuestionState.ASSUMED if assumed else QuestionState.ANSWERED
        tx.subject = f"to {title(row)}"


def log_session(store: Store, machine_id: int, typed: Mapping[str, str]) -> int:
    """Write a session into the bench log; returns its id. Without a date it is now.

    Raises:
        BadEntry: nothing was written in it, or a field cannot be read.
    """
    columns = read_typed("log_entry", typed, comma=decimal_comma(store))
    if not any(columns.get(name) for name in ("did", "found", "left_on_bench", "next_step")):
        raise BadEntry("is empty.", where="Did", way_out="Write what was done, found, left or comes next.")
    with store.act(Act.ADD_LOG, "") as tx:
        tx.get(Machine, machine_id, "machine")
        row = LogEntry(machine_id=machine_id, at=now())
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        tx.subject = f"of {show_day(row.at)}"
        return row.id
