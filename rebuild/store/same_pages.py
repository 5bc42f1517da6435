"""Is a copy the same as its file to the byte: a second copy of one snapshot, laid beside it page by page.

Reading every value of two databases takes six times as long as SQLite's own check; two files are compared at the
speed of the disk, and what is compared is more: also the pages no row lies in.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory

from rebuild.store.write_ahead import put_mark

#: Pages copied between two words about how far it is.
STEP = 500
#: Bytes laid side by side at a time.
CHUNK = 1 << 16

#: Hears how far it is, 0 to 1; may raise to stop.
Heard = Callable[[float], None]


def copy_pages(
    source: sqlite3.Connection, to: Path, mark: int, heard: Heard, *, synchronous: str = "FULL"
) -> None:
    """Copy what ``source`` sees to a file of its own, without a log, that carries ``mark``."""

    def pages(_status: int, left: int, whole: int) -> None:
        heard((whole - left) / max(whole, 1))

    with closing(sqlite3.connect(to, isolation_level=None)) as copy:
        copy.execute(f"PRAGMA synchronous = {synchronous}")
        source.backup(copy, pages=STEP, progress=pages)
        copy.execute("PRAGMA journal_mode = DELETE")
        put_mark(copy, mark)


def pages_alike(source: sqlite3.Connection, copy: Path, mark: int, heard: Heard) -> bool:
    """Whether ``copy`` holds every byte of what ``source`` sees; False also where there is no room to find out."""
    try:
        with TemporaryDirectory(prefix="rebuild-") as folder:
            second = Path(folder) / "second"
            copy_pages(source, second, mark, lambda share: heard(0.5 * share), synchronous="OFF")
            return _same_bytes(copy, second, lambda share: heard(0.5 + 0.5 * share))
    except (OSError, sqlite3.Error):
        return False


def _same_bytes(one: Path, other: Path, heard: Heard) -> bool:
    whole = one.stat().st_size
    if whole != other.stat().st_size:
        return False
    with one.open("rb") as first, other.open("rb") as second:
        while True:
            heard(first.tell() / max(whole, 1))
            mine = first.read(CHUNK)
            if mine != second.read(CHUNK):
                return False
            if not mine:
                return True
