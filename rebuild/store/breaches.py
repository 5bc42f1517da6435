"""What the schema refuses, said of the record and the field, while the refused values are still at hand.

The schema holds a reference to what is there (FOREIGN KEY) and a value where one must be (NOT NULL), and keys that
are there once (UNIQUE, PRIMARY KEY). SQLite says only which kind was broken; the statement says of what.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Mapping
from typing import Any

from sqlalchemy import Column, Engine, Table, UniqueConstraint, event
from sqlalchemy.engine import ExceptionContext

from rebuild.errors import BadEntry, NotThere, RebuildError
from rebuild.store.sqlite_words import code_of

_TWICE = (sqlite3.SQLITE_CONSTRAINT_UNIQUE, sqlite3.SQLITE_CONSTRAINT_PRIMARYKEY)
_Values = Mapping[str, Any]


def name_breaches(engine: Engine) -> None:
    """Have what the schema refuses come out of this engine as a sentence, where its record and field can be named."""

    @event.listens_for(engine, "handle_error")
    def named(context: ExceptionContext) -> RebuildError | None:
        code = code_of(context.original_exception)
        if code & 0xFF != sqlite3.SQLITE_CONSTRAINT or context.connection is None:
            return None
        table, rows = _written(context)
        if table is None:
            return None
        raw = context.connection.connection.driver_connection
        return next(filter(None, (_breach(raw, code, table, values) for values in rows)), None)


def _written(context: ExceptionContext) -> tuple[Table | None, list[_Values]]:
    """The table written to and the rows' values by column; no table for a statement in plain SQL."""
    run = context.execution_context
    compiled: Any = getattr(run, "compiled", None)
    table = getattr(getattr(compiled, "statement", None), "table", None)
    return (table, list(getattr(run, "compiled_parameters", ()))) if isinstance(table, Table) else (None, [])


def _breach(raw: Any, code: int, table: Table, values: _Values) -> RebuildError | None:
    if code == sqlite3.SQLITE_CONSTRAINT_FOREIGNKEY:
        return next((_gone(table, column, values) for column in _dangling(raw, table, values)), None)
    if code == sqlite3.SQLITE_CONSTRAINT_NOTNULL:
        return next((_empty(table, column) for column in _missing(table, values)), None)
    if code in _TWICE:
        return next((_twice(table, names, values) for names in _taken(raw, table, values)), None)
    return None


def _dangling(raw: Any, table: Table, values: _Values) -> Iterator[Column[Any]]:
    """Columns whose value refers to a row that is not there."""
    for column in table.columns:
        value = values.get(column.key)
        if value is None:
            continue
        for key in column.foreign_keys:
            parent = key.column
            found = raw.execute(f'SELECT 1 FROM "{parent.table.name}" WHERE "{parent.name}" = ?', (value,))
            if found.fetchone() is None:
                yield column


def _missing(table: Table, values: _Values) -> Iterator[Column[Any]]:
    return (c for c in table.columns if not c.nullable and c.key in values and values[c.key] is None)


def _taken(raw: Any, table: Table, values: _Values) -> Iterator[tuple[str, ...]]:
    """Sets of columns whose values another row has already."""
    keys = [tuple(c.name for c in table.primary_key.columns)]
    keys += [
        tuple(c.name for c in one.columns) for one in table.constraints if isinstance(one, UniqueConstraint)
    ]
    keys += [tuple(c.name for c in one.columns) for one in table.indexes if one.unique]
    for names in keys:
        if names and all(values.get(name) is not None for name in names):
            where = " AND ".join(f'"{name}" = ?' for name in names)
            there = raw.execute(
                f'SELECT 1 FROM "{table.name}" WHERE {where}', [values[name] for name in names]
            )
            if there.fetchone() is not None:
                yield names


def _gone(table: Table, column: Column[Any], values: _Values) -> NotThere:
    return NotThere(
        f"refers to no. {values[column.key]}, which is no longer there.",
        where=f"{_words(table.name)}, {_field(column.name)}",
        way_out="It may have been removed in another window; look again and choose another.",
    )


def _empty(table: Table, column: Column[Any]) -> BadEntry:
    return BadEntry(
        "must be filled in.",
        where=f"{_words(table.name)}, {_field(column.name)}",
        way_out="Type a value; what was there before stands.",
    )


def _twice(table: Table, names: tuple[str, ...], values: _Values) -> BadEntry:
    return BadEntry(
        "is there already.",
        where=f"{_words(table.name)}, {' and '.join(map(_field, names))}",
        value=", ".join(str(values[name]) for name in names),
        way_out="Choose another, or edit the one that is there.",
    )


def _words(table: str) -> str:
    return table.replace("_", " ").capitalize()


def _field(column: str) -> str:
    return column.removesuffix("_id").replace("_", " ")
