"""Does the journal of a table tell what stands, asked in few walks: only a table in doubt is asked what is wrong.

What ``check`` says of a row needs the newest entry of each, sorted and laid beside the one before it. That nothing is
to be said follows from less: each standing row is the image of its newest entry; as many rows stand as have an entry
that does not remove them; a row with one entry came by it. Rows with more entries are for ``check`` to follow.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence

from rebuild.store.file_tables import columns_of, images_of

#: Rows of the journal by table: all that were ever there, and those whose newest entry removes them.
_EVER = "SELECT tbl, COUNT(*) FROM (SELECT DISTINCT tbl, row_id FROM change) GROUP BY tbl"
_GONE = """
SELECT c.tbl, COUNT(*) FROM change AS c NOT INDEXED WHERE c.op = 'd' AND NOT EXISTS
(SELECT 1 FROM change AS n WHERE n.tbl = c.tbl AND n.row_id = c.row_id AND n.id > c.id) GROUP BY c.tbl
"""
#: Tables with an entry that follows or comes first as no entry of its kind does.
_ODD_ENTRIES = """
SELECT DISTINCT c.tbl FROM change AS c NOT INDEXED WHERE c.op <> 'i' AND NOT EXISTS
(SELECT 1 FROM change AS b WHERE b.tbl = c.tbl AND b.row_id = c.row_id AND b.id < c.id)
"""
_NOT_AS_LEFT = """
SELECT 1 FROM "{t}" AS t LEFT JOIN "j_{t}" AS j
ON j.change_id = (SELECT MAX(n.id) FROM change AS n WHERE n.tbl = '{t}' AND n.row_id = t.id)
WHERE j.change_id IS NULL OR j.a_id IS NULL OR (({differs}) AND NOT EXISTS
(SELECT 1 FROM change AS c JOIN act AS a ON a.id = c.act_id WHERE c.id = j.change_id
AND a.sealed AND a.id <= {until})) LIMIT 1
"""


def doubtful(raw: sqlite3.Connection, tables: Sequence[str], until: int) -> Iterator[str]:
    """The tables of which anything may be said, in their order; ``until`` as ``journal_followed`` says."""
    if not {"id", "act_id", "tbl", "row_id", "op"} <= set(columns_of(raw, "change")):
        yield from tables
        return
    ever, gone = dict(raw.execute(_EVER).fetchall()), dict(raw.execute(_GONE).fetchall())
    odd = {table for (table,) in raw.execute(_ODD_ENTRIES)}
    for table in tables:
        (stand,) = raw.execute(f'SELECT COUNT(*) FROM "{table}"').fetchone()
        told = ever.get(table, 0) - gone.get(table, 0)
        if table in odd or stand != told or (stand and _not_as_left(raw, table, until)):
            yield table


def _not_as_left(raw: sqlite3.Connection, table: str, until: int) -> bool:
    differs = " OR ".join(f't."{name}" IS NOT j."a_{name}"' for name in images_of(raw, table))
    return (
        raw.execute(_NOT_AS_LEFT.format(t=table, differs=differs or "0", until=until)).fetchone() is not None
    )
