"""Everything that can still be read of one table, by ranges of row numbers: a damaged page costs only its own rows."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass

Value = bytes | str | int | float | None
#: Halving a range of row numbers ends here: more failures than this and the table is given up.
_MOST_FAILURES = 4_000
#: Rows are looked for up to this number when the file no longer says how many there are.
_FURTHEST = 1 << 22


@dataclass(frozen=True, slots=True)
class Salvaged:
    """Rows of a table by their number, in the order of ``columns``; ``gaps`` are ranges that cannot be read."""

    table: str
    columns: tuple[str, ...]
    rows: dict[int, tuple[Value, ...]]
    gaps: tuple[tuple[int, int], ...]


def tolerant(raw: sqlite3.Connection) -> None:
    """Read damaged text as bytes: what was text stays text where it can be decoded."""
    raw.text_factory = _text


def _text(found: bytes) -> str | bytes:
    try:
        return found.decode()
    except UnicodeDecodeError:
        return found


def salvage(raw: sqlite3.Connection, table: str, wanted: tuple[str, ...]) -> Salvaged:
    """Read ``wanted`` columns of a table as far as it goes; a table that is not there has no rows."""
    try:
        here = {row[1] for row in raw.execute(f'PRAGMA table_info("{table}")')}
    except sqlite3.Error:
        here = set()
    columns = tuple(name for name in wanted if name in here)
    if not columns:
        return Salvaged(table, (), {}, ())
    reader = _Reader(raw, table, columns)
    try:
        first, last = reader.ends()
    except sqlite3.Error:
        first, last = 1, reader.counted()
    rows = dict(reader.between(first, last))
    return Salvaged(table, columns, rows, tuple(_joined(reader.gaps)))


class _Reader:
    def __init__(self, raw: sqlite3.Connection, table: str, columns: tuple[str, ...]) -> None:
        self._raw = raw
        self._table = table
        names = ", ".join(f'"{name}"' for name in columns)
        self._question = (
            f'SELECT rowid, {names} FROM "{table}" NOT INDEXED WHERE rowid BETWEEN ? AND ? ORDER BY rowid'
        )
        self.gaps: list[tuple[int, int]] = []
        self._failures = 0

    def ends(self) -> tuple[int, int]:
        first, last = self._raw.execute(f'SELECT MIN(rowid), MAX(rowid) FROM "{self._table}"').fetchone()
        return (first, last) if first is not None else (1, 0)

    def counted(self) -> int:
        """The highest number ever given out, when the file still says so."""
        try:
            row = self._raw.execute(
                "SELECT seq FROM sqlite_sequence WHERE name = ?", (self._table,)
            ).fetchone()
        except sqlite3.Error:
            row = None
        return (
            int(row[0]) if row is not None and isinstance(row[0], int) and row[0] < _FURTHEST else _FURTHEST
        )

    def between(self, first: int, last: int) -> Iterator[tuple[int, tuple[Value, ...]]]:
        """Rows of a range; one that fails is halved until the rows that cannot be read stand alone."""
        todo = [(first, last)]
        while todo:
            start, end = todo.pop()
            if start > end:
                continue
            found: list[tuple[int, tuple[Value, ...]]] = []
            try:
                for row in self._raw.execute(self._question, (start, end)):
                    found.append((row[0], row[1:]))  # noqa: PERF401 - what came before a failure counts
            except (sqlite3.Error, MemoryError, OverflowError):
                self._failures += 1
                yield from found
                start = found[-1][0] + 1 if found else start
                if start >= end or self._failures > _MOST_FAILURES:
                    self.gaps.append((start, end))
                else:
                    middle = (start + end) // 2
                    todo += [(middle + 1, end), (start, middle)]
                continue
            yield from found


def _joined(gaps: list[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """Neighbouring ranges as one."""
    held: tuple[int, int] | None = None
    for start, end in sorted(gaps):
        if held is not None and start <= held[1] + 1:
            held = (held[0], max(held[1], end))
            continue
        if held is not None:
            yield held
        held = (start, end)
    if held is not None:
        yield held


def overlap(
    first: tuple[tuple[int, int], ...], second: tuple[tuple[int, int], ...]
) -> tuple[tuple[int, int], ...]:
    """What lies in both of two lists of ranges.

    >>> overlap(((1, 10), (20, 30)), ((5, 22),))
    ((5, 10), (20, 22))
    """
    return tuple(
        (max(start, other_start), min(end, other_end))
        for start, end in first
        for other_start, other_end in second
        if max(start, other_start) <= min(end, other_end)
    )
