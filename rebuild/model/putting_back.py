"""Putting back: steps drafted from the removal log, what was answered to proposed links, and every joint's state."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.joints import Dressing, Tightness
from rebuild.words.steps import LinkAnswer


class RefitStep(Record):
    """A step drafted from a removal. No step: the user took it out of the draft, and it stays out.

    The drafted words are kept to tell a step the user has written over from one still as drafted.
    """

    __tablename__ = "refit_step"

    attempt_id: Mapped[int] = mapped_column(ForeignKey("attempt.id", ondelete="CASCADE"), index=True)
    removal_id: Mapped[int | None] = mapped_column(ForeignKey("removal.id", ondelete="SET NULL"), index=True)
    task_id: Mapped[int | None] = mapped_column(ForeignKey("task.id", ondelete="SET NULL"), index=True)
    drafted_title: Mapped[str] = mapped_column(default="")
    drafted_note: Mapped[str] = mapped_column(default="")


class DraftedLink(Record):
    """A link drafted between two removals' steps. No link: the user took it away, and it stays away."""

    __tablename__ = "drafted_link"
    __table_args__ = table_args(Index("ix_drafted_link_pair", "before_id", "after_id"))

    before_id: Mapped[int] = mapped_column(ForeignKey("refit_step.id", ondelete="CASCADE"))
    after_id: Mapped[int] = mapped_column(ForeignKey("refit_step.id", ondelete="CASCADE"), index=True)
    link_id: Mapped[int | None] = mapped_column(ForeignKey("link.id", ondelete="SET NULL"), index=True)


class LinkProposal(Record):
    """What the user answered to a link proposed by a second teardown: before which removal comes which."""

    __tablename__ = "link_proposal"
    __table_args__ = table_args(Index("ix_link_proposal_pair", "before_id", "after_id"))

    before_id: Mapped[int] = mapped_column(ForeignKey("removal.id", ondelete="CASCADE"))
    after_id: Mapped[int] = mapped_column(ForeignKey("removal.id", ondelete="CASCADE"), index=True)
    answer: Mapped[LinkAnswer] = mapped_column(word(LinkAnswer))
    answered_at: Mapped[dt.datetime]


class ConstraintPart(Record):
    """The part a constraint speaks of: what must stand at the position, or what closes the opening."""

    __tablename__ = "constraint_part"
    __table_args__ = table_args(Index("ix_constraint_part_constraint", "constraint_id", "part_id"))

    constraint_id: Mapped[int] = mapped_column(ForeignKey("task_constraint.id", ondelete="CASCADE"))
    part_id: Mapped[int] = mapped_column(ForeignKey("part.id", ondelete="CASCADE"), index=True)


class Joint(Record):
    """One joint, or a group of fasteners tightened as one: how tight, how dressed, and what is wanted.

    ``tour`` is the user's own place of it on the walk round the machine. ``look_again`` asks for a look after
    the run-in.
    """

    __tablename__ = "joint"
    __table_args__ = table_args(Index("ix_joint_machine_subassembly", "machine_id", "subassembly_id"))

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    subassembly_id: Mapped[int | None] = mapped_column(
        ForeignKey("subassembly.id", ondelete="CASCADE"), index=True
    )
    part_id: Mapped[int | None] = mapped_column(ForeignKey("part.id", ondelete="SET NULL"), index=True)
    task_id: Mapped[int | None] = mapped_column(ForeignKey("task.id", ondelete="SET NULL"), index=True)
    name: Mapped[str]
    location: Mapped[str] = mapped_column(default="")
    tour: Mapped[int | None]
    thread: Mapped[str] = mapped_column(default="")
    count: Mapped[int] = mapped_column(default=1)
    grade: Mapped[str] = mapped_column(default="")
    tight: Mapped[Tightness] = mapped_column(word(Tightness), default=Tightness.LOOSE)
    wanted: Mapped[Tightness] = mapped_column(word(Tightness), default=Tightness.SNUG)
    dress: Mapped[Dressing | None] = mapped_column(word(Dressing))
    wanted_dress: Mapped[Dressing | None] = mapped_column(word(Dressing))
    torque_wanted: Mapped[str] = mapped_column(default="")
    torque_source: Mapped[str] = mapped_column(default="")
    torque_done: Mapped[str] = mapped_column(default="")
    set_at: Mapped[dt.datetime | None]
    look_again: Mapped[bool] = mapped_column(default=False)
    looked_again_at: Mapped[dt.datetime | None]
    note: Mapped[str] = mapped_column(default="")
