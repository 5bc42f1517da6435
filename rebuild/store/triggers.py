"""TEMP triggers on the writer that copy each changed row's images into its shadow table.

Made anew at every open, after migrating (a batch migration drops triggers). They see what the ORM
does, bulk statements, raw SQL and cascades alike. An update that leaves every column as it was is no
change. A write outside an act finds no current act and
fails on ``change.act_id NOT NULL``.
"""

from __future__ import annotations

from collections.abc import Iterator

from sqlalchemy import Engine, MetaData, Table

from rebuild.model.journal import journaled, shadow_name

_EVENTS = {"i": "INSERT", "u": "UPDATE", "d": "DELETE"}


def install(writer: Engine, metadata: MetaData) -> None:
    """Put the triggers and the one-row table of the current act on the writer's one connection.

    Done on the raw connection, outside any transaction: TEMP objects need no lock on the file.
    """
    raw = writer.raw_connection()
    try:
        cursor = raw.cursor()
        cursor.execute("CREATE TEMP TABLE IF NOT EXISTS current_act (id INTEGER NOT NULL)")
        for table in journaled(metadata):
            for statement in _triggers(table):
                cursor.execute(statement)
        cursor.close()
    finally:
        raw.close()


def _triggers(table: Table) -> Iterator[str]:
    columns = [column.name for column in table.columns]
    for op, event in _EVENTS.items():
        names: list[str] = []
        values: list[str] = []
        if op in "ud":
            names += [f'"b_{name}"' for name in columns]
            values += [f'OLD."{name}"' for name in columns]
        if op in "iu":
            names += [f'"a_{name}"' for name in columns]
            values += [f'NEW."{name}"' for name in columns]
        row = "OLD.id" if op == "d" else "NEW.id"
        differs = " OR ".join(f'OLD."{name}" IS NOT NEW."{name}"' for name in columns)
        when = f"WHEN {differs} " if op == "u" else ""
        yield (
            f"CREATE TEMP TRIGGER IF NOT EXISTS jt_{table.name}_{op} "
            f'AFTER {event} ON main."{table.name}" {when}BEGIN '
            f"INSERT INTO change (act_id, tbl, row_id, op) "
            f"VALUES ((SELECT id FROM current_act), '{table.name}', {row}, '{op}'); "
            f"INSERT INTO {shadow_name(table.name)} (change_id, {', '.join(names)}) "
            f"VALUES (last_insert_rowid(), {', '.join(values)}); END"
        )
