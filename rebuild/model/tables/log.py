"""Open questions, the bench log, and the hours of a session by subassembly and part."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import Cell, as_moment, as_number, as_text, goes_with, maybe, one_of, points_at
from rebuild.words.log import QuestionState


class Questions(Journaled, name="question"):
    """Something not known yet, what it holds up, and what answered it."""

    machine_id: Cell[int] = goes_with("machine", index=True)
    subassembly_id: Cell[int | None] = points_at("subassembly", index=True)
    part_id: Cell[int | None] = points_at("part", index=True)
    task_id: Cell[int | None] = points_at("task", index=True)
    text: Cell[str] = as_text()
    state: Cell[QuestionState] = one_of(QuestionState, QuestionState.OPEN)
    asked_where: Cell[str] = as_text("")
    asked_at: Cell[dt.datetime | None] = maybe(as_moment())
    answer: Cell[str] = as_text("")
    answered_by: Cell[str] = as_text("")
    answered_at: Cell[dt.datetime | None] = maybe(as_moment())


class LogEntries(Journaled, name="log_entry"):
    """One session at the bench."""

    indexes = (("ix_log_entry_machine_at", "machine_id", "at"),)

    machine_id: Cell[int] = goes_with("machine")
    at: Cell[dt.datetime] = as_moment()
    hours: Cell[float | None] = maybe(as_number())
    temperature_c: Cell[float | None] = maybe(as_number())
    did: Cell[str] = as_text("")
    found: Cell[str] = as_text("")
    left_on_bench: Cell[str] = as_text("")
    next_step: Cell[str] = as_text("")
    blocked_by: Cell[str] = as_text("")
    do_not_forget: Cell[str] = as_text("")


class SpentHours(Journaled, name="hours_spent"):
    """How much of a session went into a subassembly or a part; what is not split stays with the machine."""

    log_entry_id: Cell[int] = goes_with("log_entry", index=True)
    subassembly_id: Cell[int | None] = points_at("subassembly", index=True)
    part_id: Cell[int | None] = points_at("part", index=True)
    hours: Cell[float] = as_number()
