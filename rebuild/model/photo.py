"""Photos, kept beside the project file by their content, with marks drawn on them."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.photos import MarkKind, PhotoPhase


class Photo(Record):
    """One photo: its content hash and file ending, what it shows, when it was taken.

    With neither part, subassembly nor step it lies in the inbox, to be sorted later.
    """

    __tablename__ = "photo"
    __table_args__ = table_args(Index("ix_photo_machine_taken", "machine_id", "taken_at"))

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    subassembly_id: Mapped[int | None] = mapped_column(
        ForeignKey("subassembly.id", ondelete="SET NULL"), index=True
    )
    part_id: Mapped[int | None] = mapped_column(ForeignKey("part.id", ondelete="SET NULL"), index=True)
    task_id: Mapped[int | None] = mapped_column(ForeignKey("task.id", ondelete="SET NULL"), index=True)
    sha256: Mapped[str] = mapped_column(index=True)
    ending: Mapped[str]
    file_name: Mapped[str] = mapped_column(default="")
    width: Mapped[int]
    height: Mapped[int]
    taken_at: Mapped[dt.datetime | None]
    phase: Mapped[PhotoPhase] = mapped_column(word(PhotoPhase), default=PhotoPhase.AS_FOUND)
    view: Mapped[str] = mapped_column(default="")
    proves: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")


class PhotoMark(Record):
    """A match mark, arrow or label drawn on a photo; places are shares of its width and height."""

    __tablename__ = "photo_mark"

    photo_id: Mapped[int] = mapped_column(ForeignKey("photo.id", ondelete="CASCADE"), index=True)
    kind: Mapped[MarkKind] = mapped_column(word(MarkKind))
    x: Mapped[float]
    y: Mapped[float]
    x2: Mapped[float]
    y2: Mapped[float]
    text: Mapped[str] = mapped_column(default="")
