"""Unknown things that came in boxes with the machine: what is known of each, and what it turned out to be."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import Cell, as_count, as_moment, as_number, as_text, goes_with, maybe, one_of
from rebuild.words.boxes import ClueKind


class BoxThings(Journaled, name="box_thing"):
    """A loose part that came in a box: which box, and where it went when it is not ours."""

    part_id: Cell[int] = goes_with("part", index=True)
    came_in: Cell[str] = as_text("")
    went_to: Cell[str] = as_text("")
    went_at: Cell[dt.datetime | None] = maybe(as_moment())


class Clues(Journaled, name="clue"):
    """One thing seen on an unknown part: a size, a thread, a taper, a stamped mark."""

    part_id: Cell[int] = goes_with("part", index=True)
    kind: Cell[ClueKind] = one_of(ClueKind)
    text: Cell[str] = as_text()
    size_text: Cell[str | None] = maybe(as_text())
    size_unit: Cell[str | None] = maybe(as_text())
    size_mm: Cell[float | None] = maybe(as_number())


class MergedParts(Journaled, name="merged_part"):
    """What a part was before it was known to be another: the number on its tag, its code and name, and since when."""

    part_id: Cell[int] = goes_with("part", index=True)
    was_number: Cell[int] = as_count()
    was_code: Cell[str] = as_text("")
    was_name: Cell[str] = as_text("")
    at: Cell[dt.datetime] = as_moment()
