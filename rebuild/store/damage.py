"""Where a file is damaged, in the words of what a user entered: which lists, and their rows or only their order.

SQLite's own findings are for those who know its pages; they are asked only whether there are any, table by table.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from rebuild.store.sqlite_words import words_for

_WAY_OUT = (
    "Keep the file; “rebuild repair FILE” makes a new one from what can be read, or open the newest backup "
    "beside it."
)
_TABLES = "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name"


def damage(raw: sqlite3.Connection) -> list[str]:
    """What is damaged, a sentence each; none when the file is whole."""
    if _sound(raw, "PRAGMA integrity_check(1)") is None:
        return []
    try:
        tables = [str(name) for (name,) in raw.execute(_TABLES) if not str(name).startswith("sqlite_")]
    except (sqlite3.DatabaseError, UnicodeDecodeError):
        return [f"The file is damaged: its table of contents cannot be read. {_WAY_OUT}"]
    found = [*_of_tables(raw, tables)]
    if not found:
        found = ["the file's own bookkeeping is damaged; every row can still be read"]
    return [f"The file is damaged: {what}. {_WAY_OUT}" for what in found]


def _of_tables(raw: sqlite3.Connection, tables: list[str]) -> Iterator[str]:
    for table in tables:
        quoted = table.replace("'", "''")
        trouble = _sound(raw, f"PRAGMA integrity_check('{quoted}')")
        if trouble is None:
            continue
        rows = _sound(raw, f"PRAGMA quick_check('{quoted}')")
        called = _called(table)
        if rows is None:
            yield f"the order in which {called} are found is damaged; the rows themselves can be read"
        else:
            known = f" ({rows})" if rows else ""
            yield f"rows of {called} lie in a part of the file that cannot be read{known}"


def _called(table: str) -> str:
    words = table.removeprefix("j_").replace("_", " ")
    return f"the history of “{words}”" if table.startswith("j_") else f"the list “{words}”"


def _sound(raw: sqlite3.Connection, question: str) -> str | None:
    """None when SQLite finds nothing; else what its result code means, empty where it has none."""
    try:
        said = [row[0] for row in raw.execute(question)]
    except sqlite3.DatabaseError as trouble:
        known = words_for(getattr(trouble, "sqlite_errorcode", 0) or 0)
        return known[0].rstrip(".") if known is not None else ""
    except UnicodeDecodeError:
        return ""
    return None if said == ["ok"] else ""
