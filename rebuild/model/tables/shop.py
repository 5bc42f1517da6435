"""What belongs to the file and not to a machine: settings, and entries kept from being lost."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Asked, Counted
from rebuild.model.cells import Cell, as_count, as_moment, as_text, as_yes, maybe, text_key


class Settings(Asked, name="setting"):
    """A setting of this file (verdict rule, decimal comma, owner's name). Not journaled."""

    key: Cell[str] = text_key()
    value: Cell[str] = as_text()
    crc: Cell[int | None] = maybe(as_count())


class KeptEntries(Counted, name="kept_entry"):
    """Something typed that could not be stored where it was meant (a clash); never undone away."""

    at: Cell[dt.datetime] = as_moment()
    meant_for: Cell[str] = as_text()
    typed: Cell[str] = as_text()
    why: Cell[str] = as_text()
    settled: Cell[bool] = as_yes(False)
    crc: Cell[int | None] = maybe(as_count())
