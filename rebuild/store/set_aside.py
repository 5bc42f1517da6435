"""Rows and cells that cannot be read, kept out of every question a reading connection asks.

Each table with a bad cell gets a TEMP view of its own name on the reading connection. SQLite finds TEMP names
first, so every question of every page asks the view without knowing: bad rows, and what goes with them, are not
there; a bad cell shows what stands for it. The file itself is not touched, and a file without bad cells pays nothing.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence

from rebuild.store.cell_rules import TableRules, every_rule
from rebuild.store.unreadable import BadCell

_MAKE = (
    "CREATE TEMP TABLE row_aside (tbl TEXT, row INTEGER, PRIMARY KEY (tbl, row)) WITHOUT ROWID",
    "CREATE TEMP TABLE stand_in (tbl TEXT, row INTEGER, col TEXT, value, PRIMARY KEY (tbl, col, row)) WITHOUT ROWID",
)


def set_aside(raw: sqlite3.Connection, cells: Sequence[BadCell]) -> None:
    """Put the views on a reading connection that may still write its TEMP tables."""
    if not cells:
        return
    for statement in _MAKE:
        raw.execute(statement)
    raw.executemany(
        "INSERT OR IGNORE INTO row_aside VALUES (?, ?)",
        [(cell.table, cell.row) for cell in cells if cell.leaves_row_out],
    )
    raw.executemany(
        "INSERT OR REPLACE INTO stand_in VALUES (?, ?, ?, ?)",
        [(cell.table, cell.row, cell.column, cell.stands_in) for cell in cells if not cell.leaves_row_out],
    )
    rules = [found for found in every_rule() if _has(raw, found.table)]
    _follow(raw, rules)
    for found in rules:
        if _touched(raw, found.table):
            raw.execute(_view(raw, found))


def _has(raw: sqlite3.Connection, table: str) -> bool:
    question = "SELECT 1 FROM main.sqlite_master WHERE type = 'table' AND name = ?"
    return raw.execute(question, (table,)).fetchone() is not None


def _touched(raw: sqlite3.Connection, table: str) -> bool:
    question = (
        "SELECT 1 FROM row_aside WHERE tbl = :t UNION ALL SELECT 1 FROM stand_in WHERE tbl = :t LIMIT 1"
    )
    return raw.execute(question, {"t": table}).fetchone() is not None


def _follow(raw: sqlite3.Connection, rules: Sequence[TableRules]) -> None:
    """What goes with a row left out is left out too; what only names it names nothing. Until nothing is added."""
    while True:
        before = raw.total_changes
        for found in rules:
            columns = {row[1] for row in raw.execute(f'PRAGMA main.table_info("{found.table}")')}
            for rule in found.cells:
                if rule.parent and rule.column in columns:
                    raw.execute(_following(found.table, rule.column, must=rule.must), (rule.parent,))
        if raw.total_changes == before:
            return


def _following(table: str, column: str, *, must: bool) -> str:
    into, extra = ("row_aside", "") if must else ("stand_in", f", '{column}', NULL")
    return (
        f"INSERT OR IGNORE INTO {into} SELECT '{table}', t.rowid{extra} FROM main.\"{table}\" AS t "
        f'JOIN row_aside AS r ON r.row = t."{column}" WHERE r.tbl = ?'
    )


def _view(raw: sqlite3.Connection, found: TableRules) -> str:
    table = found.table
    with_stand_in = {
        name for (name,) in raw.execute("SELECT DISTINCT col FROM stand_in WHERE tbl = ?", (table,))
    }
    names = [row[1] for row in raw.execute(f'PRAGMA main.table_info("{table}")')]
    columns = ", ".join(
        f"CASE WHEN t.rowid IN (SELECT row FROM stand_in WHERE tbl = '{table}' AND col = '{name}') "
        f"THEN (SELECT value FROM stand_in WHERE tbl = '{table}' AND col = '{name}' AND row = t.rowid) "
        f'ELSE t."{name}" END AS "{name}"'
        if name in with_stand_in
        else f't."{name}"'
        for name in names
    )
    return (
        f'CREATE TEMP VIEW IF NOT EXISTS "{table}" AS SELECT {columns} FROM main."{table}" AS t '
        f"WHERE t.rowid NOT IN (SELECT row FROM row_aside WHERE tbl = '{table}')"
    )
