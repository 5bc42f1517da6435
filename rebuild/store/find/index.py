"""The index of words kept in step with the file.

The journal's triggers write down every row that changes, whoever changes it (an act, a bulk statement, a cascade,
an undo); the index follows those changes and needs no triggers of its own. So no act waits for it, a stranger's
file brings no trigger, and an index that is damaged is made anew from the rows and never stands in the way of work.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing, contextmanager
from typing import cast

from rebuild.store.find.columns import SPREAD, WordTable, made_of, word_tables
from rebuild.store.strangers import DEFENSIVE

#: Rows looked up in one statement.
_CHUNK = 500
#: With more changes than this to follow, the index is made anew instead.
MOST = 200_000


def behind(raw: sqlite3.Connection) -> int:
    """How many changes of the journal the index does not know yet; -1 when it must be made anew."""
    tables = word_tables(raw)
    known = raw.execute("SELECT upto, made_of FROM find_mark ORDER BY id LIMIT 1").fetchone()
    last = newest(raw)
    if known is None or known[1] != made_of(tables) or known[0] > last or last - known[0] > MOST:
        return -1
    return int(last - known[0])


def follow(raw: sqlite3.Connection) -> None:
    """Bring the index up to the journal, inside a transaction of the caller's."""
    late = behind(raw)
    if late < 0:
        make_anew(raw)
    elif late > 0:
        follow_some(raw, word_tables(raw), late)


def follow_some(raw: sqlite3.Connection, tables: Sequence[WordTable], most: int) -> None:
    """Take up the next so many changes of the journal, of an index that is whole."""
    upto = raw.execute("SELECT upto FROM find_mark").fetchone()[0]
    until = min(newest(raw), upto + most)
    for table in tables:
        _follow_table(raw, table, upto, until)
    mark(raw, tables, until)


def newest(raw: sqlite3.Connection) -> int:
    """The number of the last change in the journal."""
    (newest,) = raw.execute("SELECT COALESCE(MAX(id), 0) FROM change").fetchone()
    return cast(int, newest)


def make_anew(raw: sqlite3.Connection) -> None:
    """Make the whole index from the rows, inside a transaction of the caller's."""
    tables = word_tables(raw)
    empty(raw)
    for table in tables:
        raw.execute(insert(table))
    mark(raw, tables, newest(raw))


def empty(raw: sqlite3.Connection) -> None:
    """An index with nothing in it, also in place of a damaged one."""
    with _as_new(raw):
        raw.execute("DROP TABLE IF EXISTS find_words")
    raw.execute(MAKE)


@contextmanager
def _as_new(raw: sqlite3.Connection) -> Iterator[None]:
    """What SQLite keeps of the index is put back as of an empty one, or a damaged one could not even be dropped."""
    with closing(sqlite3.connect(":memory:")) as fresh:
        fresh.execute(MAKE)
        set_config = getattr(raw, "setconfig", None)  # Python 3.12: else such tables are out of reach
        if set_config is not None:
            set_config(DEFENSIVE, False)
        for table in _KEPT_BY_SQLITE:
            if raw.execute("SELECT 1 FROM sqlite_master WHERE name = ?", (table,)).fetchone() is not None:
                raw.execute(f"DELETE FROM {table}")
                for row in fresh.execute(f"SELECT * FROM {table}"):
                    raw.execute(f"INSERT INTO {table} VALUES ({', '.join('?' * len(row))})", row)
        try:
            yield
        finally:
            if set_config is not None:
                set_config(DEFENSIVE, True)


_KEPT_BY_SQLITE = tuple(f"find_words_{part}" for part in ("data", "idx", "content", "docsize", "config"))


def mark(raw: sqlite3.Connection, tables: Sequence[WordTable], upto: int) -> None:
    """Write down that the index knows the journal up to there."""
    raw.execute("DELETE FROM find_mark")
    raw.execute("INSERT INTO find_mark (upto, made_of) VALUES (?, ?)", (upto, made_of(tables)))


#: As the migration makes it; the file's schema is compared with that to the letter.
MAKE = "CREATE VIRTUAL TABLE find_words USING fts5(words, tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2')"


def insert(table: WordTable, where: str = "") -> str:
    """The statement that puts rows of a table into the index."""
    return (
        f"INSERT INTO find_words (rowid, words) SELECT t.id * {SPREAD} + {table.number}, {table.words} "
        f"FROM main.\"{table.name}\" AS t WHERE trim({table.words}) <> ''{where}"
    )


def _follow_table(raw: sqlite3.Connection, table: WordTable, upto: int, until: int) -> None:
    rows = raw.execute(
        "SELECT DISTINCT row_id FROM change WHERE id > ? AND id <= ? AND tbl = ?", (upto, until, table.name)
    )
    changed = [row for (row,) in rows.fetchall()]
    for start in range(0, len(changed), _CHUNK):
        some = changed[start : start + _CHUNK]
        marks = ", ".join("?" * len(some))
        keys = [row * SPREAD + table.number for row in some]
        raw.execute(f"DELETE FROM find_words WHERE rowid IN ({marks})", keys)
        raw.execute(insert(table, f" AND t.id IN ({marks})"), some)
