"""What may stand in a cell that cannot be read: what the journal last knew, the words for it, how one is typed."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Boolean, Connection, Double, Enum, Integer

from rebuild.errors import BadEntry
from rebuild.model.cells import Cell
from rebuild.model.stored import Moment
from rebuild.model.tables.every import every_table
from rebuild.store.cell_rules import every_rule
from rebuild.store.unreadable import BadCell
from rebuild.trade.schedule.dates import read_moment
from rebuild.trade.sizes.number import read_number, read_whole

#: So many rows of another list are offered where one of them must be named.
MOST = 500
_NAMED_BY = ("name", "title", "topic", "text", "code")


@dataclass(frozen=True, slots=True)
class MayStand:
    """What may be typed into a bad cell: in words, the choices where there are any, and what the journal had there."""

    told: str
    choices: tuple[str, ...]
    known: str = ""


def may_stand(connection: Connection, cell: BadCell) -> MayStand:
    """What may stand in a bad cell; the file is only read."""
    column = _column(cell)
    known = _known(connection, cell, column)
    empty = " It may be empty." if column.nullable else ""
    if column.refers:
        choices = _rows_of(connection, column.refers[0])
        return MayStand(f"the number of one of these{empty and ', or nothing'}.{empty}", choices, known)
    kind = column.made_type()
    told = "a text."
    words: tuple[str, ...] = ()
    if isinstance(kind, Enum):
        told, words = "one of these words.", tuple(kind.enums)
    elif isinstance(kind, Boolean):
        told, words = "yes or no.", ("yes", "no")
    elif isinstance(kind, Integer):
        told = "a whole number."
    elif isinstance(kind, Double):
        told = f"a number{_unit_words(cell.column)}."
    elif isinstance(kind, Moment):
        told = "a date, or date and time: 2026-03-14 19:30."
    return MayStand(f"{told}{empty}", words, known)


def value_of(cell: BadCell, typed: str) -> object:
    """What is stored for a text typed for a bad cell. Raises BadEntry or Ambiguous."""
    column, text = _column(cell), typed.strip()
    if not text and column.nullable:
        return None
    where, kind = f"{cell.table.replace('_', ' ')} no. {cell.row}, {cell.column}", column.made_type()
    if column.refers:
        return read_whole(text.split()[0] if text else "", where)
    if isinstance(kind, Enum):
        if text not in kind.enums:
            listed = ", ".join(kind.enums)
            raise BadEntry("is not one of the words.", where=where, value=text, way_out=f"Use {listed}.")
        return text
    if isinstance(kind, Boolean):
        if text.lower() not in ("yes", "no"):
            raise BadEntry("is neither yes nor no.", where=where, value=text, way_out="Type yes or no.")
        return int(text.lower() == "yes")
    if isinstance(kind, Integer):
        return read_whole(text, where)
    if isinstance(kind, Double):
        return read_number(text, where)
    if isinstance(kind, Moment):
        return read_moment(text, where).isoformat(timespec="seconds")
    return text


def lies_there(connection: Connection, cell: BadCell) -> bytes | None:
    """The bytes that stand in the cell now; None for an empty one or a row that is gone."""
    found = connection.exec_driver_sql(
        f'SELECT CAST("{cell.column}" AS BLOB) FROM main."{cell.table}" WHERE rowid = ?', (cell.row,)
    ).scalar()
    return found if isinstance(found, bytes) else None


def names_nothing(connection: Connection, cell: BadCell, value: object) -> bool:
    """Whether a value would refer to a row that is not there."""
    refers = _column(cell).refers
    if not refers or value is None:
        return False
    question = f'SELECT 1 FROM main."{refers[0]}" WHERE id = ?'
    return connection.exec_driver_sql(question, (value,)).scalar() is None


def still_bad(connection: Connection, cell: BadCell) -> bool:
    """Whether what stands in the cell now breaks its rule."""
    rules = next(rules for rules in every_rule() if rules.table == cell.table)
    rule = next(rule for rule in rules.cells if rule.column == cell.column)
    question = f'SELECT {rule.bad} FROM main."{cell.table}" WHERE rowid = ?'
    return bool(connection.exec_driver_sql(question, (cell.row,)).scalar())


def _column(cell: BadCell) -> Cell[Any]:
    table = next(asked for asked in every_table() if asked.table_name == cell.table)
    return next(column for column in table.cells() if column.name == cell.column)


def _known(connection: Connection, cell: BadCell, column: Cell[Any]) -> str:
    """What the journal's newest image of the row has there, as it would be typed; empty when that is no better."""
    found = connection.exec_driver_sql(
        f'SELECT CAST(j."a_{cell.column}" AS BLOB) FROM change AS c JOIN "j_{cell.table}" AS j '
        "ON j.change_id = c.id WHERE c.tbl = ? AND c.row_id = ? AND c.op <> 'd' ORDER BY c.id DESC LIMIT 1",
        (cell.table, cell.row),
    ).scalar()
    if not isinstance(found, bytes):
        return ""
    try:
        text = found.decode()
        if isinstance(column.made_type(), Moment):
            return dt.datetime.fromisoformat(text).isoformat(sep=" ", timespec="seconds")
    except ValueError:
        return ""
    if isinstance(column.made_type(), Boolean):
        return {"0": "no", "1": "yes"}.get(text, "")
    try:
        value_of(cell, text)
    except BadEntry:
        return ""
    return text


def _rows_of(connection: Connection, table: str) -> tuple[str, ...]:
    columns = {row[1] for row in connection.exec_driver_sql(f'PRAGMA main.table_info("{table}")')}
    name = next((column for column in _NAMED_BY if column in columns), "id")
    rows = connection.exec_driver_sql(
        f'SELECT id, CAST("{name}" AS BLOB) FROM main."{table}" ORDER BY id LIMIT {MOST}'
    )
    return tuple(f"{key}  {bytes(words or b'').decode(errors='replace')[:80]}".strip() for key, words in rows)


def _unit_words(column: str) -> str:
    unit = column.rpartition("_")[2]
    return f" in {unit}" if unit in ("mm", "min", "hours", "celsius") else ""
