"""A file as the first release of the schema left it, with something in it, to be upgraded."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from pathlib import Path

from rebuild.store import schema
from rebuild.store.recognise import APPLICATION_ID

FIRST = "0001"
ROWS = 300


def make_older(path: Path) -> None:
    """A file at the first revision with ``ROWS`` places, through the migrations themselves."""
    from alembic import command
    from alembic.config import Config
    from sqlalchemy import create_engine

    engine = create_engine(f"sqlite:///{path}")
    with engine.begin() as connection:
        config = Config()
        config.set_main_option("script_location", str(schema.migrations_folder()).replace("%", "%%"))
        config.attributes["connection"] = connection
        command.upgrade(config, FIRST)
        connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
    engine.dispose()
    raw = sqlite3.connect(path)
    raw.execute(
        "INSERT INTO act (kind, subject, at, window, undone, sealed) "
        "VALUES ('ADD_PLACE', '', '2026-01-01T10:00:00', '', 0, 0)"
    )
    columns = {row[1]: "" if row[3] else None for row in raw.execute("PRAGMA table_info(place)")}
    for number in range(1, ROWS + 1):
        _put_place(raw, columns, number)
    raw.commit()
    raw.close()


def _put_place(raw: sqlite3.Connection, columns: Mapping[str, str | None], number: int) -> None:
    """A place and its journal entry; what is not named here is empty, as far as it may be."""
    row: dict[str, object] = {"id": number, "kind": "other", "name": f"tote {number}", "position": number}
    values = [row.get(name, empty) for name, empty in columns.items()]
    marks = ", ".join("?" * len(columns))
    images = ", ".join(f'"a_{name}"' for name in columns)
    raw.execute(f"INSERT INTO place VALUES ({marks})", values)
    change = raw.execute(
        "INSERT INTO change (act_id, tbl, row_id, op) VALUES (1, 'place', ?, 'i')", (number,)
    ).lastrowid
    raw.execute(f"INSERT INTO j_place (change_id, {images}) VALUES (?, {marks})", (change, *values))
