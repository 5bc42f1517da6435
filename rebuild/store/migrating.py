"""What migrations share: shadow tables, journaled columns, and sealing the undo history.

Frozen in meaning: old migrations call these, so change them only by adding.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from alembic import op
from sqlalchemy import Column, Integer

from rebuild.store import checksums, journal_followed
from rebuild.store.entry import driver


def create_shadow(table: str, columns: Iterable[str], *, index: str = "") -> None:
    """Create ``j_<table>`` with an untyped before and after column for each of ``columns``.

    ``index`` names the column whose after image history is looked up by.
    """
    names = list(columns)
    images = ", ".join(f'"{side}_{name}"' for side in ("b", "a") for name in names)
    op.execute(
        f"CREATE TABLE j_{table} (change_id INTEGER NOT NULL, {images}, "
        f"CONSTRAINT pk_j_{table} PRIMARY KEY (change_id), "
        f"CONSTRAINT fk_j_{table}_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) "
        f"ON DELETE CASCADE)"
    )
    if index:
        op.execute(f'CREATE INDEX ix_j_{table}_a_{index} ON j_{table} ("a_{index}")')


def add_journaled_column(table: str, column: Column[Any]) -> None:
    """Add a column to a journaled table and its two image columns to the shadow."""
    op.add_column(table, column)
    for side in ("b", "a"):
        op.execute(f'ALTER TABLE j_{table} ADD COLUMN "{side}_{column.name}"')


def seal_history() -> None:
    """Acts made before this migration can be read but no longer undone."""
    carried = checksums.carried(driver(op.get_bind()))
    op.execute(f"UPDATE act SET {'crc = crc + 1 - sealed, ' if carried else ''}sealed = 1")


def journal_new_rows(kind: str, subject: str, tables: Iterable[str]) -> None:
    """Rows a migration made, told to the journal as one sealed act, so that nothing stands that it does not know.

    ``kind`` names the act, ``tables`` are looked through for rows without an entry.
    """
    connection = op.get_bind()
    new = {
        table: f"FROM {table} WHERE id NOT IN (SELECT row_id FROM change WHERE tbl = '{table}')"
        for table in tables
    }
    if not any(connection.exec_driver_sql(f"SELECT count(*) {rows}").scalar() for rows in new.values()):
        return
    connection.exec_driver_sql(
        "INSERT INTO act (kind, subject, at, window, undone, sealed) "
        "VALUES (?, ?, strftime('%Y-%m-%dT%H:%M:%S', 'now', 'localtime'), '', 0, 1)",
        (kind, subject),
    )
    act = connection.exec_driver_sql("SELECT max(id) FROM act").scalar_one()
    for table, rows in new.items():
        connection.exec_driver_sql(
            f"INSERT INTO change (act_id, tbl, row_id, op) SELECT {act}, '{table}', id, 'i' {rows} ORDER BY id"
        )
        columns = [row[1] for row in connection.exec_driver_sql(f"PRAGMA table_info({table})")]
        after = ", ".join(f'"a_{name}"' for name in columns)
        read = ", ".join(f'{table}."{name}"' for name in columns)
        connection.exec_driver_sql(
            f"INSERT INTO j_{table} (change_id, {after}) SELECT change.id, {read} FROM change "
            f"JOIN {table} ON {table}.id = change.row_id WHERE change.act_id = {act} AND change.tbl = '{table}'"
        )
    raw = driver(connection)
    if checksums.carried(raw):
        checksums.put(raw, checksums.ACT, act)


def add_checksums() -> None:
    """Give acts, settings and kept entries their checksum, and confirm those that stand."""
    for summed in checksums.EVERY:
        op.add_column(summed.table, Column("crc", Integer()))
    checksums.put_all(driver(op.get_bind()))


def let_images_follow() -> None:
    """Have the images that an earlier migration or a repair left behind say what it made of the row."""
    journal_followed.let_follow(driver(op.get_bind()))
