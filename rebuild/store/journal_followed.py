"""From which act on every image in the journal must follow from the one before, and the row that stands from the last.

An act is sealed when it was taken back and another came, or when a migration or a repair changed rows without telling
the journal. Only the second leaves images that do not follow, and only in files of a schema before 0021: that migration
lets the last image before such a change say what the change made of the row. Since then all follows, sealed or not.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from rebuild.store.file_tables import columns_of, images_of, journaled_tables

FOLLOWED_SINCE = "0021"
#: The newest act standing at a migration or repair that sealed all: what is taken back has an undo after it.
_SEALED_WHOLE = "SELECT COALESCE(MAX(id), 0) FROM main.act WHERE sealed AND NOT undone"
_NEXT = """
WITH steps AS (SELECT id, act_id, LEAD(id) OVER w AS next_id, LEAD(op) OVER w AS next_op, op, row_id
  FROM change WHERE tbl = '{t}' WINDOW w AS (PARTITION BY row_id ORDER BY id))
SELECT s.id, s.next_id, s.row_id FROM steps AS s JOIN act AS a ON a.id = s.act_id
JOIN "j_{t}" AS j ON j.change_id = s.id
LEFT JOIN "j_{t}" AS n ON n.change_id = s.next_id AND s.next_op IN ('u', 'd')
LEFT JOIN "{t}" AS t ON s.next_id IS NULL AND t.id = s.row_id
WHERE a.sealed AND a.id <= ? AND s.op IN ('i', 'u')
AND ((n.change_id IS NOT NULL AND ({after})) OR (t.id IS NOT NULL AND ({stands})))
"""


def not_followed_to(raw: sqlite3.Connection) -> int:
    """Sealed acts up to this number need not be followed; 0 where every one must be."""
    if not {"id", "sealed", "undone"} <= set(columns_of(raw, "act")):
        return 0
    (revision,) = raw.execute("SELECT MAX(version_num) FROM alembic_version").fetchone() or (None,)
    if str(revision or "") >= FOLLOWED_SINCE:
        return 0
    return sealed_whole(raw)


def sealed_whole(raw: sqlite3.Connection) -> int:
    """The newest act that a migration or a repair sealed with all before it; 0 where none did."""
    newest: int
    (newest,) = raw.execute(_SEALED_WHOLE).fetchone()
    return newest


def let_follow(raw: sqlite3.Connection) -> int:
    """Have the images that a migration or a repair left behind say what it made of the row; returns how many."""
    until = sealed_whole(raw)
    return sum(1 for table in journaled_tables(raw) for _ in _followed(raw, table, until)) if until else 0


def _followed(raw: sqlite3.Connection, table: str, until: int) -> Iterator[int]:
    names = images_of(raw, table)
    after = " OR ".join(f'j."a_{name}" IS NOT n."b_{name}"' for name in names)
    stands = " OR ".join(f'j."a_{name}" IS NOT t."{name}"' for name in names)
    into = ", ".join(f'"a_{name}"' for name in names)
    from_next, from_row = (", ".join(f'"{side}{name}"' for name in names) for side in ("b_", ""))
    for change, following, row in raw.execute(
        _NEXT.format(t=table, after=after, stands=stands), (until,)
    ).fetchall():
        source = f'(SELECT {from_next} FROM "j_{table}" WHERE change_id = ?)'
        if following is None:
            source = f'(SELECT {from_row} FROM "{table}" WHERE id = ?)'
        raw.execute(
            f'UPDATE "j_{table}" SET ({into}) = {source} WHERE change_id = ?',
            (row if following is None else following, change),
        )
        yield change
