"""Tasks, what holds them, and the cautions that sit on them."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.steps import ConstraintKind, LinkKind, TaskKind, TaskState


class Task(Record):
    """One step of work on a subassembly. Durations are three-point, in minutes."""

    __tablename__ = "task"
    __table_args__ = table_args(
        Index("ix_task_machine_subassembly", "machine_id", "subassembly_id", "position"),
        Index("ix_task_machine_state", "machine_id", "state"),
    )

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    subassembly_id: Mapped[int | None] = mapped_column(
        ForeignKey("subassembly.id", ondelete="CASCADE"), index=True
    )
    part_id: Mapped[int | None] = mapped_column(ForeignKey("part.id", ondelete="SET NULL"), index=True)
    title: Mapped[str]
    kind: Mapped[TaskKind] = mapped_column(word(TaskKind), default=TaskKind.OTHER)
    state: Mapped[TaskState] = mapped_column(word(TaskState), default=TaskState.OPEN)
    low_min: Mapped[float | None]
    likely_min: Mapped[float | None]
    high_min: Mapped[float | None]
    irreversible: Mapped[bool] = mapped_column(default=False)
    place: Mapped[str] = mapped_column(default="")
    tools: Mapped[str] = mapped_column(default="")
    torque_wanted: Mapped[str] = mapped_column(default="")
    done_at: Mapped[dt.datetime | None]
    done_measured: Mapped[str] = mapped_column(default="")
    done_torque: Mapped[str] = mapped_column(default="")
    done_note: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)


class TaskConstraint(Record):
    """Something a step asks for besides order: a hoist, a position, a cure.

    ``rest_min`` is how long it must cure or rest; ``proved_at`` when what had to be proved was seen.
    """

    __tablename__ = "task_constraint"

    task_id: Mapped[int] = mapped_column(ForeignKey("task.id", ondelete="CASCADE"), index=True)
    kind: Mapped[ConstraintKind] = mapped_column(word(ConstraintKind))
    detail: Mapped[str] = mapped_column(default="")
    rest_min: Mapped[float | None]
    proved_at: Mapped[dt.datetime | None]
    proved_note: Mapped[str | None]


class Link(Record):
    """``before`` must be done before ``after`` may start."""

    __tablename__ = "link"
    __table_args__ = table_args(Index("ix_link_before_after", "before_id", "after_id"))

    before_id: Mapped[int] = mapped_column(ForeignKey("task.id", ondelete="CASCADE"))
    after_id: Mapped[int] = mapped_column(ForeignKey("task.id", ondelete="CASCADE"), index=True)
    kind: Mapped[LinkKind] = mapped_column(word(LinkKind), default=LinkKind.BEFORE)
    reason: Mapped[str] = mapped_column(default="")


class TaskCaution(Record):
    """A caution (a topic of ``assets/cautions.toml``) that sits on a step."""

    __tablename__ = "task_caution"

    task_id: Mapped[int] = mapped_column(ForeignKey("task.id", ondelete="CASCADE"), index=True)
    topic: Mapped[str]
