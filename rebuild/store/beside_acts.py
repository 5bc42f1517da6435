"""What an open file stores beside its acts and never undoes: settings, kept entries, the index of words."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from pathlib import Path

from sqlalchemy import Connection

from rebuild.errors import FileElsewhere
from rebuild.store import entry, settings_and_kept as aside
from rebuild.store.changed import NO_ROWS, Changed
from rebuild.store.find.bites import begin_anew, bite
from rebuild.store.find.index import behind, follow, make_anew
from rebuild.store.held import Held
from rebuild.store.observers import Observers
from rebuild.store.on_disk import OnDisk
from rebuild.store.sqlite_words import explained
from rebuild.store.views import Views
from rebuild.store.watch import Watch


class BesideActs:
    """What one window stores in a file without an act; observers hear of settings and kept entries.

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
        self._path = path
        self._on_disk = on_disk
        self._followed = followed
        self._views = views
        self._observers = observers

    def setting(self, key: str, default: str) -> str:
        """A setting of the file."""
        with explained(self._path):
            return self._followed().settings().get(key, default)

    def set_setting(self, key: str, value: str) -> None:
        """Store a setting; observers hear of the table ``setting``. Raises FileTrouble."""
        with explained(self._path):
            self._on_disk().beside_the_journal(lambda connection: aside.put_setting(connection, key, value))
        self._followed().have_set(key, value)
        self._views.look_anew()
        self._observers.tell(Changed(f"setting {key}", {"setting": NO_ROWS}))

    def keep_entry(self, one: Held) -> None:
        """Keep an entry, or hold it in memory while the file is not at its path. Raises FileTrouble."""
        with explained(self._path):
            kept = self._on_disk().keep_or_hold(one, _keep)
        if kept:
            self.tell_kept()

    def keep_held(self) -> bool:
        """The file is at its path again: keep what was held meanwhile; True when there was something."""
        return self._on_disk().keep_held(_keep)

    def settle_kept(self, kept_id: int) -> None:
        """Mark a kept entry as dealt with; observers hear. Raises FileTrouble."""
        with explained(self._path):
            self._on_disk().beside_the_journal(lambda connection: aside.settle(connection, kept_id))
        self.tell_kept()

    def tell_kept(self) -> None:
        """Observers hear that kept entries changed."""
        self._views.look_anew()
        self._observers.tell(Changed("kept entries", {"kept_entry": NO_ROWS}))

    def follow_words(self, *, anew: bool) -> bool:
        """Bring the index of words up to the journal; True when it was behind. Raises FileTrouble."""
        with self._views.read() as connection:
            if not anew and behind(entry.driver(connection)) == 0:
                return False
        bring = make_anew if anew else follow
        with explained(self._path):
            try:
                self._on_disk().beside_the_journal(lambda connection: bring(entry.driver(connection)))
            except FileElsewhere as lost:
                self._on_disk().note_lost(lost)
                return False
            except sqlite3.DatabaseError:
                self._on_disk().beside_the_journal(lambda connection: make_anew(entry.driver(connection)))
        self._views.look_anew()
        return True

    def follow_some_words(self) -> float:
        """Take up some more words; the share the index knows by now. Raises FileTrouble."""
        shares: list[float] = []
        with explained(self._path):
            try:
                self._on_disk().beside_the_journal(
                    lambda connection: shares.append(bite(entry.driver(connection)))
                )
            except FileElsewhere as lost:
                self._on_disk().note_lost(lost)
                return 1.0
            except sqlite3.DatabaseError:
                self._on_disk().beside_the_journal(
                    lambda connection: shares.append(begin_anew(entry.driver(connection)))
                )
        self._views.look_anew()
        return shares[0]

    def words_behind(self) -> int:
        """How many changes the index does not know; -1 when it is not whole. Raises FileTrouble."""
        with self._views.read() as connection:
            return behind(entry.driver(connection))


def _keep(connection: Connection, one: Held) -> None:
    aside.keep(connection, one.meant_for, one.typed, one.why)
