"""Open questions and the bench log."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.log import QuestionState


class Question(Record):
    """Something not known yet, what it holds up, and what answered it."""

    __tablename__ = "question"

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"), index=True)
    subassembly_id: Mapped[int | None] = mapped_column(
        ForeignKey("subassembly.id", ondelete="SET NULL"), index=True
    )
    part_id: Mapped[int | None] = mapped_column(ForeignKey("part.id", ondelete="SET NULL"), index=True)
    task_id: Mapped[int | None] = mapped_column(ForeignKey("task.id", ondelete="SET NULL"), index=True)
    text: Mapped[str]
    state: Mapped[QuestionState] = mapped_column(word(QuestionState), default=QuestionState.OPEN)
    asked_where: Mapped[str] = mapped_column(default="")
    asked_at: Mapped[dt.datetime | None]
    answer: Mapped[str] = mapped_column(default="")
    answered_by: Mapped[str] = mapped_column(default="")
    answered_at: Mapped[dt.datetime | None]


class LogEntry(Record):
    """One session at the bench."""

    __tablename__ = "log_entry"
    __table_args__ = table_args(Index("ix_log_entry_machine_at", "machine_id", "at"))

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    at: Mapped[dt.datetime]
    hours: Mapped[float | None]
    temperature_c: Mapped[float | None]
    did: Mapped[str] = mapped_column(default="")
    found: Mapped[str] = mapped_column(default="")
    left_on_bench: Mapped[str] = mapped_column(default="")
    next_step: Mapped[str] = mapped_column(default="")
    blocked_by: Mapped[str] = mapped_column(default="")
    do_not_forget: Mapped[str] = mapped_column(default="")
