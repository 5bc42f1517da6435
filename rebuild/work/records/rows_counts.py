"""How much a file holds: rows by record."""

from __future__ import annotations

from sqlalchemy import Connection, func, select

from rebuild.work.records.fields import RECORDS


def counts(connection: Connection) -> dict[str, int]:
    """Rows of every record a user can fill, by table name."""
    return {
        name: int(connection.execute(select(func.count()).select_from(record)).scalar_one())
        for name, record in RECORDS.items()
    }
