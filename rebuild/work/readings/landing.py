"""Where the next value goes: one frozen value, held by the window's desk; it ends with the row that shows it."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field, replace
from enum import Enum

from rebuild.words.readings import STAGES, Stage


class Surface(Enum):
    """What takes readings; the value is its word."""

    GRID = "the grid"
    SHEET = "the making sheet"
    SURVEY = "the survey"
    CHART = "the test chart"
    RUN_IN = "the run-in"
    LEVEL = "the levelling"
    CUT = "the cut test"


Ids = tuple[int, ...]
"""A row on its surface: (feature, station or 0), (line, run, place), (position,), (step,) or (machine,)."""


@dataclass(frozen=True, slots=True)
class Landing:
    """Where the next value goes: feature and station (None on a survey, chart or run-in; 0 is no station), the
    stage in its word, and the row that shows it. ``words`` say it; they are no part of what it is.
    """

    surface: Surface
    row: Ids
    stage: str = ""
    called: str = ""
    words: str = field(default="", compare=False)

    @property
    def feature_id(self) -> int | None:
        """The feature it is measured on."""
        return self.row[0] if self.surface in (Surface.GRID, Surface.SHEET) else None

    @property
    def station_id(self) -> int | None:
        """The station, or None where the feature is read as a whole."""
        return self.row[1] or None if self.feature_id is not None else None

    @property
    def part_stage(self) -> Stage:
        """The stage of a measured part."""
        return Stage(self.stage)

    def at(self, stage: Stage, words: str = "") -> Landing:
        """The same row at another stage."""
        return replace(self, stage=stage.value, words=words or self.words)


def still(landing: Landing | None, surface: Surface, rows: Collection[Ids]) -> Landing | None:
    """The landing, as long as its surface is the one in view and shows its row; else None."""
    if landing is None or landing.surface is not surface or landing.row not in rows:
        return None
    return landing


def first_unread(read: Sequence[bool], *, made: bool = True) -> Stage:
    """The stage offered for a row of which ``read`` says, stage by stage, what was read.

    It is the first one not read after the last one read; a value at an earlier stage would not speak. With all of
    them read it is the last. A part that is not ``made`` here is never read as made.

    >>> first_unread((True, False, False, False, False))
    <Stage.CLEANED: 'cleaned'>
    >>> first_unread((False, False, True, False, False))
    <Stage.AS_MADE: 'as made'>
    >>> first_unread((False, False, True, False, False), made=False)
    <Stage.FITTED: 'fitted'>
    """
    last = max((place for place, there in enumerate(read) if there), default=-1)
    ahead = [stage for stage in STAGES[last + 1 :] if made or stage is not Stage.AS_MADE]
    return ahead[0] if ahead else STAGES[-1]


def worked_at(read: Collection[Stage]) -> Stage:
    """The stage a part is worked at: the latest one read anywhere on it; before the first reading, as found.

    >>> worked_at((Stage.CLEANED, Stage.AS_FOUND))
    <Stage.CLEANED: 'cleaned'>
    """
    return max(read, key=STAGES.index, default=STAGES[0])


def first_of_part(
    rows: Sequence[Ids], read: Collection[tuple[Ids, Stage]], *, made: bool = True
) -> tuple[Ids, Stage] | None:
    """The row and stage a part is taken up at: its first row not read yet at the stage it is worked at.

    With all of them read there, it is the first row at the stage behind it. None without rows.

    >>> rows, found, cleaned = [(7, 1), (7, 2)], Stage.AS_FOUND, Stage.CLEANED
    >>> first_of_part(rows, {((7, 1), found)})
    ((7, 2), <Stage.AS_FOUND: 'as found'>)
    >>> first_of_part(rows, {((7, 1), found), ((7, 2), found), ((7, 2), cleaned)})
    ((7, 1), <Stage.CLEANED: 'cleaned'>)
    >>> first_of_part(rows, {((7, 1), found), ((7, 2), found)})
    ((7, 1), <Stage.CLEANED: 'cleaned'>)
    """
    here = set(rows)
    stage = worked_at([at for row, at in read if row in here])
    unread = next((row for row in rows if (row, stage) not in read), None)
    if unread is not None:
        return unread, stage
    behind = first_unread([at is stage for at in STAGES], made=made)
    return (rows[0], behind) if rows else None


def nearest(wanted: Ids, rows: Sequence[Ids]) -> Ids | None:
    """The row meant by ``wanted``: itself, or the first of its feature when it names no station; else None.

    >>> nearest((7, 0), [(3, 0), (7, 21), (7, 22)])
    (7, 21)
    >>> nearest((7, 99), [(7, 21)]) is None
    True
    """
    if wanted in rows:
        return wanted
    if wanted[1:] != (0,):
        return None
    return next((row for row in rows if row[0] == wanted[0]), None)


def after(row: Ids, rows: Sequence[Ids]) -> Ids | None:
    """The row behind one in the order of its surface, or None behind the last."""
    order = list(rows)
    place = order.index(row) + 1 if row in order else len(order)
    return order[place] if place < len(order) else None
