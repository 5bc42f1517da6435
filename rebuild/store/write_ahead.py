"""Does a write-ahead log belong to the file beside it? A file put over the name of another one meets the other's log.

SQLite does not tie the two: a log is known only by two random salts of its own, and the file holds no trace of
them. So every new log begins with a mark (``PRAGMA user_version``, which lies in page 1): its upper half is new,
its lower half repeats the upper half of the mark before. The file belongs to the log when it carries one of the
log's own marks (some pages have been moved already) or the mark the log's first one follows.

File formats: SQLite, "Database File Format", the header of the file and the format of the WAL file.
https://www.sqlite.org/fileformat2.html (from memory, tried against SQLite itself in the tests)
"""

from __future__ import annotations

import secrets
import sqlite3
import struct
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from rebuild.store.connect import read_only

_HEAD, _FRAME = 32, 24
_MAGIC = (0x377F0682, 0x377F0683)
_MARK_AT = 60  # of page 1


@dataclass(frozen=True, slots=True)
class Log:
    """What a log says of itself: its salts, and the marks of the page 1 images in it, oldest first."""

    salts: bytes
    marks: tuple[int, ...]


def log_path(path: Path) -> Path:
    """Where SQLite keeps the log of a file."""
    return path.with_name(f"{path.name}-wal")


def salts(path: Path) -> bytes:
    """The salts of the log in use; empty when there is no log, or one without a frame."""
    if not log_path(path).is_file():
        return b""
    try:
        with log_path(path).open("rb") as file:
            return file.read(_HEAD)[16:24]
    except OSError:
        return b""


def read_log(path: Path) -> Log | None:
    """The log beside a file, or None when there is none with anything in it."""
    if not log_path(path).is_file():
        return None
    try:
        with log_path(path).open("rb") as file:
            head = file.read(_HEAD)
            if len(head) < _HEAD or struct.unpack(">I", head[:4])[0] not in _MAGIC:
                return None
            page = struct.unpack(">I", head[8:12])[0]
            own, marks, frames = head[16:24], [], 0
            while len(frame := file.read(_FRAME)) == _FRAME and frame[8:16] == own:
                frames += 1
                if struct.unpack(">I", frame[:4])[0] == 1:
                    marks.append(struct.unpack(">I", file.read(page)[_MARK_AT : _MARK_AT + 4])[0])
                else:
                    file.seek(page, 1)
    except (OSError, struct.error):
        return None
    return Log(own, tuple(marks)) if frames else None


def mark_of(path: Path) -> int | None:
    """The mark of the file itself, without its log; None when it cannot be read.

    Read through SQLite, not by opening the file: this process may hold locks on it.
    """
    try:
        with closing(read_only(path, "&immutable=1")) as raw:
            return mark_on(raw)
    except sqlite3.Error:
        return None


def mark_on(raw: sqlite3.Connection) -> int:
    """The mark as a connection sees it."""
    return int(raw.execute("PRAGMA user_version").fetchone()[0]) & 0xFFFFFFFF


def next_mark(before: int) -> int:
    """A new mark that follows ``before``."""
    return (secrets.randbelow(0xFFFF) + 1) << 16 | before >> 16


def put_mark(raw: sqlite3.Connection, mark: int) -> None:
    """Write a mark, inside the caller's transaction."""
    raw.execute(f"PRAGMA user_version = {mark - (1 << 32) if mark >> 31 else mark}")


def belongs(mark: int, log: Log) -> bool | None:
    """Whether a file with this mark and ``log`` are of one piece; None when the log carries no mark."""
    if not log.marks:
        return None
    return mark in log.marks or mark >> 16 == log.marks[0] & 0xFFFF
