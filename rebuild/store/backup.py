"""A verified copy of a project file, made while it may be in use; it gets its name only when it is whole."""

from __future__ import annotations

import datetime as dt
import itertools
import secrets
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, closing, contextmanager
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.store.beside import Tell, stopped, unheard, written_beside
from rebuild.store.connect import read_only
from rebuild.store.same_values import compare
from rebuild.store.sqlite_words import trouble_words
from rebuild.store.write_ahead import put_mark

#: Pages copied between two words about how far it is.
STEP = 500


class _Unlike(Exception):
    """The copy is not what the file is; its words are ours."""


class Stop(Exception):
    """Raised inside the copying when the user asks to stop."""


def backup(path: Path, *, to: Path | None = None, reason: str = "", tell: Tell = unheard) -> Path:
    """Copy ``path`` with SQLite's own backup, verify the copy value by value, and return where it lies.

    The copy is compared with the very snapshot it was made from, so writing that goes on meanwhile
    neither enters it nor makes it seem wrong.

    Raises:
        FileTrouble: the copy cannot be written, does not verify, or was stopped; then none is left behind.
    """
    target = to or free_name(path, reason)
    copy_of(opened_for(path), target, tell=tell)
    return target


@contextmanager
def opened_for(path: Path) -> Iterator[sqlite3.Connection]:
    """A file as it stands, for copying."""
    with closing(read_only(path)) as raw:
        yield raw


def copy_of(
    opened: AbstractContextManager[sqlite3.Connection],
    target: Path,
    *,
    tell: Tell = unheard,
    before_named: Callable[[Path], None] | None = None,
) -> None:
    """Copy what a connection sees to ``target``; ``before_named`` hears the whole part file before it gets its name.

    Raises:
        FileTrouble: as ``backup``.
    """
    taken = FileTrouble(
        "a file of that name is already there.", where=target.name, way_out="Choose another name."
    )
    if target.exists():
        raise taken
    try:
        with written_beside(target) as part:
            with opened as source:
                _copy_verified(source, part, tell)
            if before_named is not None:
                before_named(part)
    except Stop:
        raise stopped(target) from None
    except FileExistsError:
        raise taken from None
    except (_Unlike, sqlite3.Error, OSError) as trouble:
        why = str(trouble) if isinstance(trouble, _Unlike) else trouble_words(trouble)
        raise FileTrouble(
            f"the backup could not be made: {why}.",
            where=target.name,
            way_out="Choose another folder.",
        ) from trouble


def free_name(path: Path, reason: str = "") -> Path:
    """A name beside the file that tells what the copy is and when it was made, and is not taken."""
    stamp = dt.datetime.now().strftime("%Y-%m-%d %H%M%S")  # noqa: DTZ005 - a local wall-clock name
    tail = f" {reason}" if reason else ""
    names = (
        path.with_name(f"{path.stem} backup {stamp}{tail}{again}{path.suffix}")
        for again in itertools.chain([""], (f" {number}" for number in itertools.count(2)))
    )
    return next(name for name in names if not name.exists())


def _copy_verified(source: sqlite3.Connection, part: Path, tell: Tell) -> None:
    source.execute("BEGIN")
    source.execute("SELECT COUNT(*) FROM sqlite_master").fetchone()  # the snapshot stands from here on

    def heard(_status: int, left: int, whole: int) -> None:
        if not tell(0.5 * (whole - left) / max(whole, 1), "Copying the file"):
            raise Stop

    with closing(sqlite3.connect(part, isolation_level=None)) as copy:
        source.backup(copy, pages=STEP, progress=heard)
        copy.execute("PRAGMA journal_mode = DELETE")
        put_mark(copy, secrets.randbits(32))  # a copy is a file of its own: no log of the first one fits it
    with closing(read_only(part)) as copy:
        said = copy.execute("PRAGMA integrity_check").fetchone()[0]
        if said != "ok":
            raise _Unlike("the copy does not verify")

        def compared(share: float) -> None:
            if not tell(0.5 + 0.5 * share, "Comparing every value"):
                raise Stop

        differs = compare(source, copy, compared)
        if differs:
            raise _Unlike(f"the copy differs from the file: {differs}")
    source.execute("ROLLBACK")
