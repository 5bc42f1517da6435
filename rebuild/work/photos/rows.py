"""Photos and their marks as rows."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, func, select

from rebuild.model.tables.machines import Subassemblies
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.photos import Cameras, MarkParts, PhotoMarks, Photos, PhotoSubjects
from rebuild.model.tables.steps import Tasks
from rebuild.store.photos import photo_path
from rebuild.trade.photos.clock import shop_time
from rebuild.words.photos import MarkKind, PhotoPhase

#: The tables the lookups here ask.
READS = frozenset(
    {"camera", "mark_part", "part", "photo", "photo_mark", "photo_subject", "subassembly", "task"}
)


class Which(Enum):
    """Which photos are wanted."""

    INBOX = "inbox, to be sorted"
    CHOSEN = "of what is chosen"
    ALL = "all of the machine"


@dataclass(frozen=True, slots=True)
class PhotoRow:
    """One photo with what it is of; ``taken_at`` is by the shop's clock, ``by_camera`` as its camera dated it."""

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
    camera: str = ""
    subassembly_id: int | None = None
    by_camera: dt.datetime | None = None

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
    part_id: int | None = None
    subassembly_id: int | None = None
    part: str = ""

    @property
    def said(self) -> str:
        """Its words, and the part it names."""
        return " ".join(filter(None, (self.text, self.part)))


def photos(
    connection: Connection,
    machine_id: int,
    which: Which = Which.ALL,
    *,
    subassembly_id: int | None = None,
    part_ids: tuple[int, ...] = (),
    task_ids: tuple[int, ...] = (),
) -> list[PhotoRow]:
    """Photos of a machine, newest first by the shop's clock.

    ``CHOSEN`` takes the parts, else the steps, else the subassembly.
    """
    query = (
        select(
            Photos.id,
            Photos.sha256,
            Photos.ending,
            Photos.file_name,
            Photos.width,
            Photos.height,
            Photos.taken_at,
            Photos.phase,
            Photos.proves,
            Photos.camera,
            func.coalesce(Parts.subassembly_id, Tasks.subassembly_id, Photos.subassembly_id).label(
                "subassembly_id"
            ),
            Parts.code,
            Parts.name.label("part"),
            Tasks.title,
            Subassemblies.name.label("subassembly"),
            func.coalesce(Cameras.fast_s, 0.0).label("fast_s"),
        )
        .outerjoin(Cameras, Cameras.name == func.coalesce(Photos.camera, ""))
        .outerjoin(Parts, Parts.id == Photos.part_id)
        .outerjoin(Tasks, Tasks.id == Photos.task_id)
        .outerjoin(Subassemblies, Subassemblies.id == Photos.subassembly_id)
        .where(Photos.machine_id == machine_id)
        .order_by(Photos.taken_at.desc(), Photos.id.desc())
    )
    if which is Which.INBOX:
        query = query.where(
            Photos.part_id.is_(None), Photos.task_id.is_(None), Photos.subassembly_id.is_(None)
        )
    elif which is Which.CHOSEN:
        if part_ids:
            query = query.where(Photos.part_id.in_(part_ids) | _showing(PhotoSubjects.part_id, part_ids))
        elif task_ids:
            query = query.where(Photos.task_id.in_(task_ids) | _showing(PhotoSubjects.task_id, task_ids))
        else:
            query = query.where(Photos.subassembly_id == subassembly_id)
    found = [
        PhotoRow(
            row.id,
            row.sha256,
            row.ending,
            row.file_name,
            row.width,
            row.height,
            shop_time(row.taken_at, row.fast_s),
            row.phase,
            row.proves,
            f"{row.code or ''} {row.part or ''}".strip() or row.title or row.subassembly or "",
            row.camera or "",
            row.subassembly_id,
            row.taken_at,
        )
        for row in connection.execute(query)
    ]
    if any(row.taken_at != row.by_camera for row in found):
        dated = [(row.taken_at, row.id, row) for row in found if row.taken_at is not None]
        newest = sorted(dated, key=lambda one: one[:2], reverse=True)
        return [*(row for _at, _key, row in newest), *(row for row in found if row.taken_at is None)]
    return found


def _showing(column: Any, keys: tuple[int, ...]) -> Any:
    """Photos that show one of these things besides what they are sorted to."""
    return Photos.id.in_(select(PhotoSubjects.photo_id).where(column.in_(keys)))


def marks(connection: Connection, photo_id: int) -> list[MarkRow]:
    """The marks of one photo, oldest first."""
    rows = connection.execute(
        select(
            PhotoMarks.id,
            PhotoMarks.kind,
            PhotoMarks.x,
            PhotoMarks.y,
            PhotoMarks.x2,
            PhotoMarks.y2,
            PhotoMarks.text,
            MarkParts.part_id,
            Parts.subassembly_id,
            Parts.code,
            Parts.name,
        )
        .outerjoin(MarkParts, MarkParts.mark_id == PhotoMarks.id)
        .outerjoin(Parts, Parts.id == MarkParts.part_id)
        .where(PhotoMarks.photo_id == photo_id)
        .order_by(PhotoMarks.id)
    )
    return [
        MarkRow(
            row.id,
            row.kind,
            row.x,
            row.y,
            row.x2,
            row.y2,
            row.text,
            row.part_id,
            row.subassembly_id,
            f"{row.code or ''} {row.name or ''}".strip(),
        )
        for row in rows
    ]
