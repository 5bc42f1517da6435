"""The journal: acts, and the rows each act touched."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Counted
from rebuild.model.cells import Cell, as_count, as_moment, as_text, as_yes, goes_with, maybe


class Acts(Counted, name="act"):
    """One act of the user: what, on what, when; ``undone`` while it is taken back.

    ``reverses`` names the act that an undo or redo replays; ``sealed`` acts are history only: the schema
    changed under them, or they were taken back and something else was done instead. ``crc`` confirms the row:
    ``rebuild/store/checksums.py``.
    """

    indexes = (("ix_act_undone", "undone", "sealed", "id"),)

    kind: Cell[str] = as_text()
    subject: Cell[str] = as_text("")
    at: Cell[dt.datetime] = as_moment()
    window: Cell[str] = as_text("")
    reverses: Cell[int | None] = maybe(as_count())
    undone: Cell[bool] = as_yes(False)
    sealed: Cell[bool] = as_yes(False)
    crc: Cell[int | None] = maybe(as_count())


class Changes(Counted, name="change"):
    """One row touched by an act: which table, which row, and i(nsert), u(pdate) or d(elete)."""

    indexes = (
        ("ix_change_act", "act_id", "id"),
        ("ix_change_row", "tbl", "row_id", "id"),
    )

    act_id: Cell[int] = goes_with("act")
    tbl: Cell[str] = as_text()
    row_id: Cell[int] = as_count()
    op: Cell[str] = as_text()
