"""Whether what speaks of a table's rows differs since a point of the journal: many a change says nothing to many."""

from __future__ import annotations

from typing import NamedTuple

from sqlalchemy import Connection


class Speaking(NamedTuple):
    """The columns of a table that speak in some facts; those of ``worded`` only with one of the words in them."""

    columns: frozenset[str]
    worded: tuple[tuple[str, tuple[str, ...]], ...] = ()


def differs(connection: Connection, table: str, speaking: Speaking, seen: int) -> bool:
    """Whether a row of a table came, went, or changed in what speaks of it after a point of the journal.

    The journal keeps each changed row before and after beside the change.
    """
    said = [f"b_{name} IS NOT a_{name}" for name in ("id", *sorted(speaking.columns))]
    sought: list[str] = []
    for name, words in speaking.worded:
        among = " OR ".join(f"b_{name} LIKE ? OR a_{name} LIKE ?" for _ in words)
        said.append(f"(b_{name} IS NOT a_{name} AND ({among}))")
        sought += [f"%{word}%" for word in words for _ in range(2)]
    found = connection.exec_driver_sql(
        f"SELECT 1 FROM j_{table} WHERE change_id > ? AND ({' OR '.join(said)}) LIMIT 1", (seen, *sought)
    )
    return found.first() is not None
