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
    first: dict[tuple[str, int], str] = {}
    last: dict[tuple[str, int], str] = {}
    for table, row, op in changes:
        first.setdefault((table, row), op)
        last[table, row] = op
    sets: dict[str, tuple[set[int], set[int], set[int]]] = {}
    for key, start in first.items():
        table, row = key
        added, updated, removed = sets.setdefault(table, (set(), set(), set()))
        if start == "i":
            if last[key] != "d":
                added.add(row)
        elif last[key] == "d":
            removed.add(row)
        else:
            updated.add(row)
    return {
        table: Rows(frozenset(added), frozenset(updated), frozenset(removed))
        for table, (added, updated, removed) in sets.items()
        if added or updated or removed
    }
