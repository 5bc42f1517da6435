"""What is kept beside the journal and never undone: settings of the file, and entries saved from being lost."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import Connection, text

from rebuild.store import checksums
from rebuild.store.entry import driver

SETTINGS = "SELECT key, value FROM setting"


def settings(connection: Connection) -> dict[str, str]:
    """Every setting of the file by key."""
    rows = connection.exec_driver_sql(SETTINGS)
    return {str(row.key): str(row.value) for row in rows}


def put_setting(connection: Connection, key: str, value: str) -> None:
    """Store a setting of the file."""
    connection.execute(
        text(
            "INSERT INTO setting (key, value) VALUES (:key, :value) "
            "ON CONFLICT (key) DO UPDATE SET value = excluded.value"
        ),
        {"key": key, "value": value},
    )
    raw = driver(connection)
    (row,) = raw.execute("SELECT rowid FROM setting WHERE key = ?", (key,)).fetchone()
    checksums.put(raw, checksums.SETTING, row)


def keep(connection: Connection, meant_for: str, typed: str, why: str) -> None:
    """Keep what was typed but could not be stored where it was meant."""
    at = dt.datetime.now().isoformat(timespec="seconds")  # noqa: DTZ005 - wall clock
    made = connection.execute(
        text(
            "INSERT INTO kept_entry (at, meant_for, typed, why, settled) "
            "VALUES (:at, :meant_for, :typed, :why, 0)"
        ),
        {"at": at, "meant_for": _writable(meant_for), "typed": _writable(typed), "why": _writable(why)},
    )
    checksums.put(driver(connection), checksums.KEPT, made.lastrowid)


def _writable(typed: str) -> str:
    """The text with a mark where half of a character stands: what is kept must never be refused."""
    return typed.encode("utf-8", "replace").decode("utf-8")


def settle(connection: Connection, kept_id: int) -> None:
    """Mark a kept entry as dealt with."""
    connection.execute(
        text("UPDATE kept_entry SET settled = 1, crc = crc + 1 - settled WHERE id = :id"),
        {"id": kept_id},
    )
