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
from rebuild.store.same_pages import Heard, copy_pages, pages_alike
from rebuild.store.same_values import compare
from rebuild.store.sqlite_words import trouble_words

#: SQLite's own steps between two looks whether to stop; some milliseconds.
_STEPS = 50_000


class _Unlike(Exception):
    """The copy is not what the file is; its words are ours."""


class Stop(Exception):
    """Raised inside the copying when the user asks to stop."""


def backup(path: Path, *, to: Path | None = None, reason: str = "", tell: Tell = unheard) -> Path:
    """Copy ``path`` with SQLite's own backup, verify the copy byte by byte, and return where it lies.

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
    mark = secrets.randbits(32)  # a copy is a file of its own: no log of the first one fits it
    copy_pages(source, part, mark, _heard(tell, 0.0, 0.3, "Copying the file"))
    _refuse_unsound(part, _heard(tell, 0.3, 0.3, "Checking the copy"))
    heard = _heard(tell, 0.7, 1.0, "Comparing every value")
    if not pages_alike(source, part, mark, heard):
        with closing(
            read_only(part)
        ) as copy:  # where it differs; or nowhere, and there was no room for a second
            differs = compare(source, copy, heard)
        if differs:
            raise _Unlike(f"the copy differs from the file: {differs}")
    source.execute("ROLLBACK")


def _heard(tell: Tell, start: float, end: float, words: str) -> Heard:
    """Tells a share of one piece as a share of the whole; raises Stop when asked to."""

    def hear(share: float) -> None:
        if not tell(start + (end - start) * share, words):
            raise Stop

    return hear


def _refuse_unsound(part: Path, heard: Heard) -> None:
    """SQLite's own check, which takes most of the time: it is looked in the middle of it whether to stop."""
    stop: list[Stop] = []

    def look() -> int:
        try:
            heard(0.0)
        except Stop as asked:
            stop.append(asked)
        return len(stop)

    with closing(read_only(part)) as copy:
        copy.set_progress_handler(look, _STEPS)
        try:
            said = copy.execute("PRAGMA integrity_check").fetchone()[0]
        except sqlite3.OperationalError:
            if stop:
                raise stop[0] from None
            raise
    if said != "ok":
        raise _Unlike("the copy does not verify")
