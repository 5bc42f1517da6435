"""Sizes that are reached at assembly: what is left on, what must be so then, and what came out."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import Cell, as_count, as_moment, as_text, goes_with, maybe, one_of, points_at
from rebuild.words.fitting import FittingKind


class Fittings(Journaled, name="fitting"):
    """One fit at assembly: made to ``start``, ``allowance`` left on it, taken off until ``condition`` holds.

    ``came_out`` is the size or finding then; ``task_id`` the step it is done at. Texts are as typed.
    """

    indexes = (("ix_fitting_part_position", "part_id", "position"),)

    part_id: Cell[int] = goes_with("part")
    task_id: Cell[int | None] = points_at("task", index=True)
    kind: Cell[FittingKind] = one_of(FittingKind)
    what: Cell[str] = as_text()
    start: Cell[str] = as_text("")
    allowance: Cell[str] = as_text("")
    condition: Cell[str] = as_text("")
    came_out: Cell[str] = as_text("")
    note: Cell[str] = as_text("")
    done_at: Cell[dt.datetime | None] = maybe(as_moment())
    position: Cell[int] = as_count(0)
