"""Which columns of a file hold words: read from the file's own schema, so that a new table is searched too."""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass

#: Columns of words that tell nothing by themselves: units, what the program made up, figures found by their size.
_NO_WORDS = frozenset({
    "unit", "sha256", "ending", "sketch", "key", "role", "typed", "taken_by", "drafted_title", "drafted_note",
    "limits_from", "division", "temperature_text", "calibrated_on",
})  # fmt: skip
#: Found by their words all the same: a value without a row lies under no size yet.
_WORDS_HERE = frozenset({("unplaced", "typed")})
#: Closed words worth finding by: the kind of a place or a machine, how something came off.
_CLOSED = frozenset({
    ("place", "kind"), ("machine", "kind"), ("fastener", "kind"), ("removal", "how"), ("waiting", "kind"),
    ("part", "decision"), ("task", "kind"), ("clue", "kind"),
})  # fmt: skip
#: Codes are also found said short: HS-02 as hs2, 4711-B as 4711b.
_CODES = frozenset(
    {"code", "serial", "maker_number", "stamped", "number", "figure_item", "reference", "was_code"}
)
_COLUMNS = """
SELECT m.name, p.name, p.type FROM sqlite_master AS m, pragma_table_info(m.name) AS p
WHERE m.type = 'table' AND m.rootpage > 0 AND EXISTS (SELECT 1 FROM sqlite_master AS j WHERE j.name = 'j_' || m.name)
ORDER BY m.name, p.cid
"""


#: Between the columns of a row in the index, and before its codes said short, which are looked for but not shown.
PART, SHORT = "\x1f", "\x1e"


@dataclass(frozen=True, slots=True)
class WordTable:
    """A table with words, its number in the index, and the SQL of all its words, said of its row ``t``."""

    name: str
    number: int
    words: str


#: A row of the index has the number of the row of the table times this, plus the number of the table.
SPREAD = 256


def word_tables(raw: sqlite3.Connection) -> tuple[WordTable, ...]:
    """Every journaled table that has words, in the order of their names; read again when the schema is another."""
    path = str(raw.execute("PRAGMA database_list").fetchone()[2])
    version: tuple[str, int] = (path, raw.execute("PRAGMA schema_version").fetchone()[0])
    if version not in _KNOWN:
        _KNOWN.clear()
        _KNOWN[version] = _read_tables(raw)
    return _KNOWN[version]


_KNOWN: dict[tuple[str, int], tuple[WordTable, ...]] = {}


def _read_tables(raw: sqlite3.Connection) -> tuple[WordTable, ...]:
    columns: dict[str, list[tuple[str, str]]] = {}
    for table, column, kind in raw.execute(_COLUMNS):
        columns.setdefault(table, []).append((column, kind.upper()))
    worded = [(table, _words(table, found)) for table, found in columns.items()]
    return tuple(
        WordTable(table, number, words)
        for number, (table, words) in enumerate((one for one in worded if one[1]), start=1)
    )


def made_of(tables: Sequence[WordTable]) -> str:
    """A short hash of what the index is made of: when it differs, the index is made anew."""
    return hashlib.sha256(repr(tables).encode()).hexdigest()[:16]


def _words(table: str, columns: Sequence[tuple[str, str]]) -> str:
    """The SQL that joins the words of a row; empty for a table without any."""
    names = {name for name, _ in columns}
    found: list[str] = []
    short: list[str] = []
    for name, kind in columns:
        sized = name.removesuffix("_text") + "_mm" in names if name.endswith("_text") else False
        closed = kind != "VARCHAR" and (table, name) not in _CLOSED
        idle = name in _NO_WORDS and (table, name) not in _WORDS_HERE
        if closed or sized or idle or name.endswith("_unit"):
            continue
        found.append(f"COALESCE(t.\"{name}\", '')")
        if name in _CODES:
            short.append(f"replace(replace(COALESCE(t.\"{name}\", ''), '-0', ''), '-', '')")
    told = f" || char({ord(PART)}) || ".join(found)
    return f"{told} || char({ord(SHORT)}) || " + " || ' ' || ".join(short) if short else told
