"""SQLite's complaints as sentences a rebuilder can act on."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy.exc import DBAPIError

from rebuild.errors import FileTrouble

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
        "Keep it as it is, and open the newest backup beside it (“… backup ….rebuild”).",
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
