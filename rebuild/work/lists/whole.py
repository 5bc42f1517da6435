"""Everything of an exported file: each table's rows as they were stored, held against what a table may hold."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import cast

from sqlalchemy import Boolean, Column, Enum, Float, Integer, Table

from rebuild.errors import BadEntry
from rebuild.model.stored import Moment
from rebuild.model.tables.every import whole
from rebuild.trade.schedule.dates import in_sense
from rebuild.work.lists.plain_rows import Value
from rebuild.work.lists.rows_everything import word_of

#: SQLite's whole numbers end below this; and no figure of a shop is larger than that.
_PAST_SQLITE, _PAST_NUMBERS = 2**63, 1e300


@dataclass(frozen=True, slots=True)
class WholeTable:
    """The rows of one table, in the order of ``columns``; the first is the row's number."""

    name: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Value, ...], ...]


@dataclass(frozen=True, slots=True)
class Whole:
    """Every journaled table, what is referred to first; settings; and entries kept, as meant for, typed, why."""

    tables: tuple[WholeTable, ...]
    settings: tuple[tuple[str, str], ...] = ()
    kept: tuple[tuple[str, str, str], ...] = ()

    @property
    def count(self) -> int:
        """Rows of all tables."""
        return sum(len(table.rows) for table in self.tables)


def whole_of(records: Mapping[str, Sequence[Mapping[str, object]]]) -> Whole:
    """What an export holds, checked value by value.

    Raises:
        BadEntry: a table, column or value no file of this program holds.
    """
    journaled = [table for table in whole().sorted_tables if table.info.get("journaled")]
    known = {table.name for table in journaled} | {"act", "setting", "kept_entry"}
    strange = next((name for name in records if name not in known), None)
    if strange is not None:
        raise BadEntry(
            "is no list of this program.",
            where="Export",
            value=strange,
            way_out="A newer program may read it.",
        )
    return Whole(
        tuple(_table(table, records[table.name]) for table in journaled if records.get(table.name)),
        tuple((str(row.get("key", "")), str(row.get("value", ""))) for row in records.get("setting", ())),
        tuple(
            (str(row.get("meant_for", "")), str(row.get("typed", "")), str(row.get("why", "")))
            for row in records.get("kept_entry", ())
            if not row.get("settled")
        ),
    )


def _table(table: Table, rows: Sequence[Mapping[str, object]]) -> WholeTable:
    given = set().union(*(row.keys() for row in rows))
    strange = next(iter(sorted(given - set(table.c.keys()))), None)
    if strange is not None:
        raise BadEntry(
            "is no column of this program.",
            where=word_of(table.name),
            value=strange,
            way_out="The export was made by a newer program: bring it in with that one.",
        )
    columns = [table.c.id, *(column for column in table.c if column.name != "id")]
    made = tuple(tuple(_value(table, column, row) for column in columns) for row in rows)
    if len({row[0] for row in made}) < len(made):
        raise BadEntry(
            "has two rows of one number.",
            where="Export",
            value=table.name,
            way_out="Export again from the file it came from.",
        )
    return WholeTable(table.name, tuple(column.name for column in columns), made)


def _value(table: Table, column: Column[object], row: Mapping[str, object]) -> Value:
    """A value as it is stored. Raises BadEntry."""
    value = row[column.name] if column.name in row else _usual(column)
    if value is None and column.nullable:
        return None
    stored = _stored(column, value)
    if stored is None:
        raise BadEntry(
            "is not what stands there.",
            where=f"{word_of(table.name)} no. {row.get('id', '?')}, {column.name}",
            value="nothing" if value is None else str(value)[:40],
            way_out="Export again from the file it came from.",
        )
    return stored


def _usual(column: Column[object]) -> object:
    usual = getattr(column.default, "arg", None)
    return getattr(usual, "value", usual)


def _stored(column: Column[object], value: object) -> Value:
    """The value as SQLite holds it; None when it is of another kind."""
    kind = column.type
    if isinstance(kind, Boolean):
        return value if isinstance(value, bool) else None
    if isinstance(kind, Integer):
        whole_number = isinstance(value, int) and not isinstance(value, bool) and abs(value) < _PAST_SQLITE
        return cast(int, value) if whole_number else None
    if isinstance(kind, Float):
        number = value if isinstance(value, (int, float)) and not isinstance(value, bool) else math.nan
        return number * 1.0 if abs(number) < _PAST_NUMBERS else None
    if not isinstance(value, str) or (not value.isprintable() and _lone(value)):
        return None
    if isinstance(kind, Moment):
        return _moment(value)
    return None if isinstance(kind, Enum) and value not in kind.enums else value


def _lone(text: str) -> bool:
    """Whether a text has half a sign, which no file can hold."""
    return any("\ud800" <= letter <= "\udfff" for letter in text)


def _moment(text: str) -> str | None:
    try:
        moment = dt.datetime.fromisoformat(text).replace(tzinfo=None)
    except ValueError:
        return None
    return moment.isoformat(timespec="seconds") if in_sense(moment) else None
