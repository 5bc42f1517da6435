"""TEMP triggers on the writer that copy each changed row's images into its shadow table.

Made from the shadow tables the file itself has then (a batch migration drops triggers): those of a table before the
first statement that writes to it, all of them at once where somebody waits for nothing. They see what the ORM does,
bulk statements, raw SQL and cascades alike. An update that leaves every column as it was is no change. A write outside
an act finds no current act and fails on ``change.act_id NOT NULL``.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from functools import cache

_EVENTS = {"i": "INSERT", "u": "UPDATE", "d": "DELETE"}
_SHADOWS = "SELECT substr(name, 3) FROM sqlite_master WHERE type = 'table' AND name LIKE 'j!_%' ESCAPE '!'"
_IMAGES = "SELECT substr(name, 3) FROM pragma_table_info(?) WHERE name LIKE 'a!_%' ESCAPE '!' ORDER BY cid"
_THERE = (
    "SELECT DISTINCT tbl_name FROM temp.sqlite_master WHERE type = 'trigger' AND name LIKE 'jt!_%' ESCAPE '!'"
)


def begin(raw: sqlite3.Connection) -> None:
    """Put the one-row table of the current act on the writing connection, once.

    Done outside any transaction: TEMP objects need no lock on the file, and a rollback would take them away.
    """
    if raw.execute("SELECT 1 FROM temp.sqlite_master WHERE name = 'current_act'").fetchone() is None:
        raw.execute("CREATE TEMP TABLE current_act (id INTEGER)")
        raw.execute("INSERT INTO current_act VALUES (NULL)")


def install(raw: sqlite3.Connection, tables: Iterable[str] | None = None) -> set[str]:
    """Put the triggers of these tables on the writing connection, or of all the file has; returns whose are there."""
    there = {name for (name,) in raw.execute(_THERE)}
    wanted = {name for (name,) in raw.execute(_SHADOWS)} if tables is None else set(tables)
    for table in sorted(wanted - there):
        columns = tuple(name for (name,) in raw.execute(_IMAGES, (f"j_{table}",)))
        for statement in _triggers(table, columns) if columns else ():
            raw.execute(statement)
    return there | wanted


@cache
def _triggers(table: str, names: tuple[str, ...]) -> tuple[str, ...]:
    made: list[str] = []
    images = {"b": [f'OLD."{name}"' for name in names], "a": [f'NEW."{name}"' for name in names]}
    for op, event in _EVENTS.items():
        sides = {"i": "a", "u": "ba", "d": "b"}[op]
        into = ", ".join(f'"{side}_{name}"' for side in sides for name in names)
        values = ", ".join(value for side in sides for value in images[side])
        differs = " OR ".join(f'OLD."{name}" IS NOT NEW."{name}"' for name in names)
        when = f"WHEN {differs} " if op == "u" else ""
        row = "OLD.id" if op == "d" else "NEW.id"
        made.append(
            f"CREATE TEMP TRIGGER IF NOT EXISTS jt_{table}_{op} "
            f'AFTER {event} ON main."{table}" {when}BEGIN '
            f"INSERT INTO change (act_id, tbl, row_id, op) "
            f"VALUES ((SELECT id FROM current_act), '{table}', {row}, '{op}'); "
            f'INSERT INTO "j_{table}" (change_id, {into}) VALUES (last_insert_rowid(), {values}); END'
        )
    return tuple(made)
