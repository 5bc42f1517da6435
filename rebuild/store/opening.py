"""What is done to a project file before it is opened: known for one, writable, swept, brought up to date."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.store import foreign_log, schema
from rebuild.store.beside import sweep
from rebuild.store.look_over import bad_cells_in
from rebuild.store.read_only_place import is_writable
from rebuild.store.recognise import recognise
from rebuild.store.sqlite_words import explained
from rebuild.store.unreadable import BadCell


@dataclass(frozen=True, slots=True)
class MadeReady:
    """What was done to a file: the backup of the older one, the log set aside, the bad cells if looked for."""

    upgraded_from: Path | None
    log_set_aside: Path | None
    bad_cells: tuple[BadCell, ...] | None


def made_ready(path: Path, *, looked_over: bool) -> MadeReady:
    """Make a project file ready to open, upgrading an older one after a verified backup.

    Bad cells are looked for before an upgrade (``looked_over``); None when no upgrade asked for them.
    Raises FileTrouble.
    """
    recognise(path)
    if not is_writable(path):
        raise FileTrouble(
            "the file or its folder may not be written.",
            where=path.name,
            way_out="Copy it to a folder of your own, or change its permissions.",
        )
    sweep(path)
    log_aside = foreign_log.set_aside(path)
    seen: list[tuple[BadCell, ...]] = []

    def look(raw: sqlite3.Connection) -> None:
        with explained(path):
            seen.append(bad_cells_in(raw))

    kept = schema.upgrade(path, look) if looked_over else schema.upgrade(path)
    return MadeReady(kept, log_aside, seen[0] if seen else None)
