"""Do two databases hold the same: every value of every row of every table, read as they stream by."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from itertools import zip_longest

#: Rows compared at a time.
CHUNK = 2_000


def compare(one: sqlite3.Connection, other: sqlite3.Connection, heard: Callable[[float], None]) -> str:
    """Where the two differ first, in words; empty when they are the same in every value.

    Texts are compared as the bytes they are stored as, numbers with their type: 1 is not 1.0.
    ``heard`` is told the share of tables compared and may raise to stop.
    """
    if _master(one) != _master(other):
        return "its tables"
    tables = [name for (name,) in one.execute(_TABLES)]
    for place, table in enumerate(tables):
        heard(place / max(len(tables), 1))
        for mine, its in zip_longest(_chunks(one, table), _chunks(other, table)):
            heard(place / max(len(tables), 1))
            if mine != its:
                return f"the rows of {table}"
    heard(1.0)
    return ""


_TABLES = "SELECT name FROM sqlite_master WHERE type = 'table' AND rootpage > 0 ORDER BY name"


def _master(raw: sqlite3.Connection) -> list[tuple[object, ...]]:
    return raw.execute("SELECT type, name, tbl_name, sql FROM sqlite_master ORDER BY type, name").fetchall()


def _chunks(raw: sqlite3.Connection, table: str) -> Iterator[list[tuple[tuple[object, type], ...]]]:
    """The rows of a table in the order of their keys; each value with its type."""
    quoted = table.replace('"', '""')
    cursor = raw.cursor()
    was, raw.text_factory = raw.text_factory, _Text
    try:
        cursor.execute(f'SELECT * FROM "{quoted}" ORDER BY rowid')
    except sqlite3.OperationalError:  # a table without row numbers
        cursor.execute(f'SELECT * FROM "{quoted}"')
    while True:
        raw.text_factory = _Text
        rows = cursor.fetchmany(CHUNK)
        raw.text_factory = was
        if not rows:
            return
        yield [tuple((value, type(value)) for value in row) for row in rows]


class _Text(bytes):
    """A text as it is stored: not the same as a blob of those bytes."""
