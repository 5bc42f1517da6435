"""Photos and their marks as rows."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import Enum
from pathlib import Path

from sqlalchemy import Connection, select

from rebuild.model.all import Part, Photo, PhotoMark, Subassembly, Task
from rebuild.store.photos import photo_path
from rebuild.words.photos import MarkKind, PhotoPhase


class Which(Enum):
    """Which photos are wanted."""

    INBOX = "inbox, to be sorted"
    CHOSEN = "of what is chosen"
    ALL = "all of the machine"


@dataclass(frozen=True, slots=True)
class PhotoRow:
    """One photo with what it is of."""

    id: int
    sha256: str
    ending: str
    file_name: str
    width: int
    height: int
    taken_at: dt.datetime | None
    phase: PhotoPhase
    proves: str
    about: str

    def path(self, project: Path) -> Path:
        """Where its file lies."""
        return photo_path(project, self.sha256, self.ending)


@dataclass(frozen=True, slots=True)
class MarkRow:
    """One mark on a photo; places are shares of width and height."""

    id: int
    kind: MarkKind
    x: float
    y: float
    x2: float
    y2: float
    text: str


def photos(
    connection: Connection,
    machine_id: int,
    which: Which = Which.ALL,
    *,
    subassembly_id: int | None = None,
    part_ids: tuple[int, ...] = (),
    task_ids: tuple[int, ...] = (),
) -> list[PhotoRow]:
    """Photos of a machine, newest first. ``CHOSEN`` takes the parts, else the steps, else the subassembly."""
    query = (
        select(
            Photo.id, Photo.sha256, Photo.ending, Photo.file_name, Photo.width, Photo.height, Photo.taken_at,
            Photo.phase, Photo.proves, Part.code, Part.name.label("part"), Task.title,
            Subassembly.name.label("subassembly"),
        )
        .outerjoin(Part, Part.id == Photo.part_id)
        .outerjoin(Task, Task.id == Photo.task_id)
        .outerjoin(Subassembly, Subassembly.id == Photo.subassembly_id)
        .where(Photo.machine_id == machine_id)
        .order_by(Photo.taken_at.desc(), Photo.id.desc())
    )  # fmt: skip
    if which is Which.INBOX:
        query = query.where(Photo.part_id.is_(None), Photo.task_id.is_(None), Photo.subassembly_id.is_(None))
    elif which is Which.CHOSEN:
        if part_ids:
            query = query.where(Photo.part_id.in_(part_ids))
        elif task_ids:
            query = query.where(Photo.task_id.in_(task_ids))
        else:
            query = query.where(Photo.subassembly_id == subassembly_id)
    return [
        PhotoRow(
            row.id, row.sha256, row.ending, row.file_name, row.width, row.height, row.taken_at, row.phase,
            row.proves, f"{row.code or ''} {row.part or ''}".strip() or row.title or row.subassembly or "",
        )
        for row in connection.execute(query)
    ]  # fmt: skip


def marks(connection: Connection, photo_id: int) -> list[MarkRow]:
    """The marks of one photo, oldest first."""
    rows = connection.execute(
        select(
            PhotoMark.id, PhotoMark.kind, PhotoMark.x, PhotoMark.y, PhotoMark.x2, PhotoMark.y2, PhotoMark.text
        )
        .where(PhotoMark.photo_id == photo_id)
        .order_by(PhotoMark.id)
    )
    return [MarkRow(row.id, row.kind, row.x, row.y, row.x2, row.y2, row.text) for row in rows]
