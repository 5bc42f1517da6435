"""Notice what other windows and programs write to the file: their journal entries, and settings.

``PRAGMA data_version`` on one connection held open tells that *somebody* committed; the journal's
change ids tell *what*. A change id is taken as seen only after the transaction that read it ended
well: a rolled-back id is given out again.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from typing import cast

from sqlalchemy import Engine

from rebuild.store import settings_and_kept as aside
from rebuild.store.changed import NO_ROWS, Changed, Rows, net
from rebuild.store.entry import driver

ELSEWHERE = "another window"


class Watch:
    """How far this window has followed the file."""

    def __init__(self, reader: Engine) -> None:
        self._reader = reader
        self._held = reader.raw_connection()
        self._version = self._data_version()
        with reader.connect() as connection:
            self._seen = int(
                connection.exec_driver_sql("SELECT COALESCE(MAX(id), 0) FROM change").scalar_one()
            )
            self._settings = aside.settings(connection)
        self._known, self._known_at = dict(self._settings), self._version

    def close(self) -> None:
        """Let go of the connection held open."""
        self._held.close()

    @contextmanager
    def lend(self) -> Iterator[sqlite3.Connection]:
        """The connection held open: the only way to read a file that no longer lies at its path."""
        raw = cast(sqlite3.Connection, self._held.driver_connection)
        try:
            yield raw
        finally:
            if raw.in_transaction:
                raw.execute("ROLLBACK")

    def news(self) -> Changed:
        """What others have written since the last look; empty when nobody has."""
        version = self._data_version()
        if version == self._version:
            return Changed()
        with self._reader.connect() as connection:
            _, changed, seen = self.since_seen(driver(connection), None)
        settings = dict(self.settings())
        self._version, self._seen = version, seen
        tables: dict[str, Rows] = dict(changed.tables)
        if settings != self._settings:
            self._settings = settings
            tables["setting"] = NO_ROWS
        return Changed(ELSEWHERE, tables, elsewhere=True) if tables else Changed()

    def settings(self) -> dict[str, str]:
        """Every setting as it stands, read again only when somebody has written since."""
        version = self._data_version()
        if version != self._known_at:
            cursor = self._held.cursor()
            try:
                cursor.execute(aside.SETTINGS)
                self._known = {str(key): str(value) for key, value in cursor.fetchall()}
            finally:
                cursor.close()
            self._known_at = version
        return self._known

    def since_seen(
        self, raw: sqlite3.Connection, own_act: int | None
    ) -> tuple[dict[str, Rows], Changed, int]:
        """What ``own_act`` changed, what others changed and was not told yet, and the newest change id."""
        rows = raw.execute(
            "SELECT id, tbl, row_id, op, act_id FROM change WHERE id > ? ORDER BY id", (self._seen,)
        ).fetchall()
        own = net(row[1:4] for row in rows if row[4] == own_act)
        foreign = net(row[1:4] for row in rows if row[4] != own_act)
        newest = int(rows[-1][0]) if rows else self._seen
        return own, Changed(ELSEWHERE, foreign, elsewhere=True) if foreign else Changed(), newest

    def have_seen(self, change_id: int) -> None:
        """Everything up to ``change_id`` has been told; called after the commit."""
        self._seen = change_id

    @property
    def seen(self) -> int:
        """The newest change that was told."""
        return self._seen

    def look_from(self, change_id: int) -> None:
        """The next look tells all that was written after this change."""
        self._seen, self._version = change_id, -1

    def have_set(self, key: str, value: str) -> None:
        """This window stored a setting itself."""
        self._settings[key] = value

    def _data_version(self) -> int:
        cursor = self._held.cursor()
        try:
            cursor.execute("PRAGMA data_version")
            row = cursor.fetchone()
            return int(row[0]) if row is not None else 0
        finally:
            cursor.close()
