"""A verified copy of a project file, made while it may be in use."""

from __future__ import annotations

import datetime as dt
import sqlite3
from pathlib import Path

from rebuild.errors import FileTrouble


def backup(path: Path, *, to: Path | None = None, reason: str = "") -> Path:
    """Copy ``path`` with SQLite's own backup, verify the copy, and return where it lies.

    Raises:
        FileTrouble: the copy cannot be written or does not verify.
    """
    target = to or _free_name(path, reason)
    if target.exists():
        raise FileTrouble(
            "a file of that name is already there.", where=target.name, way_out="Choose another name."
        )
    try:
        _copy(path, target)
        _verify(path, target)
    except (sqlite3.Error, OSError) as trouble:
        target.unlink(missing_ok=True)
        raise FileTrouble(
            f"the backup could not be made ({trouble}).", where=target.name, way_out="Choose another folder."
        ) from trouble
    return target


def _free_name(path: Path, reason: str) -> Path:
    stamp = dt.datetime.now().strftime("%Y-%m-%d %H%M%S")  # noqa: DTZ005 - a local wall-clock name
    tail = f" {reason}" if reason else ""
    return path.with_name(f"{path.stem} backup {stamp}{tail}{path.suffix}")


def _copy(path: Path, target: Path) -> None:
    source = sqlite3.connect(f"file:{path}?mode=ro", uri=True)
    copy = sqlite3.connect(target)
    try:
        source.backup(copy)
        copy.execute("PRAGMA journal_mode = DELETE")
    finally:
        copy.close()
        source.close()


def _verify(path: Path, target: Path) -> None:
    copy = sqlite3.connect(f"file:{target}?mode=ro", uri=True)
    source = sqlite3.connect(f"file:{path}?mode=ro", uri=True)
    try:
        said = copy.execute("PRAGMA integrity_check").fetchone()[0]
        if said != "ok":
            raise sqlite3.DatabaseError(f"the copy does not verify: {said}")
        acts = "SELECT COUNT(*), MAX(id) FROM act"
        if copy.execute(acts).fetchone()[0] > source.execute(acts).fetchone()[0]:
            raise sqlite3.DatabaseError("the copy differs from the file")
    finally:
        copy.close()
        source.close()
