"""What photos show, the photos of a removal, and what was in hand when a photo was taken."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.joints import Joints
from rebuild.model.tables.log import Questions
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.photos import Cameras, Photos, PhotoSubjects
from rebuild.model.tables.readings import Readings
from rebuild.model.tables.refit import RefitSteps
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.surveys import Surveys
from rebuild.model.tables.teardown import Attempts, RemovalParts, Removals
from rebuild.trade.photos.clock import doubt, shop_time
from rebuild.trade.photos.in_hand import WITHIN, Noted, in_hand
from rebuild.work.photos.rows import PhotoRow, Which, photos

#: The tables the lookups here ask.
READS = frozenset({
    "attempt", "camera", "feature", "joint", "part", "photo", "photo_subject", "question", "reading",
    "refit_step", "removal", "removal_part", "subassembly", "survey", "task",
})  # fmt: skip

#: A thing by its record and id.
Ref = tuple[str, int]


@dataclass(frozen=True, slots=True)
class Shown:
    """One thing a photo shows besides what it is sorted to."""

    record: str
    id: int
    called: str


@dataclass(frozen=True, slots=True)
class InHand:
    """What was in hand at a photo's time, likeliest first; ``doubt`` says why nothing can be said."""

    photo_id: int
    at: dt.datetime | None
    parts: tuple[tuple[int, str], ...]
    doubt: str


def shown(connection: Connection, photo_id: int) -> list[Shown]:
    """The further things one photo shows, oldest said first."""
    rows = connection.execute(
        select(
            *PhotoSubjects.columns(),
            Parts.code,
            Parts.name.label("part"),
            Removals.position,
            Removals.what,
            Tasks.title,
            Joints.name.label("joint"),
            Surveys.name.label("survey"),
            Questions.text.label("asked"),
        )
        .select_from(PhotoSubjects)
        .outerjoin(Parts, Parts.id == PhotoSubjects.part_id)
        .outerjoin(Removals, Removals.id == PhotoSubjects.removal_id)
        .outerjoin(Tasks, Tasks.id == PhotoSubjects.task_id)
        .outerjoin(Joints, Joints.id == PhotoSubjects.joint_id)
        .outerjoin(Surveys, Surveys.id == PhotoSubjects.survey_id)
        .outerjoin(Questions, Questions.id == PhotoSubjects.question_id)
        .where(PhotoSubjects.photo_id == photo_id)
        .order_by(PhotoSubjects.id)
    )
    found = []
    for row in rows:
        off = f"no. {row.position + 1} of the log {row.what}".strip() if row.position is not None else ""
        words = {
            "part": (row.part_id, f"{row.code or ''} {row.part or ''}".strip()),
            "removal": (row.removal_id, off),
            "task": (row.task_id, row.title),
            "joint": (row.joint_id, row.joint),
            "survey": (row.survey_id, row.survey),
            "question": (row.question_id, row.asked),
        }
        found += [
            Shown(record, key, called or "") for record, (key, called) in words.items() if key is not None
        ]
    return found


def of_removal(connection: Connection, machine_id: int, removal_id: int) -> list[PhotoRow]:
    """The photos said to show a removal, then those of the parts that came off in it, each once."""
    ids = connection.execute(
        select(PhotoSubjects.photo_id).where(PhotoSubjects.removal_id == removal_id)
    ).scalars()
    said = set(ids)
    own = [row for row in photos(connection, machine_id) if row.id in said] if said else []
    parts = tuple(
        connection.execute(
            select(RemovalParts.part_id).where(RemovalParts.removal_id == removal_id)
        ).scalars()
    )
    theirs = photos(connection, machine_id, Which.CHOSEN, part_ids=parts) if parts else []
    return list({row.id: row for row in (*own, *theirs)}.values())


def photographed(connection: Connection, removal_ids: Collection[int]) -> dict[int, int]:
    """How many photos show each removal, or the parts that came off in it."""
    ids = list(removal_ids)
    found: dict[int, set[int]] = {}
    parts = select(RemovalParts.removal_id, PhotoSubjects.photo_id).join(
        PhotoSubjects, PhotoSubjects.part_id == RemovalParts.part_id
    )
    sorted_to = select(RemovalParts.removal_id, Photos.id.label("photo_id")).join(
        Photos, Photos.part_id == RemovalParts.part_id
    )
    for asked in (
        select(PhotoSubjects.removal_id, PhotoSubjects.photo_id).where(PhotoSubjects.removal_id.in_(ids)),
        parts.where(RemovalParts.removal_id.in_(ids)),
        sorted_to.where(RemovalParts.removal_id.in_(ids)),
    ):
        for key, photo in connection.execute(asked):
            found.setdefault(key or 0, set()).add(photo)
    return {key: len(shown) for key, shown in found.items()}


def of_thing(connection: Connection, machine_id: int, record: str, row_id: int) -> list[PhotoRow]:
    """The photos of a part, a joint, a survey or a question."""
    if record == "part":
        return photos(connection, machine_id, Which.CHOSEN, part_ids=(row_id,))
    column = {
        "joint": PhotoSubjects.joint_id,
        "survey": PhotoSubjects.survey_id,
        "question": PhotoSubjects.question_id,
    }[record]
    said = set(connection.execute(select(PhotoSubjects.photo_id).where(column == row_id)).scalars())
    return [row for row in photos(connection, machine_id) if row.id in said] if said else []


def of_step(connection: Connection, machine_id: int, task_id: int) -> list[PhotoRow]:
    """What a step is done by: its own photos, then those of the removal it puts back."""
    own = photos(connection, machine_id, Which.CHOSEN, task_ids=(task_id,))
    back = connection.execute(
        select(RefitSteps.removal_id).where(RefitSteps.task_id == task_id, RefitSteps.removal_id.is_not(None))
    ).scalars()
    for removal_id in back.all():
        own += of_removal(connection, machine_id, removal_id or 0)
    return list({row.id: row for row in own}.values())


def clocks(connection: Connection) -> dict[str, float]:
    """How many seconds each camera is ahead, by what it calls itself."""
    return {row.name: row.fast_s for row in connection.execute(select(Cameras.name, Cameras.fast_s))}


def what_was_in_hand(
    connection: Connection, machine_id: int, photo_ids: tuple[int, ...], now: dt.datetime
) -> list[InHand]:
    """For each photo the parts that were in hand when it was taken, by its camera's clock put right.

    Told by what came off, was done and was measured within an hour and a half of it.
    """
    fast = clocks(connection)
    rows = connection.execute(
        select(Photos.id, Photos.taken_at, Photos.camera).where(Photos.id.in_(photo_ids)).order_by(Photos.id)
    ).all()
    times = {row.id: shop_time(row.taken_at, fast.get(row.camera or "", 0.0)) for row in rows}
    doubts = {row.id: doubt(times[row.id], now) for row in rows}
    sure = [at for key, at in times.items() if at is not None and not doubts[key]]
    noted = _noted(connection, machine_id, min(sure) - WITHIN, max(sure) + WITHIN) if sure else []
    names = {
        row.id: f"{row.code} {row.name}".strip()
        for row in connection.execute(
            select(Parts.id, Parts.code, Parts.name).where(Parts.machine_id == machine_id)
        )
    }
    found = []
    for key, at in times.items():
        parts = in_hand(at, noted) if at is not None and not doubts[key] else []
        why = doubts[key] or ("" if parts else "nothing was noted near its time")
        found.append(InHand(key, at, tuple((part, names[part]) for part in parts if part in names), why))
    return found


def _noted(
    connection: Connection, machine_id: int, first: dt.datetime, last: dt.datetime
) -> list[Noted[int]]:
    """Parts that came off, whose step was done, or that were measured, between two times."""
    off = connection.execute(
        select(RemovalParts.part_id, Removals.at)
        .join(Removals, Removals.id == RemovalParts.removal_id)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .where(Attempts.machine_id == machine_id, Removals.at.between(first, last))
    ).all()
    done = connection.execute(
        select(Tasks.part_id, Tasks.done_at).where(
            Tasks.machine_id == machine_id, Tasks.part_id.is_not(None), Tasks.done_at.between(first, last)
        )
    ).all()
    read = connection.execute(
        select(Features.part_id, Readings.taken_at)
        .select_from(Readings)
        .join(Features, Features.id == Readings.feature_id)
        .join(Parts, Parts.id == Features.part_id)
        .where(Parts.machine_id == machine_id, Readings.taken_at.between(first, last))
    ).all()
    return [
        Noted(row[0], row[1]) for row in (*off, *done, *read) if row[0] is not None and row[1] is not None
    ]
