"""Acts on an open file: each one transaction and one journal entry, told when it is stored; none in another."""

from __future__ import annotations

import os
import secrets
from collections.abc import Callable, Generator, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Engine

from rebuild.errors import FileElsewhere
from rebuild.store import entry, under_way
from rebuild.store.act import Act
from rebuild.store.changed import Changed
from rebuild.store.mapped import map_every_record
from rebuild.store.next_undo import label
from rebuild.store.observers import Observers
from rebuild.store.on_disk import OnDisk
from rebuild.store.sqlite_words import explained
from rebuild.store.tx import Tx
from rebuild.store.unreadable import BadCell, cannot_act
from rebuild.store.views import Views
from rebuild.store.watch import Watch


class Transactions:
    """The acts of one window on one file; ``acting`` while one is under way.

    ``on_disk`` and ``followed`` give the file on the disk and how far it is followed, or say that it is closed.
    """

    def __init__(
        self,
        path: Path,
        on_disk: Callable[[], OnDisk],
        followed: Callable[[], Watch],
        views: Views,
        observers: Observers,
    ) -> None:
        self.acting = False
        self._path = path
        self._window = f"{os.getpid()}-{secrets.token_hex(3)}"
        self._on_disk = on_disk
        self._followed = followed
        self._views = views
        self._observers = observers

    @contextmanager
    def one(
        self,
        writer: Engine,
        kind: Act,
        subject: str,
        *,
        reverses: int | None = None,
        bad_cells: Sequence[BadCell] = (),
    ) -> Iterator[Tx]:
        """One act of this kind, or the undoing of another (``reverses``); raises as ``Store.act``."""
        if self.acting:
            raise RuntimeError("acts do not nest")
        map_every_record()
        self.acting = True
        try:
            with explained(self._path), cannot_act(bad_cells):
                told = yield from self._run(writer, kind, subject, reverses, bad_cells)
        except FileElsewhere as lost:
            self.acting = False
            self._on_disk().note_lost(lost)
            raise
        finally:
            self.acting = False
            self._views.look_anew()
        self._on_disk().shorten_log()
        for changed in told:
            self._observers.tell(changed)

    def _run(
        self, writer: Engine, kind: Act, subject: str, reverses: int | None, bad_cells: Sequence[BadCell]
    ) -> Generator[Tx, None, tuple[Changed, Changed]]:
        """One transaction on the writer; returns others' news and this act's own, to be told after it."""
        from sqlalchemy.orm import Session

        act = under_way.UnderWay(None if bad_cells else self._views.engine)
        with writer.connect() as connection, connection.begin() as transaction:
            under_way.begin(connection, act)
            raw = entry.driver(connection)
            with self._on_disk().writing(raw):
                act_id = entry.begin(raw, kind.name, subject, self._window, reverses)
                session = Session(connection, expire_on_commit=False, autoflush=True)
                tx = Tx(session, connection, subject)
                try:
                    yield tx
                    session.flush()
                finally:
                    session.close()
                own, elsewhere, newest = self._followed().since_seen(raw, act_id)
                entry.end(raw, act_id, tx.subject, new=reverses is None)
            if not own and reverses is None:
                transaction.rollback()
                self._on_disk().ended(stored=False)
                return Changed(), Changed()
        self._on_disk().ended(stored=True)
        act.stored()
        self._followed().have_seen(newest)
        return elsewhere, Changed(label(kind.name, tx.subject), own)
