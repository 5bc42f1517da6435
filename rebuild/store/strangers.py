"""A file may come from a stranger: what is written in it is data, and nothing in it runs.

Source: SQLite's published advice, "Defense Against The Dark Arts" (sqlite.org/security.html), section
"Untrusted SQLite Database Files": trusted_schema off, cell_size_check on, no memory mapping, defensive where
the driver offers it, lower limits. What the advice cannot know is what a project file must hold; so the whole
schema is compared with the one each version of the program makes (``known``).
"""

from __future__ import annotations

import hashlib
import re
import sqlite3
from collections.abc import Iterable, Iterator
from functools import cache, lru_cache
from pathlib import Path

from rebuild.errors import FileDamaged

#: No text or photo mark of a shop is longer [bytes].
_LONGEST = 200_000_000
#: SQLITE_DBCONFIGDEFENSIVE of SQLite's own header.
DEFENSIVE = 1010
#: What SQLite itself keeps: numbers given out, statistics, indexes behind a constraint.
_OWN = re.compile(r"(table|index) sqlite_(sequence|stat[1-4]|autoindex_.*)")
_READ = "SELECT type, name, tbl_name, sql FROM main.sqlite_master ORDER BY type, name"


def wary(raw: sqlite3.Connection) -> None:
    """Follow SQLite's advice for files from strangers on one connection."""
    raw.execute("PRAGMA trusted_schema = OFF")
    raw.execute("PRAGMA cell_size_check = ON")
    raw.execute("PRAGMA mmap_size = 0")
    raw.setlimit(sqlite3.SQLITE_LIMIT_LENGTH, _LONGEST)
    set_config = getattr(raw, "setconfig", None)  # Python 3.12
    if set_config is not None:
        set_config(DEFENSIVE, True)


def schema_lines(raw: sqlite3.Connection) -> frozenset[str]:
    """One line for each object of a file: its kind, its name, and a short hash of how it is made.

    Quotes and white space do not count: they come from the library that wrote them.
    """
    return frozenset(_line(*row) for row in _objects(raw))


def whole_line(raw: sqlite3.Connection) -> str:
    """One line for the schema to the letter: when it is the known one, nothing needs to be looked at singly."""
    return _hash_of(tuple(raw.execute(_READ)))


@lru_cache(1)  # file after file of one version holds the same
def _hash_of(rows: tuple[tuple[str, str, str, str], ...]) -> str:
    return f"whole {hashlib.sha256(repr(_own_left_out(rows)).encode(errors='replace')).hexdigest()}"


def _objects(raw: sqlite3.Connection) -> list[tuple[str, str, str, str]]:
    return _own_left_out(raw.execute(_READ))


def _own_left_out(rows: Iterable[tuple[str, str, str, str]]) -> list[tuple[str, str, str, str]]:
    return [row for row in rows if not _OWN.fullmatch(f"{row[0]} {row[1]}")]


def _line(kind: str, name: str, table: str, sql: str | None) -> str:
    plain = " ".join(
        (sql or "").replace('"', "").replace(",", " , ").replace("(", " ( ").replace(")", " ) ").split()
    )
    digest = hashlib.sha256(f"{table}\n{plain}".encode(errors="replace")).hexdigest()[:16]
    return f"{kind} {name} {digest}"


@cache
def known(revision: str) -> frozenset[str]:
    """What a file of a schema revision must hold; empty for a revision nobody wrote down."""
    path = Path(__file__).parent / "known" / f"{revision}.txt"
    return frozenset(path.read_text(encoding="utf-8").splitlines()) if path.is_file() else frozenset()


def strange(raw: sqlite3.Connection, revision: str) -> list[str]:
    """What a file holds that its schema revision does not make, and what it lacks, each as a sentence."""
    wanted = known(revision)
    if whole_line(raw) in wanted:
        return []
    here = schema_lines(raw)
    if not wanted:  # a version yet to be written down: whatever could act by itself is strange in any
        return [
            sentence
            for line in sorted(here)
            if line.startswith(("trigger ", "view "))
            for sentence in _added(line)
        ]
    return list(_strange(here, frozenset(line for line in wanted if not line.startswith("whole "))))


def _added(line: str) -> Iterator[str]:
    kind, name = _name(line)
    yield f"The file holds a {kind} “{name}” that this program did not make. It is not used."


def _strange(here: frozenset[str], wanted: frozenset[str]) -> Iterator[str]:
    made = {_name(line) for line in here}
    expected = {_name(line) for line in wanted}
    for line in sorted(line for line in here if _name(line) in made - expected):
        yield from _added(line)
    for kind, name in sorted(expected - made):
        yield f"The file lacks its {kind} “{name}”."
    changed = {_name(line) for line in here - wanted} & {_name(line) for line in wanted - here}
    for kind, name in sorted(changed):
        yield f"The {kind} “{name}” of the file is not as this program makes it."


def _name(line: str) -> tuple[str, str]:
    kind, _, rest = line.partition(" ")
    return kind, rest.rpartition(" ")[0]


def refuse_strange(raw: sqlite3.Connection, revision: str, path: Path) -> None:
    """Refuse a file with anything in its schema that its revision does not make: it might act by itself.

    Raises:
        FileDamaged: naming the first such thing and how many there are.
    """
    found = strange(raw, revision)
    if not found:
        return
    more = "" if len(found) == 1 else f" There are {len(found) - 1} more of the kind."
    raise FileDamaged(
        f"it was not opened, because it is not as this program makes its files. {found[0]}{more}",
        where=path.name,
        way_out="“rebuild repair FILE --to NEW” copies what it tells into a new file, without them.",
    )
