"""Clocks as they stand at a moment, and what lies in a bath."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.joints import Joints
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.waiting import Clocks
from rebuild.trade.waiting.clock import Standing, ago, read_clock, show_when
from rebuild.words.places import PlaceKind
from rebuild.words.waiting import ClockKind

#: The tables the lookups here ask.
READS = frozenset({"clock", "joint", "part", "place", "task"})


@dataclass(frozen=True, slots=True)
class ClockRow:
    """One clock: what it is about, how it stands in words, and its times."""

    id: int
    kind: ClockKind
    what: str
    about: str
    part_id: int | None
    task_id: int | None
    joint_id: int | None
    started_at: dt.datetime
    due: dt.datetime | None
    latest: dt.datetime | None
    standing: Standing
    words: str
    source: str
    closed_at: dt.datetime | None
    closed_note: str


def clocks(
    connection: Connection, machine_id: int, now: dt.datetime, *, closed: bool = False
) -> list[ClockRow]:
    """The clocks of a machine, those to be seen to first; with ``closed`` the closed ones too, last."""
    query = (
        select(
            Clocks.id,
            Clocks.kind,
            Clocks.what,
            Clocks.part_id,
            Clocks.task_id,
            Clocks.joint_id,
            Clocks.started_at,
            Clocks.low_min,
            Clocks.high_min,
            Clocks.source,
            Clocks.closed_at,
            Clocks.closed_note,
            Parts.code,
            Parts.name,
            Tasks.title,
            Joints.name.label("joint"),
        )
        .select_from(Clocks)
        .outerjoin(Parts, Parts.id == Clocks.part_id)
        .outerjoin(Tasks, Tasks.id == Clocks.task_id)
        .outerjoin(Joints, Joints.id == Clocks.joint_id)
        .where(Clocks.machine_id == machine_id)
    )
    if not closed:
        query = query.where(Clocks.closed_at.is_(None))
    found = []
    for row in connection.execute(query):
        stands = read_clock(row.kind.value, row.started_at, row.low_min, row.high_min, row.closed_at or now)
        about = f"{row.code or ''} {row.name or ''}".strip() or row.title or row.joint or ""
        words = f"closed {show_when(row.closed_at, now)}" if row.closed_at else stands.words
        found.append(
            ClockRow(
                row.id,
                row.kind,
                row.what,
                about,
                row.part_id,
                row.task_id,
                row.joint_id,
                row.started_at,
                stands.due,
                stands.latest,
                stands.standing,
                words,
                row.source,
                row.closed_at,
                row.closed_note,
            )
        )
    return sorted(found, key=_rank)


def _rank(row: ClockRow) -> tuple[bool, int, dt.datetime, int]:
    first = {Standing.OVER: 0, Standing.NOW: 1, Standing.RUNNING: 2}
    return row.closed_at is not None, first[row.standing], row.due or row.latest or row.started_at, row.id


def words_by_step(connection: Connection, machine_id: int, now: dt.datetime) -> dict[int, tuple[str, ...]]:
    """How the open clocks of each step stand, for its second line."""
    found: dict[int, list[str]] = {}
    for row in clocks(connection, machine_id, now):
        if row.task_id is not None:
            found.setdefault(row.task_id, []).append(row.words)
    return {key: tuple(words) for key, words in found.items()}


@dataclass(frozen=True, slots=True)
class BathRow:
    """A part that lies in a bath, and since when."""

    part_id: int
    part: str
    place: str
    since: dt.datetime | None
    words: str


def in_baths(connection: Connection, machine_id: int, now: dt.datetime) -> list[BathRow]:
    """Parts of a machine that lie in a bath now, longest first."""
    rows = connection.execute(
        select(Parts.id, Parts.code, Parts.name, Parts.placed_at, Places.name.label("place"))
        .select_from(Parts)
        .join(Places, Places.id == Parts.place_id)
        .where(Parts.machine_id == machine_id, Places.kind == PlaceKind.BATH)
        .order_by(Parts.placed_at, Parts.code)
    )
    return [
        BathRow(
            row.id,
            f"{row.code} {row.name}".strip(),
            row.place,
            row.placed_at,
            f"in {row.place} since {show_when(row.placed_at, now)}, {ago(row.placed_at, now)}"
            if row.placed_at
            else f"in {row.place}, since when is not noted",
        )
        for row in rows
    ]
