"""The removal log: attempts, what came off and how, the fasteners of each hole, and the shims."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.teardown import FastenerKind, FastenerPoint, FastenerState, RemovalWay


class Attempt(Record):
    """One time a subassembly (None: the machine as a whole) is taken down and put back.

    Number 1 is the first teardown. ``stopped_by`` says what stopped the putting back, ``changed`` what was
    changed before the next one.
    """

    __tablename__ = "attempt"
    __table_args__ = table_args(
        Index("ix_attempt_machine_subassembly", "machine_id", "subassembly_id", "number"),
    )

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    subassembly_id: Mapped[int | None] = mapped_column(
        ForeignKey("subassembly.id", ondelete="CASCADE"), index=True
    )
    number: Mapped[int] = mapped_column(default=1)
    began_at: Mapped[dt.datetime]
    stopped_by: Mapped[str] = mapped_column(default="")
    changed: Mapped[str] = mapped_column(default="")
    photo: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")


class Removal(Record):
    """One thing that came off: how, from which end, how it sat, what was hard, what was found."""

    __tablename__ = "removal"
    __table_args__ = table_args(Index("ix_removal_attempt_position", "attempt_id", "position"))

    attempt_id: Mapped[int] = mapped_column(ForeignKey("attempt.id", ondelete="CASCADE"))
    position: Mapped[int] = mapped_column(default=0)
    at: Mapped[dt.datetime]
    what: Mapped[str] = mapped_column(default="")
    how: Mapped[RemovalWay] = mapped_column(word(RemovalWay), default=RemovalWay.LIFTED)
    from_end: Mapped[str] = mapped_column(default="")
    location: Mapped[str] = mapped_column(default="")
    orientation: Mapped[str] = mapped_column(default="")
    match_mark: Mapped[str] = mapped_column(default="")
    hard: Mapped[str] = mapped_column(default="")
    found: Mapped[str] = mapped_column(default="")
    tools: Mapped[str] = mapped_column(default="")
    photo: Mapped[str] = mapped_column(default="")
    place_id: Mapped[int | None] = mapped_column(ForeignKey("place.id", ondelete="SET NULL"), index=True)
    note: Mapped[str] = mapped_column(default="")


class RemovalPart(Record):
    """A part that came off in a removal."""

    __tablename__ = "removal_part"
    __table_args__ = table_args(Index("ix_removal_part_removal", "removal_id", "part_id"))

    removal_id: Mapped[int] = mapped_column(ForeignKey("removal.id", ondelete="CASCADE"))
    part_id: Mapped[int] = mapped_column(ForeignKey("part.id", ondelete="CASCADE"), index=True)


class Fastener(Record):
    """What sat in a hole, or in several alike: thread as typed, hand, length, point, its state as found."""

    __tablename__ = "fastener"
    __table_args__ = table_args(Index("ix_fastener_removal_position", "removal_id", "position"))

    removal_id: Mapped[int] = mapped_column(ForeignKey("removal.id", ondelete="CASCADE"))
    joint_id: Mapped[int | None] = mapped_column(ForeignKey("joint.id", ondelete="SET NULL"), index=True)
    kind: Mapped[FastenerKind] = mapped_column(word(FastenerKind), default=FastenerKind.SCREW)
    hole: Mapped[str] = mapped_column(default="")
    count: Mapped[int] = mapped_column(default=1)
    thread: Mapped[str] = mapped_column(default="")
    left_hand: Mapped[bool] = mapped_column(default=False)
    length_text: Mapped[str | None]
    length_unit: Mapped[str | None]
    length_mm: Mapped[float | None]
    head: Mapped[str] = mapped_column(default="")
    point: Mapped[FastenerPoint | None] = mapped_column(word(FastenerPoint))
    grade: Mapped[str] = mapped_column(default="")
    big_end: Mapped[str] = mapped_column(default="")
    hidden: Mapped[str] = mapped_column(default="")
    state: Mapped[FastenerState | None] = mapped_column(word(FastenerState))
    substitute: Mapped[bool] = mapped_column(default=False)
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)


class ShimPack(Record):
    """A pack of shims: where it sat, on which side, which way round. Its total is worked out, never stored."""

    __tablename__ = "shim_pack"

    removal_id: Mapped[int] = mapped_column(ForeignKey("removal.id", ondelete="CASCADE"), index=True)
    location: Mapped[str] = mapped_column(default="")
    side: Mapped[str] = mapped_column(default="")
    way_round: Mapped[str] = mapped_column(default="")
    material: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")


class ShimLeaf(Record):
    """One leaf of a pack, counted from the casting up."""

    __tablename__ = "shim_leaf"
    __table_args__ = table_args(Index("ix_shim_leaf_pack_position", "pack_id", "position"))

    pack_id: Mapped[int] = mapped_column(ForeignKey("shim_pack.id", ondelete="CASCADE"))
    thickness_text: Mapped[str]
    thickness_unit: Mapped[str]
    thickness_mm: Mapped[float]
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)
