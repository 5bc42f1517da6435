"""Before a statement writes, the journal's triggers of what it may touch are on the connection.

Two hundred of them cost more than most acts; an act writes to a few tables. What a statement names is asked of the
statement itself; a row that goes may take others with it, or empty their references, along every foreign key. What
cannot be told from a statement brings all.
"""

from __future__ import annotations

import re
import sqlite3
from functools import cache
from pathlib import Path
from typing import Any

from sqlalchemy import Engine, Table, event

from rebuild.model.tables.every import whole
from rebuild.store.connect import writer_engine
from rebuild.store.triggers import begin, install

_WRITES = re.compile(r"\s*(INSERT|REPLACE|UPDATE|DELETE|WITH)\b", re.IGNORECASE)
#: Statements by which rows go: what refers to them may go with them.
_ROWS_GO = re.compile(r"\s*(DELETE|REPLACE|(INSERT|UPDATE)\s+OR\s+REPLACE)\b", re.IGNORECASE)
_NAMED = re.compile(
    r"\s*(?:(?:INSERT|REPLACE)(?:\s+OR\s+\w+)?\s+INTO|UPDATE(?:\s+OR\s+\w+)?|DELETE\s+FROM)"
    r'\s+(?:main\.)?(?:"(\w+)"|(\w+))',
    re.IGNORECASE,
)


def journaled(path: Path) -> Engine:
    """The one writing connection of this process to a file, what it writes in an act noted in the journal."""
    writer = writer_engine(path, begin)
    _Journaling(writer)
    return writer


class _Journaling:
    """Listens to one writing engine; ``there`` are the tables whose triggers are on its connection, if known."""

    def __init__(self, writer: Engine) -> None:
        self._there: set[str] | None = None
        event.listen(writer, "connect", self._forget)
        event.listen(writer, "rollback", self._forget)  # it takes away what was made within
        event.listen(writer, "rollback_savepoint", self._forget)
        event.listen(writer, "before_cursor_execute", self._before)

    def _forget(self, *_event: object) -> None:
        self._there = None

    def _before(
        self, connection: Any, _cursor: object, statement: str, _given: object, context: Any, _many: bool
    ) -> None:
        tables = _touched(statement, context)
        if tables and (self._there is None or not tables <= self._there):
            self._there = install(connection.connection.driver_connection, tables)


def journal_all(raw: sqlite3.Connection) -> None:
    """Put every trigger on the writer: while nobody waits, or before statements given to the driver itself."""
    begin(raw)
    install(raw)


def _touched(statement: str, context: Any) -> frozenset[str]:
    """The tables a statement writes to, with those its cascades reach."""
    table = _table(statement, context)
    if table is None:
        return frozenset(whole().tables) if _WRITES.match(statement) else frozenset()
    return _with_cascades(table) if _ROWS_GO.match(statement) else frozenset((table,))


def _table(statement: str, context: Any) -> str | None:
    """The table a statement names as the one it writes to; None if it writes to none or cannot be told."""
    if context is not None and (context.isinsert or context.isupdate or context.isdelete):
        table = getattr(getattr(context.compiled, "statement", None), "table", None)
        if isinstance(table, Table):
            return table.name
    named = _NAMED.match(statement)
    return None if named is None else named[1] or named[2]


@cache
def _with_cascades(name: str) -> frozenset[str]:
    """A table and all that refer to it, directly or through others."""
    refer: dict[str, set[str]] = {}
    for table in whole().tables.values():
        for key in table.foreign_keys:
            refer.setdefault(key.column.table.name, set()).add(table.name)
    found, new = {name}, {name}
    while new:
        new = set().union(*(refer.get(one, set()) for one in new)) - found
        found |= new
    return frozenset(found)
