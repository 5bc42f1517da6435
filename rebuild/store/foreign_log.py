"""A log that does not belong to the file beside it: found before anything is opened, and set aside by name.

It gets there when a backup is copied over the name of a file that was not closed, or when a sync program
overwrites the file in place. SQLite would mix the two, and the file would open damaged.
"""

from __future__ import annotations

import datetime as dt
import os
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.store.connect import read_only
from rebuild.store.identity import is_held_here
from rebuild.store.write_ahead import belongs, log_path, mark_of, read_log

try:
    import fcntl
except ImportError:  # Windows refuses to rename a log in use by itself
    fcntl = None  # type: ignore[assignment]

#: The byte of ``-shm`` that everyone who has the file open holds shared (SQLite, "WAL-mode File Format").
_HELD_BYTE = 128


def is_foreign(path: Path) -> bool:
    """Whether the log beside the file is another file's (or another state's)."""
    for _ in range(5):  # another window may be moving pages between two looks
        before, log = mark_of(path), read_log(path)
        if log is None or before is None:
            return False
        verdict = belongs(before, log)
        if verdict is None:
            return not _fits(path)
        if verdict:
            return False
        if mark_of(path) == before and read_log(path) == log:
            return True
    return False


def set_aside(path: Path) -> Path | None:
    """Set a foreign log aside under a name that says so; returns the name, or None when all is as it should be.

    Raises:
        FileTrouble: the log is foreign but another window is using it, or it cannot be renamed.
    """
    if not is_foreign(path):
        return None
    shared = path.with_name(f"{path.name}-shm")
    if is_held_here(path) or _in_use(shared):
        raise FileTrouble(
            "the file was overwritten while another window has it open.",
            where=path.name,
            way_out="Close the other window first, then open it again.",
        )
    target = aside_name(path)
    try:
        log_path(path).rename(target)
        shared.unlink(missing_ok=True)
    except OSError as trouble:
        raise FileTrouble(
            f"beside it lies the log of another state of the file, and it cannot be set aside ({trouble.strerror}).",
            where=path.name,
            way_out="Close every program that uses the file, then open it again.",
        ) from trouble
    return target


def keep_apart(path: Path) -> Path | None:
    """Before the last connection closes on an overwritten file: keep its log by name, and leave none to be mixed in."""
    log = log_path(path)
    try:
        if not log.stat().st_size:
            return None
        target = aside_name(path)
        shutil.copyfile(log, target)
        os.truncate(log, 0)
    except OSError:
        return None
    return target


def leave_nothing(path: Path) -> None:
    """After the last connection closed on a file that is gone from its path: no empty log stays under the old name."""
    log = log_path(path)
    try:
        if not log.stat().st_size:
            log.unlink()
            path.with_name(f"{path.name}-shm").unlink(missing_ok=True)
    except OSError:
        return


def aside_name(path: Path) -> Path:
    """A free name for a log that does not belong."""
    stamp = dt.datetime.now().strftime("%Y-%m-%d %H%M%S")  # noqa: DTZ005 - a local wall-clock name
    number, again = 1, ""
    while (
        target := path.with_name(f"{path.stem} log of another state, set aside {stamp}{again}.wal")
    ).exists():
        number += 1
        again = f" {number}"
    return target


def _fits(path: Path) -> bool:
    """For a log without marks: what the two give together is sound, or the file alone is not sound either."""
    if _sound(path, ""):
        return True
    return not _sound(path, "&immutable=1")


def _sound(path: Path, more: str) -> bool:
    try:
        with closing(read_only(path, more)) as raw:
            return bool(raw.execute("PRAGMA integrity_check(1)").fetchone()[0] == "ok")
    except sqlite3.OperationalError as trouble:
        return "locked" in str(trouble)
    except sqlite3.Error:
        return False


def _in_use(shared: Path) -> bool:
    if fcntl is None:
        return False
    try:
        with shared.open("r+b") as file:
            fcntl.lockf(file, fcntl.LOCK_EX | fcntl.LOCK_NB, 1, _HELD_BYTE)
    except FileNotFoundError:
        return False
    except OSError:
        return True
    return False
