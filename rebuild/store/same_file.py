"""Is what lies at the path still the file that was opened, and is it still what its log builds on?

Asked at every look for news and in every act before it commits. SQLite holds the file by its handle: without
this question a renamed or deleted file goes on taking entries that nobody finds again.
"""

from __future__ import annotations

import sqlite3
from pathlib import Path

from sqlalchemy import Engine

from rebuild.errors import FileElsewhere
from rebuild.store.identity import Identity, identity, went_to
from rebuild.store.write_ahead import (
    belongs,
    log_path,
    mark_of,
    mark_on,
    next_mark,
    put_mark,
    read_log,
    salts,
)

#: A log longer than this is moved into the file after the act, not first when nobody types.
LOG_BYTES = 4_000_000

_KEPT = "Nothing more is stored there; what you type is kept here."


class SameFile:
    """The identity of one open file and the marks of its log."""

    def __init__(self, path: Path, opened: Identity | None, raw: sqlite3.Connection) -> None:
        self.path = path
        found = identity(path)
        if found is None or opened is None or not found.same_file(opened):
            raise FileElsewhere(
                "was renamed, moved or replaced in the very moment of opening.",
                where=path.name,
                way_out="Open it again.",
            )
        self._known = found
        self._marked = b""
        self._marking: int | None = None
        self._mark = mark_on(raw)

    def refuse_if_elsewhere(self, raw: sqlite3.Connection) -> None:
        """Say loudly when the path no longer leads to the file that is open. Raises FileElsewhere."""
        found = identity(self.path)
        if found is None or not found.same_file(self._known):
            raise self._elsewhere(found)
        if found != self._known:
            if not self._still_ours(raw):
                raise FileElsewhere(
                    f"another program has overwritten the file while it was open. {_KEPT}",
                    where=self.path.name,
                    way_out="What it holds now is that program's copy; what was stored before is in your backups and "
                    "in the log kept beside it, which “rebuild repair” reads. Saving under a new name keeps that "
                    "copy with what you type from now on.",
                    overwritten=True,
                )
            self._known = found

    def _elsewhere(self, found: Identity | None) -> FileElsewhere:
        now = went_to(self._known, self.path)
        replaced = " and another file lies in its place" if found is not None else ""
        if now is not None:
            return FileElsewhere(
                f"the file was renamed or moved while it was open{replaced}; it is now {now}. {_KEPT}",
                where=self.path.name,
                way_out="Go on where it is now, or save under a new name.",
                went_to=str(now),
            )
        what = "was replaced by another file" if found is not None else "was deleted or moved away"
        return FileElsewhere(
            f"the file {what} while it was open. {_KEPT}",
            where=self.path.name,
            way_out="Save what is held under a new name.",
        )

    def _still_ours(self, raw: sqlite3.Connection) -> bool:
        """Whether the file on the disk is what this window and others made of it, not a stranger's bytes."""
        base = mark_of(self.path)
        if base is None:
            return False
        if base == self._mark or base == mark_on(raw):
            return True
        log = read_log(self.path)
        return log is not None and belongs(base, log) is True

    # The marks of the log

    def begin(self, raw: sqlite3.Connection) -> None:
        """In a transaction that is about to write: a log not marked by this window yet gets its mark."""
        found = salts(self.path)
        self._marking = None
        if not found or found != self._marked:
            self._marking = next_mark(mark_on(raw))
            put_mark(raw, self._marking)

    def ended(self, *, stored: bool) -> None:
        """The transaction ended; only one that was stored has left a mark."""
        if stored and self._marking is not None:
            self._mark = self._marking
            self._marked = salts(self.path)
        self._marking = None

    @property
    def log_is_long(self) -> bool:
        """Whether the log should be moved into the file now."""
        try:
            return log_path(self.path).stat().st_size > LOG_BYTES
        except OSError:
            return False

    def make_whole(self, writer: Engine) -> bool:
        """Move all of the log into the file, so that a copy of the one file holds everything.

        Returns False when another window is in the middle of reading or writing; nothing is waited for.
        """
        raw = writer.raw_connection()
        try:
            cursor = raw.cursor()
            patience = cursor.execute("PRAGMA busy_timeout").fetchone()
            cursor.execute("PRAGMA busy_timeout = 0")
            try:
                row = cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
                done = row is not None and row[0] == 0
            except sqlite3.OperationalError:
                done = False
            finally:
                cursor.execute(f"PRAGMA busy_timeout = {patience[0] if patience else 0}")
                cursor.close()
        finally:
            raw.close()
        found = identity(self.path)
        if found is not None and found.same_file(self._known):
            self._known = found
        return done
