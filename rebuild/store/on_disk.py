"""The open file on the disk: still at its path, whole in one file; and what is held in memory while it is not."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import cast

from sqlalchemy import Connection, Engine

from rebuild.errors import FileElsewhere
from rebuild.store import entry, foreign_log
from rebuild.store.held import Held
from rebuild.store.identity import Identity
from rebuild.store.journaling import journal_all
from rebuild.store.same_file import SameFile

#: Keeps one held entry in the file.
Keep = Callable[[Connection, Held], None]


class OnDisk:
    """One file opened by ``writer``; ``lost`` says why nothing can be stored there now, ``held`` what waits for it.

    Raises:
        FileElsewhere: what lies at the path is no longer what was ``opened``.
    """

    def __init__(self, path: Path, opened: Identity | None, writer: Engine) -> None:
        self.path = path
        self.lost: FileElsewhere | None = None
        self.held: list[Held] = []
        self._writer = writer
        with self._raw() as raw:
            self._same = SameFile(path, opened, raw)

    def journal(self) -> None:
        """Put the journal's triggers on the writer now, outside any transaction."""
        with self._raw() as raw:
            journal_all(raw)

    def refuse_if_elsewhere(self) -> None:
        """Outside any transaction: note and say that the file is not at its path. Raises FileElsewhere."""
        try:
            with self._raw() as raw:
                self._same.refuse_if_elsewhere(raw)
        except FileElsewhere as lost:
            self.note_lost(lost)
            raise
        self.lost = None

    @contextmanager
    def writing(self, raw: sqlite3.Connection) -> Iterator[None]:
        """In a transaction: what is written within is stored only if the file is at its path before and after."""
        self._same.refuse_if_elsewhere(raw)
        self._same.begin(raw)
        yield
        self._same.refuse_if_elsewhere(raw)

    def ended(self, *, stored: bool) -> None:
        """The transaction ended."""
        self._same.ended(stored=stored)

    def beside_the_journal(self, write: Callable[[Connection], None]) -> None:
        """Write what is never undone, in a transaction of its own. Raises FileElsewhere."""
        with self._writer.begin() as connection, self.writing(entry.driver(connection)):
            write(connection)
        self.ended(stored=True)

    def keep_or_hold(self, one: Held, keep: Keep) -> bool:
        """Keep an entry in the file, or hold it in memory while the file is elsewhere; True when it is kept."""
        try:
            self.beside_the_journal(lambda connection: keep(connection, one))
        except FileElsewhere as lost:
            self.note_lost(lost)
            self.held.append(one)
            return False
        return True

    def keep_held(self, keep: Keep) -> bool:
        """The file is at its path again: what was held meanwhile is kept in it; True when there was something."""
        kept = bool(self.held)
        while self.held:
            self.beside_the_journal(lambda connection: keep(connection, self.held[0]))
            del self.held[0]
        return kept

    def note_lost(self, lost: FileElsewhere) -> None:
        """The file is elsewhere: its log still lies under the old name, so it is moved into it by the handle."""
        if self.lost is None and not lost.overwritten:
            self._same.make_whole(self._writer)
        self.lost = lost

    def make_whole(self) -> bool:
        """Move the log into the file; False when it must wait for a reader, or the file is elsewhere."""
        try:
            self.refuse_if_elsewhere()
        except FileElsewhere:
            return False
        return self._same.make_whole(self._writer)

    def shorten_log(self) -> None:
        """After an act: a log that has become long is moved into the file."""
        if self._same.log_is_long:
            self.make_whole()

    def before_closing(self) -> None:
        """The last thing while connections are open: the file is one file again, and nothing is mixed into another."""
        self.make_whole()
        if self.lost is not None and self.lost.overwritten:
            foreign_log.keep_apart(self.path)

    def after_closing(self) -> None:
        """When all connections are closed: nothing of a file that went away stays under its old name."""
        if self.lost is not None and not self.path.exists():
            foreign_log.leave_nothing(self.path)

    @contextmanager
    def _raw(self) -> Iterator[sqlite3.Connection]:
        """The driver's writing connection, outside any transaction."""
        pooled = self._writer.raw_connection()
        try:
            yield cast(sqlite3.Connection, pooled.driver_connection)
        finally:
            pooled.close()
