"""Is a project file sound: SQLite's own checks, the schema, and a journal that tells what really stands.

Reads with a plain connection and goes by the tables the file has, so that a damaged or older file is
examined as it lies there, without being opened, upgraded or written to.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import chain
from pathlib import Path

from rebuild.store import schema
from rebuild.store.act import Act
from rebuild.store.checksums import altered
from rebuild.store.damage import damage
from rebuild.store.file_tables import images_of, journaled_tables
from rebuild.store.journal_at_once import doubtful
from rebuild.store.journal_followed import not_followed_to
from rebuild.store.set_aside import set_aside
from rebuild.store.strangers import strange
from rebuild.store.unreadable import unreadable

#: Findings of one kind are listed up to this many; the rest is counted.
MOST = 20


@dataclass(frozen=True, slots=True)
class Examined:
    """Findings about the file itself, as sentences; when it is ``damaged`` nothing further can be asked of it."""

    findings: tuple[str, ...]
    damaged: bool


def examine(raw: sqlite3.Connection, path: Path) -> Examined:
    """Findings about the file itself; none when it is sound. From then on ``raw`` reads round what cannot be read."""
    broken = tuple(shortened(damage(raw)))
    if broken:
        return Examined(broken, damaged=True)
    found = list(_foreign_keys(raw))
    strangeness = list(_schema(raw, path))
    found += strangeness
    found += _of_journal(raw, journal_findings, strangeness)
    bad = unreadable(raw)
    found += shortened(str(cell) for cell in bad if not cell.dangles)
    set_aside(raw, bad)
    found += _of_journal(raw, _acts, strangeness)
    return Examined(tuple(found), damaged=False)


def _of_journal(
    raw: sqlite3.Connection, finder: Callable[[sqlite3.Connection], Iterator[str]], strangeness: list[str]
) -> Iterator[str]:
    """What is found in the journal; as far as it goes where its tables are not as they must be, which was said."""
    try:
        yield from finder(raw)
    except sqlite3.OperationalError:
        if not strangeness:
            raise
        yield "The history could not be compared whole: see what is said of the file’s tables."


def journal_findings(raw: sqlite3.Connection) -> Iterator[str]:
    """Whether the history tells what stands, each entry of it the one before, and its own words are what they were."""
    tables = journaled_tables(raw)
    until = not_followed_to(raw)
    in_doubt = set(doubtful(raw, tables, until))
    told = {table for (table,) in raw.execute("SELECT DISTINCT tbl FROM change")}
    for table in (name for name in tables if name in told or name in in_doubt):
        followed = _chain_of(raw, table, until, "" if table in in_doubt else _SEVERAL)
        stands = _journal_of(raw, table, until) if table in in_doubt else ()
        yield from shortened(chain(stands, followed, _too_much(raw, table)))
    yield from shortened(altered(raw))


def shortened(findings: Iterable[str]) -> Iterator[str]:
    """The first findings of a kind, and how many more there are."""
    more = 0
    for number, finding in enumerate(findings):
        if number < MOST:
            yield finding
        else:
            more += 1
    if more:
        yield f"… and {more} more of the same kind."


def _foreign_keys(raw: sqlite3.Connection) -> Iterator[str]:
    broken = raw.execute("PRAGMA foreign_key_check").fetchall()
    yield from shortened(
        f"{named(table, row)} refers to a {parent.replace('_', ' ')} that is not there."
        for table, row, parent, _key in broken
    )


def _schema(raw: sqlite3.Connection, path: Path) -> Iterator[str]:
    revision = schema.revision_of(path)
    if revision not in schema.known_revisions():
        yield f"The file is of schema {revision}; this program knows up to {schema.HEAD}."
    yield from shortened(strange(raw, revision))


def named(table: str, row: object) -> str:
    """``Part no. 3``."""
    return f"{table.replace('_', ' ').capitalize()} no. {row}"


_NEWEST = """
WITH newest AS (SELECT row_id, MAX(id) AS id FROM change WHERE tbl = '{t}' GROUP BY row_id)
"""
_UNKNOWN = (
    _NEWEST
    + """
SELECT t.id FROM "{t}" AS t LEFT JOIN newest AS n ON n.row_id = t.id LEFT JOIN change AS c ON c.id = n.id
WHERE c.id IS NULL OR c.op = 'd' ORDER BY t.id
"""
)
_GONE = (
    _NEWEST
    + """
SELECT n.row_id FROM newest AS n JOIN change AS c ON c.id = n.id LEFT JOIN "{t}" AS t ON t.id = n.row_id
WHERE c.op <> 'd' AND t.id IS NULL ORDER BY n.row_id
"""
)
_DIFFERENT = (
    _NEWEST
    + """
SELECT t.id, {differing} FROM newest AS n JOIN change AS c ON c.id = n.id JOIN act AS a ON a.id = c.act_id
JOIN "{t}" AS t ON t.id = n.row_id JOIN "j_{t}" AS j ON j.change_id = c.id
WHERE c.op <> 'd' AND NOT (a.sealed AND a.id <= {until}) AND ({any_differs}) ORDER BY t.id
"""
)
#: Acts that set right what was altered outside the program: their rows need not be as they were left.
SETS_RIGHT = f"('{Act.SET_CELL_RIGHT.name}', '{Act.SET_REFERENCE_RIGHT.name}')"
_BROKEN_CHAIN = """
WITH steps AS (
  SELECT id, act_id, row_id, op, LAG(id) OVER w AS before_id, LAG(op) OVER w AS before_op,
    LAG(act_id) OVER w AS before_act
  FROM change WHERE tbl = '{t}' {rows} WINDOW w AS (PARTITION BY row_id ORDER BY id))
SELECT s.row_id, s.id, s.act_id FROM steps AS s LEFT JOIN act AS a ON a.id = s.before_act
LEFT JOIN act AS own ON own.id = s.act_id
LEFT JOIN "j_{t}" AS j ON j.change_id = s.id LEFT JOIN "j_{t}" AS b ON b.change_id = s.before_id
WHERE j.change_id IS NULL OR s.op NOT IN ('i', 'u', 'd')
OR (s.before_id IS NULL AND s.op <> 'i') OR (s.before_op = 'd') <> (s.op = 'i')
OR (s.before_op IN ('i', 'u') AND s.op IN ('u', 'd') AND NOT (a.sealed AND a.id <= {until})
  AND COALESCE(own.kind, '') NOT IN {sets_right} AND ({any_breaks}))
ORDER BY s.id
"""
#: Of a table without doubts only these can fail to follow.
_SEVERAL = "AND row_id IN (SELECT row_id FROM change WHERE tbl = '{t}' GROUP BY row_id HAVING COUNT(*) > 1)"
#: Entries with an image of the row before it was there, or after it was gone.
_TOO_MUCH = """
SELECT c.row_id, c.id, c.act_id FROM "j_{t}" AS j JOIN change AS c ON c.id = j.change_id
WHERE (c.op = 'i' AND COALESCE({before}, NULL) IS NOT NULL) OR (c.op = 'd' AND COALESCE({after}, NULL) IS NOT NULL)
ORDER BY c.id
"""


def _journal_of(raw: sqlite3.Connection, table: str, until: int) -> Iterator[str]:
    """Every standing row must be as its newest journal entry left it."""
    columns = images_of(raw, table)
    any_differs = " OR ".join(f't."{name}" IS NOT j."a_{name}"' for name in columns)
    differing = " || ".join(
        f"CASE WHEN t.\"{name}\" IS NOT j.\"a_{name}\" THEN ' {name}' ELSE '' END" for name in columns
    )
    for (row,) in raw.execute(_UNKNOWN.format(t=table)):
        yield f"{named(table, row)} stands, but the journal does not know it: it came from outside the program."
    for (row,) in raw.execute(_GONE.format(t=table)):
        yield f"{named(table, row)} is gone, but the journal knows of no removal: it was taken outside the program."
    asked = _DIFFERENT.format(t=table, differing=differing, any_differs=any_differs, until=until)
    for row, names in raw.execute(asked):
        fields = ", ".join(names.split())
        yield f"{named(table, row)} was changed outside the program ({fields}): the journal says otherwise."


def _chain_of(raw: sqlite3.Connection, table: str, until: int, rows: str) -> Iterator[str]:
    """Entries that do not follow from the one before, of the rows named by a condition."""
    any_breaks = " OR ".join(f'j."b_{name}" IS NOT b."a_{name}"' for name in images_of(raw, table))
    asked = _BROKEN_CHAIN.format(
        t=table, any_breaks=any_breaks, rows=rows.format(t=table), until=until, sets_right=SETS_RIGHT
    )
    for row, change, act in raw.execute(asked):
        yield f"{named(table, row)}: journal entry {change} of act no. {act} does not follow from the one before it."


def _too_much(raw: sqlite3.Connection, table: str) -> Iterator[str]:
    """Entries that say what the row was before it was there, or is after it is gone."""
    before, after = (", ".join(f'j."{side}_{name}"' for name in images_of(raw, table)) for side in "ba")
    for row, change, act in raw.execute(_TOO_MUCH.format(t=table, before=before, after=after)):
        yield (
            f"{named(table, row)}: journal entry {change} of act no. {act} was altered outside the program: "
            "it has values of the row from before it was there, or after it was gone."
        )


#: The tables the journal speaks of, each found by the index from the one before: walking all entries takes seconds.
_SPOKEN_OF = """
WITH RECURSIVE spoken (tbl) AS (SELECT MIN(tbl) FROM change UNION ALL
  SELECT (SELECT MIN(c.tbl) FROM change AS c WHERE c.tbl > s.tbl) FROM spoken AS s WHERE s.tbl IS NOT NULL)
SELECT tbl FROM spoken WHERE tbl IS NOT NULL
"""


def _acts(raw: sqlite3.Connection) -> Iterator[str]:
    """An act is taken back exactly when it was undone once more often than redone."""
    rows = raw.execute(
        "SELECT a.id, a.undone, COALESCE(SUM(CASE r.kind WHEN 'UNDO' THEN 1 WHEN 'REDO' THEN -1 END), 0) AS n "
        "FROM act AS a LEFT JOIN act AS r ON r.reverses = a.id WHERE a.reverses IS NULL "
        "GROUP BY a.id HAVING n <> a.undone"
    )
    yield from shortened(
        f"Act no. {act} is marked {'taken back' if undone else 'standing'}, but its undo and redo say otherwise."
        for act, undone, _n in rows
    )
    known = set(journaled_tables(raw))
    for table in sorted({table for (table,) in raw.execute(_SPOKEN_OF)} - known):
        yield f"The journal speaks of “{table}”, which this file does not have."
