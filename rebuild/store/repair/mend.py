"""Make the rows that were saved fit together: bad cells, rows without what they belong to, a journal with holes."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from rebuild.store import entry
from rebuild.store.act import Act
from rebuild.store.check import SETS_RIGHT, named
from rebuild.store.checksums import altered, carried, put_all
from rebuild.store.file_tables import images_of, journaled_tables
from rebuild.store.journal_followed import not_followed_to
from rebuild.store.quoting import shown
from rebuild.store.set_aside import set_aside
from rebuild.store.unreadable import unreadable

_NEWEST = (
    "SELECT c.row_id, c.op, a.sealed AND a.id <= ?, c.id FROM change AS c JOIN act AS a ON a.id = c.act_id "
    "WHERE c.id IN (SELECT MAX(id) FROM change WHERE tbl = ? GROUP BY row_id)"
)


def from_journal(raw: sqlite3.Connection) -> Iterator[str]:
    """Rows as their newest journal entry left them, where the table itself lost or changed them."""
    until = not_followed_to(raw)
    for table in journaled_tables(raw):
        columns = images_of(raw, table)
        images = ", ".join(f'"a_{name}"' for name in columns)
        names = ", ".join(f'"{name}"' for name in columns)
        marks = ", ".join("?" * len(columns))
        for row, op, sealed, change in raw.execute(_NEWEST, (until, table)).fetchall():
            image = raw.execute(f'SELECT {images} FROM "j_{table}" WHERE change_id = ?', (change,)).fetchone()
            stands = raw.execute(f'SELECT {names} FROM "{table}" WHERE id = ?', (row,)).fetchone()
            if op == "d":
                if stands is not None and not sealed:
                    raw.execute(f'DELETE FROM "{table}" WHERE id = ?', (row,))
                    yield f"{named(table, row)} was there, but the journal says it was removed; it is left out."
                continue
            if image is None or image[columns.index("id")] != row:
                continue
            if stands is not None and (sealed or stands == image or _is_damaged(image)):
                continue
            try:
                raw.execute(f'INSERT OR REPLACE INTO "{table}" ({names}) VALUES ({marks})', image)
            except sqlite3.Error:
                continue
            yield _taken(table, row, columns, stands, image)


def _is_damaged(image: tuple[object, ...]) -> bool:
    """Whether an image in the journal was itself damaged: it then says nothing against what stands."""
    return any(isinstance(value, str) and "\N{REPLACEMENT CHARACTER}" in value for value in image)


def _taken(
    table: str, row: int, columns: list[str], stands: tuple[object, ...] | None, image: tuple[object, ...]
) -> str:
    if stands is None:
        return f"{named(table, row)} could not be read; it is as the journal has it."
    differing = ", ".join(
        f"{name} “{shown(was)}” is “{shown(now)}” again"
        for name, was, now in zip(columns, stands, image, strict=True)
        if was != now
    )
    return f"{named(table, row)} was not as the journal has it: {differing}."


def bad_cells(raw: sqlite3.Connection) -> Iterator[str]:
    """What still cannot be read goes out, or what stands for it in; what goes with a row goes with it."""
    found = unreadable(raw)
    if not found:
        return
    set_aside(raw, found)
    for table, row, column, value in raw.execute("SELECT tbl, row, col, value FROM stand_in").fetchall():
        raw.execute(f'UPDATE main."{table}" SET "{column}" = ? WHERE rowid = ?', (value, row))
    gone = raw.execute("SELECT tbl, row FROM row_aside ORDER BY tbl, row").fetchall()
    for table, row in gone:
        raw.execute(f'DELETE FROM main."{table}" WHERE rowid = ?', (row,))
    for (name,) in raw.execute("SELECT name FROM sqlite_temp_master WHERE type = 'view'").fetchall():
        raw.execute(f'DROP VIEW temp."{name}"')
    raw.execute("DROP TABLE temp.row_aside")
    raw.execute("DROP TABLE temp.stand_in")
    said = {(cell.table, cell.row) for cell in found}
    for cell in found:
        what = "the row is left out" if cell.leaves_row_out else f"it is {_put(cell.stands_in)} now"
        yield f"{named(cell.table, cell.row)}: {cell.column} was “{cell.value}”, {cell.what}; {what}."
    for table, row in gone:
        if (table, row) not in said:
            yield f"{named(table, row)} is left out with what it belongs to."


def _put(value: object) -> str:
    return "empty" if value in (None, "") else f"“{shown(value)}”"


def sound_journal(raw: sqlite3.Connection) -> Iterator[str]:
    """A journal that tells of every row that stands: what lies before is history, what has holes begins anew."""
    yield from altered(raw)
    act = entry.seal_whole(raw, Act.REPAIR.name)
    tables = journaled_tables(raw)
    marks = ", ".join("?" * len(tables))
    raw.execute(
        f"DELETE FROM change WHERE tbl NOT IN ({marks}) OR act_id NOT IN (SELECT id FROM act)", tables
    )
    begun_anew = 0
    for table in tables:
        raw.execute(
            f'DELETE FROM "j_{table}" WHERE change_id NOT IN (SELECT id FROM change WHERE tbl = ?)', (table,)
        )
        rows = _unsound(raw, table)
        begun_anew += len(rows)
        for row in rows:
            _begin_anew(raw, table, row, act)
    if carried(raw):
        put_all(raw)
    if begun_anew:
        yield f"The history of {begun_anew} rows had holes or did not fit; it begins anew with the repair."
    yield "What was done before the repair can be read in the history, but no longer undone."


def _unsound(raw: sqlite3.Connection, table: str) -> list[int]:
    """Rows whose journal does not tell how they came to stand."""
    names = images_of(raw, table)
    differs = " OR ".join(f't."{name}" IS NOT j."a_{name}"' for name in names)
    breaks = " OR ".join(f'j."b_{name}" IS NOT b."a_{name}"' for name in names)
    before, after = (", ".join(f'j."{side}_{name}"' for name in names) for side in "ba")
    rows = raw.execute(
        f"""WITH newest AS (SELECT row_id, MAX(id) AS id FROM change WHERE tbl = :t GROUP BY row_id),
        steps AS (SELECT id, act_id, row_id, op, LAG(op) OVER w AS before, LAG(id) OVER w AS before_id
          FROM change WHERE tbl = :t WINDOW w AS (PARTITION BY row_id ORDER BY id))
        SELECT s.row_id FROM steps AS s LEFT JOIN act AS a ON a.id = s.act_id
          LEFT JOIN "j_{table}" AS j ON j.change_id = s.id LEFT JOIN "j_{table}" AS b ON b.change_id = s.before_id
          WHERE j.change_id IS NULL OR s.op NOT IN ('i', 'u', 'd')
          OR (s.before IS NULL AND s.op <> 'i') OR (s.before = 'd') <> (s.op = 'i')
          OR (s.before <> 'd' AND s.op <> 'i' AND COALESCE(a.kind, '') NOT IN {SETS_RIGHT} AND ({breaks}))
          OR (s.op = 'i' AND COALESCE({before}, NULL) IS NOT NULL)
          OR (s.op = 'd' AND COALESCE({after}, NULL) IS NOT NULL)
        UNION SELECT t.id FROM "{table}" AS t LEFT JOIN newest AS n ON n.row_id = t.id
          LEFT JOIN change AS c ON c.id = n.id LEFT JOIN "j_{table}" AS j ON j.change_id = n.id
          WHERE n.id IS NULL OR c.op = 'd' OR {differs}
        UNION SELECT n.row_id FROM newest AS n JOIN change AS c ON c.id = n.id
          WHERE c.op <> 'd' AND n.row_id NOT IN (SELECT id FROM "{table}")""",
        {"t": table},
    )
    return [int(row) for (row,) in rows if isinstance(row, int)]


def _begin_anew(raw: sqlite3.Connection, table: str, row: int, act: int) -> None:
    raw.execute(
        f'DELETE FROM "j_{table}" WHERE change_id IN (SELECT id FROM change WHERE tbl = ? AND row_id = ?)',
        (table, row),
    )
    raw.execute("DELETE FROM change WHERE tbl = ? AND row_id = ?", (table, row))
    if raw.execute(f'SELECT 1 FROM "{table}" WHERE id = ?', (row,)).fetchone() is None:
        return
    change = raw.execute(
        "INSERT INTO change (act_id, tbl, row_id, op) VALUES (?, ?, ?, 'i')", (act, table, row)
    ).lastrowid
    names = images_of(raw, table)
    into = ", ".join(f'"a_{name}"' for name in names)
    values = ", ".join(f'"{name}"' for name in names)
    raw.execute(
        f'INSERT INTO "j_{table}" (change_id, {into}) SELECT ?, {values} FROM "{table}" WHERE id = ?',
        (change, row),
    )
