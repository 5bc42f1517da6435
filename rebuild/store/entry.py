"""The journal entry of one act, written on the driver's own connection: it is paid for at every Enter.

Only here is an entry written or changed (migrations apart, which have ``migrating``), so that each keeps the checksum
that confirms it.
"""

from __future__ import annotations

import datetime as dt
import sqlite3
from typing import cast

from sqlalchemy import Connection

from rebuild.store import checksums

# What may change of an entry is in the last two bits of its checksum: sealed is 1, taken back 2.
_SEAL = "UPDATE act SET sealed = 1, crc = crc + 1 WHERE undone = 1 AND sealed = 0 AND id <> ?"
_MARK = "UPDATE act SET undone = :undone, crc = crc + 2 * (:undone - undone) WHERE id = :act"
_SET_RIGHT = """
UPDATE act SET sealed = 1, undone = CASE WHEN reverses IS NOT NULL THEN 0 ELSE COALESCE(
  (SELECT SUM(CASE r.kind WHEN 'UNDO' THEN 1 WHEN 'REDO' THEN -1 ELSE 0 END) FROM act AS r WHERE r.reverses = act.id),
  0) > 0 END
"""


def driver(connection: Connection) -> sqlite3.Connection:
    """SQLite's connection under SQLAlchemy's; the transaction is the same."""
    return cast(sqlite3.Connection, connection.connection.driver_connection)


def begin(raw: sqlite3.Connection, kind: str, subject: str, window: str, reverses: int | None) -> int:
    """Open the entry; from here on every changed row is noted under it. Returns the act's id."""
    act_id = _added(raw, kind, subject, window, reverses)
    raw.execute("UPDATE current_act SET id = ?", (act_id,))
    return act_id


def end(raw: sqlite3.Connection, act_id: int, subject: str, *, new: bool) -> None:
    """Close the entry under its last words; a ``new`` act seals what was taken back before it."""
    raw.execute("UPDATE act SET subject = ? WHERE id = ? AND subject <> ?", (subject, act_id, subject))
    checksums.put(raw, checksums.ACT, act_id)
    if new:
        raw.execute(_SEAL, (act_id,))
    raw.execute("UPDATE current_act SET id = NULL")


def mark(raw: sqlite3.Connection, act_id: int, *, undone: bool) -> None:
    """Note that an act is taken back, or stands again."""
    raw.execute(_MARK, {"undone": undone, "act": act_id})


def seal_whole(raw: sqlite3.Connection, kind: str) -> int:
    """Make all there is history only, standing or taken back as its undo and redo say, under a last act of ``kind``.

    Returns that act's number. When all is done, ``checksums.put_all`` confirms it.
    """
    raw.execute(_SET_RIGHT)
    act_id = _added(raw, kind, "", "", None)
    raw.execute("UPDATE act SET sealed = 1 WHERE id = ?", (act_id,))
    return act_id


def _added(raw: sqlite3.Connection, kind: str, subject: str, window: str, reverses: int | None) -> int:
    at = dt.datetime.now().isoformat(timespec="seconds")  # noqa: DTZ005 - wall clock
    act_id = raw.execute(
        "INSERT INTO act (kind, subject, at, window, reverses, undone, sealed) VALUES (?, ?, ?, ?, ?, 0, 0)",
        (kind, subject, at, window, reverses),
    ).lastrowid
    return act_id or 0
