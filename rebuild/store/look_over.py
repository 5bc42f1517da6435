"""Looking an open file over for cells that cannot be read, beside anything else that goes on."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from rebuild.store.connect import read_only
from rebuild.store.sqlite_words import explained
from rebuild.store.unreadable import BadCell, unreadable

#: SQLite asks after so many steps of its machine whether to go on with a long look.
_STEPS = 200_000


def bad_cells(path: Path, broken_off: Callable[[], bool] | None = None) -> tuple[BadCell, ...]:
    """The cells that cannot be read, through a connection of its own; none once ``broken_off`` says so.

    ``broken_off`` is asked some hundred times a second. Raises FileTrouble.
    """
    with explained(path), closing(read_only(path)) as raw:
        if broken_off is not None:
            raw.set_progress_handler(broken_off, _STEPS)
        try:
            return bad_cells_in(raw)
        except sqlite3.OperationalError:
            if broken_off is not None and broken_off():
                return ()
            raise


def bad_cells_in(raw: sqlite3.Connection) -> tuple[BadCell, ...]:
    """The cells that cannot be read, in one consistent view of the file."""
    raw.execute("BEGIN")
    return tuple(unreadable(raw))
