"""TEMP triggers on the writer that copy each changed row's images into its shadow table.

Made anew before the first transaction of every open (who only reads never waits for them), from the shadow
tables the file itself has then: a batch migration drops triggers. They see what the ORM does, bulk statements,
raw SQL and cascades alike. An update that leaves every column as it was is no change. A write outside an act
finds no current act and fails on ``change.act_id NOT NULL``.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator

_EVENTS = {"i": "INSERT", "u": "UPDATE", "d": "DELETE"}
_SHADOWS = """
SELECT substr(m.name, 3), substr(p.name, 3) FROM sqlite_master AS m, pragma_table_info(m.name) AS p
WHERE m.type = 'table' AND m.name LIKE 'j!_%' ESCAPE '!' AND p.name LIKE 'a!_%' ESCAPE '!' ORDER BY m.name, p.cid
"""


def install(raw: sqlite3.Connection) -> None:
    """Put the triggers and the one-row table of the current act on the writing connection, once.

    Done outside any transaction: TEMP objects need no lock on the file, and a rollback would take them away.
    """
    if raw.execute("SELECT 1 FROM temp.sqlite_master WHERE name = 'current_act'").fetchone() is None:
        _put_on(raw)


def _put_on(raw: sqlite3.Connection) -> None:
    for table, columns in _shadowed(raw).items():
        for statement in _triggers(table, columns):
            raw.execute(statement)
    raw.execute("CREATE TEMP TABLE current_act (id INTEGER)")  # last: it says that all is there
    raw.execute("INSERT INTO current_act VALUES (NULL)")


def _shadowed(raw: sqlite3.Connection) -> dict[str, list[str]]:
    """The columns of every journaled table of the file, by its shadow."""
    found: dict[str, list[str]] = {}
    for table, column in raw.execute(_SHADOWS).fetchall():
        found.setdefault(table, []).append(column)
    return found


def _triggers(table: str, columns: Iterable[str]) -> Iterator[str]:
    names = list(columns)
    images = {"b": [f'OLD."{name}"' for name in names], "a": [f'NEW."{name}"' for name in names]}
    for op, event in _EVENTS.items():
        sides = {"i": "a", "u": "ba", "d": "b"}[op]
        into = ", ".join(f'"{side}_{name}"' for side in sides for name in names)
        values = ", ".join(value for side in sides for value in images[side])
        differs = " OR ".join(f'OLD."{name}" IS NOT NEW."{name}"' for name in names)
        when = f"WHEN {differs} " if op == "u" else ""
        row = "OLD.id" if op == "d" else "NEW.id"
        yield (
            f"CREATE TEMP TRIGGER IF NOT EXISTS jt_{table}_{op} "
            f'AFTER {event} ON main."{table}" {when}BEGIN '
            f"INSERT INTO change (act_id, tbl, row_id, op) "
            f"VALUES ((SELECT id FROM current_act), '{table}', {row}, '{op}'); "
            f'INSERT INTO "j_{table}" (change_id, {into}) VALUES (last_insert_rowid(), {values}); END'
        )
