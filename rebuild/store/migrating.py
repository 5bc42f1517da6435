"""What migrations share: shadow tables, journaled columns, and sealing the undo history.

Frozen in meaning: old migrations call these, so change them only by adding.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from alembic import op
from sqlalchemy import Column


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
    op.execute("UPDATE act SET sealed = 1")
