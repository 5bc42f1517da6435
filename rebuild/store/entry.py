"""The journal entry of one act, written on the driver's own connection: it is paid for at every Enter."""

from __future__ import annotations

import datetime as dt
import sqlite3
from typing import cast

from sqlalchemy import Connection

_SEAL = "UPDATE act SET sealed = 1 WHERE undone = 1 AND sealed = 0 AND id <> ?"


def driver(connection: Connection) -> sqlite3.Connection:
    """SQLite's connection under SQLAlchemy's; the transaction is the same."""
    return cast(sqlite3.Connection, connection.connection.driver_connection)


def begin(raw: sqlite3.Connection, kind: str, subject: str, window: str, reverses: int | None) -> int:
    """Open the entry; from here on every changed row is noted under it. Returns the act's id."""
    at = dt.datetime.now().isoformat(timespec="seconds")  # noqa: DTZ005 - wall clock
    act_id = raw.execute(
        "INSERT INTO act (kind, subject, at, window, reverses, undone, sealed) VALUES (?, ?, ?, ?, ?, 0, 0)",
        (kind, subject, at, window, reverses),
    ).lastrowid
    raw.execute("UPDATE current_act SET id = ?", (act_id,))
    return int(act_id or 0)


def end(raw: sqlite3.Connection, act_id: int, subject: str, *, new: bool) -> None:
    """Close the entry under its last words; a ``new`` act seals what was taken back before it."""
    raw.execute("UPDATE act SET subject = ? WHERE id = ? AND subject <> ?", (subject, act_id, subject))
    if new:
        raw.execute(_SEAL, (act_id,))
    raw.execute("UPDATE current_act SET id = NULL")
