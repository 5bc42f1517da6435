"""What an act changed: row ids by table, told to every view after the commit."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Rows:
    """Ids of one table's rows that were added, updated and removed (net)."""

    added: frozenset[int] = frozenset()
    updated: frozenset[int] = frozenset()
    removed: frozenset[int] = frozenset()


NO_ROWS = Rows()


@dataclass(frozen=True, slots=True)
class Changed:
    """The report of one act (or of another window's acts): ``elsewhere`` says it was not ours."""

    label: str = ""
    tables: Mapping[str, Rows] = field(default_factory=dict)
    elsewhere: bool = False

    def rows(self, table: str) -> Rows:
        """The rows touched in ``table``."""
        return self.tables.get(table, NO_ROWS)

    def touches(self, *tables: str) -> bool:
        """Whether any of ``tables`` changed."""
        return any(table in self.tables for table in tables)

    def __bool__(self) -> bool:
        return bool(self.tables)


def net(changes: Iterable[tuple[str, int, str]]) -> dict[str, Rows]:
    """Fold changes ``(table, row id, op)`` in order into net rows by table.

    >>> net([("part", 1, "i"), ("part", 1, "u")])["part"].added
    frozenset({1})
    """
    tables: dict[str, dict[int, str]] = {}  # of each row the first and the last
    for table, row, op in changes:
        rows = tables.get(table)
        if rows is None:
            rows = tables[table] = {}
        rows[row] = rows.get(row, op)[0] + op
    found = {
        table: Rows(
            frozenset(row for row, ops in rows.items() if ops[0] == "i" and ops[1] != "d"),
            frozenset(row for row, ops in rows.items() if ops[0] != "i" and ops[1] != "d"),
            frozenset(row for row, ops in rows.items() if ops[0] != "i" and ops[1] == "d"),
        )
        for table, rows in tables.items()
    }
    return {table: rows for table, rows in found.items() if rows.added or rows.updated or rows.removed}
