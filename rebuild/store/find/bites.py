"""The index of words brought up to the file bite by bite, so that a window keeps its turn in between.

A file of a million readings takes ten seconds to index. How far that is stands in the mark of the index itself, so
that any window of the file, or the next start, goes on where the last one stopped.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.store.find import index
from rebuild.store.find.columns import WordTable, made_of, word_tables

#: Rows or changes taken up in one bite: some hundredths of a second.
BITE = 1_500
_GATHERING = "gathering"


@dataclass(frozen=True, slots=True)
class _Far:
    """How far the index is made: the table under way, by its place, and its last row taken up; the journal then."""

    table: int
    row: int
    upto: int


def bite(raw: sqlite3.Connection, most: int = BITE) -> float:
    """Take up some more, inside a transaction of the caller's; the share that is in the index by now, 1 when all is."""
    tables = word_tables(raw)
    far = _far(raw, tables)
    if far is not None:
        return _gather(raw, tables, far, most)
    late = index.behind(raw)
    if late < 0:
        return begin_anew(raw)
    if late:
        index.follow_some(raw, tables, most)
    return 1.0 if late <= most else 1.0 - (late - most) / late


def begin_anew(raw: sqlite3.Connection) -> float:
    """Put an empty index in place of what is there, damaged or not, to be filled from the first row on."""
    index.empty(raw)
    _note(raw, word_tables(raw), _Far(0, 0, index.newest(raw)))
    return 0.0


def _far(raw: sqlite3.Connection, tables: Sequence[WordTable]) -> _Far | None:
    """How far the making of the index is; None when none is under way, or of another schema or too long ago."""
    mark = raw.execute("SELECT upto, made_of FROM find_mark ORDER BY id LIMIT 1").fetchone()
    said = mark[1].split() if mark is not None else []
    if len(said) != 4 or said[0] != _GATHERING or said[3] != made_of(tables):
        return None
    newest = index.newest(raw)
    table, row, upto = int(said[1]), int(said[2]), int(mark[0])
    return _Far(table, row, upto) if upto <= newest <= upto + index.MOST else None


def _gather(raw: sqlite3.Connection, tables: Sequence[WordTable], far: _Far, most: int) -> float:
    at, row = far.table, far.row
    while most > 0 and at < len(tables):
        table = tables[at]
        (last, count) = raw.execute(
            f'SELECT max(id), count(*) FROM (SELECT id FROM "{table.name}" WHERE id > ? ORDER BY id LIMIT ?)',
            (row, most),
        ).fetchone()
        if last is None:
            at, row = at + 1, 0
            continue
        raw.execute(index.insert(table, " AND t.id > ? AND t.id <= ?"), (row, last))
        row, most = last, most - count
    if at == len(tables):
        index.mark(raw, tables, far.upto)
        return 1.0 if index.newest(raw) == far.upto else 0.99
    _note(raw, tables, _Far(at, row, far.upto))
    return _share(raw, tables, at, row)


def _note(raw: sqlite3.Connection, tables: Sequence[WordTable], far: _Far) -> None:
    raw.execute("DELETE FROM find_mark")
    raw.execute(
        "INSERT INTO find_mark (upto, made_of) VALUES (?, ?)",
        (far.upto, f"{_GATHERING} {far.table} {far.row} {made_of(tables)}"),
    )


def _share(raw: sqlite3.Connection, tables: Sequence[WordTable], at: int, row: int) -> float:
    """By the highest number of each table, which SQLite finds at once."""
    asked = " UNION ALL ".join(f'SELECT max(id) FROM "{table.name}"' for table in tables)
    highest = [top or 0 for (top,) in raw.execute(asked)]
    return min(0.98, (sum(highest[:at]) + row) / max(1, sum(highest)))
