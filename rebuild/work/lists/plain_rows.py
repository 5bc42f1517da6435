"""Rows of a question as plain values, read as they stream by: a word as its word, a time as ISO text.

The values are taken as the file stores them, which for a word is the word itself. Making an object of each and a text
of it again would take six times as long, and holding them all a gigabyte for a million readings.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from typing import Any

from sqlalchemy import Boolean, Connection, Select

from rebuild.model.stored import Moment

#: What a cell can hold; text as typed stays text.
Value = str | int | float | bool | None
#: Rows taken from SQLite at a time.
CHUNK = 500
_ISO = len("2026-03-14T19:30:00")


def plain_rows(connection: Connection, query: Select[Any]) -> Iterator[tuple[Value, ...]]:
    """The rows of a question, in its order."""
    changed = [(at, _CHANGED[type(one.type)]) for at, one in enumerate(query.selected_columns)
               if type(one.type) in _CHANGED]  # fmt: skip
    asked = connection.execute(query)
    cursor: Any = asked.cursor  # the driver's own: it gives each value as it is stored
    while rows := cursor.fetchmany(CHUNK):
        if not changed:
            yield from rows
            continue
        for row in rows:
            values = list(row)
            for at, change in changed:
                values[at] = change(values[at])
            yield tuple(values)
    asked.close()


def _moment(stored: Any) -> Value:
    if not stored:
        return None
    if len(stored) == _ISO and stored[10] == "T":
        return f"{stored[:10]} {stored[11:]}"
    return dt.datetime.fromisoformat(stored).isoformat(sep=" ", timespec="seconds")


def _yes_or_no(stored: Any) -> Value:
    return None if stored is None else bool(stored)


_CHANGED: dict[type, Callable[[Any], Value]] = {Moment: _moment, Boolean: _yes_or_no}
