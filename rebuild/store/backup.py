"""A verified copy of a project file, made while it may be in use."""

from __future__ import annotations

import datetime as dt
import itertools
import sqlite3
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.store.connect import read_only
from rebuild.store.sqlite_words import trouble_words


def backup(path: Path, *, to: Path | None = None, reason: str = "") -> Path:
    """Copy ``path`` with SQLite's own backup, verify the copy, and return where it lies.

    The copy is compared table by table with the very snapshot it was made from, so writing that goes
    on meanwhile neither enters it nor makes it seem wrong.

    Raises:
        FileTrouble: the copy cannot be written or does not verify; then none is left behind.
    """
    target = to or _free_name(path, reason)
    if target.exists():
        raise FileTrouble(
            "a file of that name is already there.", where=target.name, way_out="Choose another name."
        )
    try:
        _copy_verified(path, target)
    except (sqlite3.Error, OSError) as trouble:
        target.unlink(missing_ok=True)
        raise FileTrouble(
            f"the backup could not be made: {trouble_words(trouble)}.",
            where=target.name,
            way_out="Choose another folder.",
        ) from trouble
    return target


def _free_name(path: Path, reason: str) -> Path:
    stamp = dt.datetime.now().strftime("%Y-%m-%d %H%M%S")  # noqa: DTZ005 - a local wall-clock name
    tail = f" {reason}" if reason else ""
    names = (
        path.with_name(f"{path.stem} backup {stamp}{tail}{again}{path.suffix}")
        for again in itertools.chain([""], (f" {number}" for number in itertools.count(2)))
    )
    return next(name for name in names if not name.exists())


def _copy_verified(path: Path, target: Path) -> None:
    source = read_only(path)
    try:
        source.execute("BEGIN")
        wanted = contents(source)
        copy = sqlite3.connect(target, isolation_level=None)
        try:
            source.backup(copy)
            copy.execute("PRAGMA journal_mode = DELETE")
        finally:
            copy.close()
        _verify(target, wanted)
    finally:
        source.close()


def _verify(target: Path, wanted: dict[str, tuple[int, int]]) -> None:
    copy = read_only(target)
    try:
        said = copy.execute("PRAGMA integrity_check").fetchone()[0]
        if said != "ok":
            raise sqlite3.DatabaseError(f"the copy does not verify: {said}")
        if contents(copy) != wanted:
            raise sqlite3.DatabaseError("the copy differs from the file")
    finally:
        copy.close()


def contents(connection: sqlite3.Connection) -> dict[str, tuple[int, int]]:
    """How many rows each table holds, and the sum of their row numbers."""
    names = connection.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name"
    ).fetchall()
    return {
        name: connection.execute(f'SELECT COUNT(*), COALESCE(SUM(rowid), 0) FROM "{name}"').fetchone()
        for (name,) in names
    }
