"""Photos, kept beside the project file by their content, with marks drawn on them."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import (
    Cell,
    as_count,
    as_moment,
    as_number,
    as_text,
    goes_with,
    maybe,
    one_of,
    points_at,
)
from rebuild.words.photos import MarkKind, PhotoPhase


class Photos(Journaled, name="photo"):
    """One photo: its content hash and file ending, what it shows, when it was taken.

    With neither part, subassembly nor step it lies in the inbox, to be sorted later.
    """

    indexes = (("ix_photo_machine_taken", "machine_id", "taken_at"),)

    machine_id: Cell[int] = goes_with("machine")
    subassembly_id: Cell[int | None] = points_at("subassembly", index=True)
    part_id: Cell[int | None] = points_at("part", index=True)
    task_id: Cell[int | None] = points_at("task", index=True)
    sha256: Cell[str] = as_text(index=True)
    ending: Cell[str] = as_text()
    file_name: Cell[str] = as_text("")
    width: Cell[int] = as_count()
    height: Cell[int] = as_count()
    taken_at: Cell[dt.datetime | None] = maybe(as_moment())
    phase: Cell[PhotoPhase] = one_of(PhotoPhase, PhotoPhase.AS_FOUND)
    view: Cell[str] = as_text("")
    proves: Cell[str] = as_text("")
    note: Cell[str] = as_text("")
    camera: Cell[str | None] = maybe(as_text())


class PhotoSubjects(Journaled, name="photo_subject"):
    """What else a photo shows, besides what it is sorted to: one thing a row."""

    photo_id: Cell[int] = goes_with("photo", index=True)
    part_id: Cell[int | None] = maybe(goes_with("part", index=True))
    removal_id: Cell[int | None] = maybe(goes_with("removal", index=True))
    task_id: Cell[int | None] = maybe(goes_with("task", index=True))
    joint_id: Cell[int | None] = maybe(goes_with("joint", index=True))
    survey_id: Cell[int | None] = maybe(goes_with("survey", index=True))
    question_id: Cell[int | None] = maybe(goes_with("question", index=True))


class Cameras(Journaled, name="camera"):
    """One camera or phone by what it calls itself, and how many seconds its clock is ahead of the shop's."""

    name: Cell[str] = as_text()
    fast_s: Cell[float] = as_number(0.0)
    note: Cell[str] = as_text("")


class PhotoMarks(Journaled, name="photo_mark"):
    """A match mark, arrow or label drawn on a photo; places are shares of its width and height."""

    photo_id: Cell[int] = goes_with("photo", index=True)
    kind: Cell[MarkKind] = one_of(MarkKind)
    x: Cell[float] = as_number()
    y: Cell[float] = as_number()
    x2: Cell[float] = as_number()
    y2: Cell[float] = as_number()
    text: Cell[str] = as_text("")


class MarkParts(Journaled, name="mark_part"):
    """The part a mark on a photo names."""

    mark_id: Cell[int] = goes_with("photo_mark", index=True)
    part_id: Cell[int] = goes_with("part", index=True)
