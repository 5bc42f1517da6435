"""Reading an open file: a short view for each question, or one view for all that is asked together."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import get_ident

from sqlalchemy import Connection, Engine

from rebuild.store.connect import reader_engine
from rebuild.store.sqlite_words import explained


class Views:
    """The reading connections of one open file; ``prepare`` is done to each before it is asked anything."""

    def __init__(self, path: Path, prepare: Callable[[sqlite3.Connection], None]) -> None:
        self.engine: Engine = reader_engine(path, prepare)
        self._path = path
        self._together: int | None = None  # the thread whose readings share one connection now
        self._shared: Connection | None = None

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """A short reading connection: one consistent view of the file. Raises FileTrouble."""
        with explained(self._path):
            if self._together == get_ident():
                if self._shared is None:
                    self._shared = self.engine.connect()
                yield self._shared
            else:
                with self.engine.connect() as connection:
                    yield connection

    @contextmanager
    def together(self) -> Iterator[None]:
        """Readings of this thread within share one connection, and so one view."""
        if self._together is not None:
            yield
            return
        self._together = get_ident()
        try:
            yield
        finally:
            self._together = None
            self.part()

    def look_anew(self) -> None:
        """What was just stored is seen by readings that share a connection."""
        if self._shared is not None:
            self._shared.rollback()

    def part(self) -> None:
        """Close the shared connection; the next reading opens one again."""
        if self._shared is not None:
            self._shared.close()
            self._shared = None
