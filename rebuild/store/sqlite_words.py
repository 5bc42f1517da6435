"""SQLite's complaints as sentences a rebuilder can act on."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy.exc import DBAPIError, IntegrityError

from rebuild.errors import FileTrouble, NotThere

_KEEP = (
    "Keep it as it is; “rebuild repair FILE” makes a new one from what can be read, or open the newest backup "
    "beside it (“… backup ….rebuild”)."
)
_SENTENCES = (
    (
        "disk is full",
        "the disk is full.",
        "Free some space and enter it again; nothing was stored by halves.",
    ),
    (
        "database is locked",
        "another program has been writing to the file for more than five seconds.",
        "Close it or wait, then enter it again.",
    ),
    (
        "readonly",
        "the file or its folder may not be written.",
        "Copy it to a folder of your own, or change its permissions.",
    ),
    ("unable to open", "the file cannot be opened.", "See that the folder exists and that you may read it."),
    (
        "malformed",
        "the file is damaged.",
        _KEEP,
    ),
    (
        "no such table: alembic_version",
        "the file is damaged: it lacks a table.",
        _KEEP,
    ),
    ("not a database", "the file is not a Rebuild project.", "Choose another file."),
    ("disk i/o error", "the disk reports an error.", "Copy the file to another disk before going on."),
)


def explain(error: Exception, path: Path) -> FileTrouble:
    """The sentence for what SQLite said about ``path``."""
    said = str(error.orig if isinstance(error, DBAPIError) else error)
    for mark, what, way_out in _SENTENCES:
        if mark in said.lower():
            return FileTrouble(what, where=path.name, way_out=way_out)
    return FileTrouble(f"SQLite says: {said}.", where=path.name, way_out="Run “rebuild check” on the file.")


@contextmanager
def explained(path: Path) -> Iterator[None]:
    """Turn what SQLite says inside the block into a sentence about ``path``.

    Raises:
        NotThere: a record that was referred to is gone.
        FileTrouble: the file cannot be read or written now.
    """
    try:
        yield
    except (IntegrityError, sqlite3.IntegrityError) as trouble:
        if "FOREIGN KEY" not in str(trouble):
            raise
        raise NotThere(
            "Something this entry refers to is no longer there.",
            way_out="It may have been removed in another window; look again and choose another.",
        ) from trouble
    except (DBAPIError, sqlite3.Error) as trouble:
        raise explain(trouble, path) from trouble
