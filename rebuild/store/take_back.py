"""Undo and redo of one act in bulk statements from its shadow rows.

The net effect of an act on a row is the image before its first change and the one after its last.
Undo goes from the last to the first, redo the other way. A row must still be as the journal left
it, else the replay is refused whole: someone wrote to the file outside the program.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from sqlalchemy import Connection, MetaData, Table, text
from sqlalchemy.exc import DBAPIError

from rebuild.errors import Stale, Stopped
from rebuild.model.shadows import journaled, shadow_name
from rebuild.store.beside import Tell, unheard
from rebuild.store.entry import driver

_NET = """
CREATE TEMP TABLE net_change (
  tbl TEXT, row_id INTEGER, first_id INTEGER, first_op TEXT, last_id INTEGER, last_op TEXT,
  PRIMARY KEY (tbl, row_id)) WITHOUT ROWID
"""
#: One walk through the act, its changes in their order: a row changed again moves on its last one.
_FILL = """
INSERT INTO net_change SELECT tbl, row_id, id, op, id, op FROM change WHERE act_id = :act ORDER BY id
ON CONFLICT (tbl, row_id) DO UPDATE SET last_id = excluded.last_id, last_op = excluded.last_op
"""
_MORE = """
SELECT c.tbl, c.row_id FROM change AS c WHERE c.act_id = (SELECT id FROM current_act) AND NOT EXISTS
(SELECT 1 FROM net_change AS n WHERE n.tbl = c.tbl AND n.row_id = c.row_id) LIMIT 1
"""
#: SQLite's own steps between two looks whether the user wants to stop; some milliseconds.
_STEPS = 50_000


@dataclass(frozen=True, slots=True)
class _Direction:
    """Which image is where the row is now, and which is where it goes."""

    here_id: str  # column of net_change naming the change whose image is the row now
    here: str  # side of that image
    here_absent: str  # condition on net_change: the row is not there now
    there_id: str
    there: str
    there_absent: str


_UNDO = _Direction("last_id", "a", "n.last_op = 'd'", "first_id", "b", "n.first_op = 'i'")
_REDO = _Direction("first_id", "b", "n.first_op = 'i'", "last_id", "a", "n.last_op = 'd'")


def replay(
    connection: Connection, metadata: MetaData, act_id: int, *, undo: bool, tell: Tell = unheard
) -> None:
    """Take back (``undo``) or do again the act ``act_id`` inside the caller's transaction.

    Raises:
        Stale: a row is no longer as the journal left it.
        Stopped: ``tell`` said so; the caller's transaction is to be rolled back.
    """
    progress = _Progress(driver(connection), tell)
    with progress:
        _replay(connection, metadata, act_id, progress, undo=undo)


class _Progress:
    """Tells how far it is between statements and, by SQLite's own clock, inside them; stops where asked."""

    def __init__(self, raw: sqlite3.Connection, tell: Tell) -> None:
        self._raw, self._tell = raw, tell
        self._share, self._words, self._stopped = 0.0, "", False

    def __enter__(self) -> None:
        self._raw.set_progress_handler(self._look, _STEPS)

    def __exit__(self, _kind: object, error: BaseException | None, _trace: object) -> None:
        self._raw.set_progress_handler(None, 0)
        if self._stopped and isinstance(error, (DBAPIError, sqlite3.Error)):
            raise _stopped() from error

    def reached(self, share: float, words: str) -> None:
        """So far; raises Stopped."""
        self._share, self._words = share, words
        if self._look():
            raise _stopped()

    def _look(self) -> int:
        self._stopped = not self._tell(self._share, self._words)
        return int(self._stopped)


def _stopped() -> Stopped:
    return Stopped("It was stopped; nothing was changed.")


def _replay(
    connection: Connection, metadata: MetaData, act_id: int, progress: _Progress, *, undo: bool
) -> None:
    way = _UNDO if undo else _REDO
    connection.exec_driver_sql("PRAGMA defer_foreign_keys = ON")
    connection.exec_driver_sql("DROP TABLE IF EXISTS net_change")
    connection.exec_driver_sql(_NET)
    connection.execute(text(_FILL), {"act": act_id})
    kinds = {(row[0], row[1]) for row in connection.exec_driver_sql(_kinds(way))}
    tables = [table for table in journaled(metadata) if table.name in {name for name, _ in kinds}]
    work: list[Callable[[], object]] = [
        *(partial(_refuse_if_moved_on, connection, table, way) for table in tables),
        # What comes back first, then what was handed on, what goes last: a row that was given another owner by the
        # act must have it before its old owner goes, or it would go with that one.
        *(
            partial(connection.exec_driver_sql, write(table, way))
            for kind, write, order in (
                ("comes", _insert, tables),
                ("changes", _update, tables),
                ("goes", _delete, tables[::-1]),
            )
            for table in order
            if (table.name, kind) in kinds
        ),
    ]
    for done, piece in enumerate(work):
        progress.reached(done / len(work), "Taking back" if undo else "Doing again")
        piece()
    if any(kind == "goes" for _, kind in kinds):  # nothing else reaches other rows
        _refuse_if_more_was_touched(connection)
    connection.exec_driver_sql("DROP TABLE net_change")


def _kinds(way: _Direction) -> str:
    """Which tables have rows that come back, change or go; a table whose rows came and went in the act has none."""
    return (
        f"SELECT DISTINCT n.tbl, CASE WHEN {way.here_absent} AND {way.there_absent} THEN '' "
        f"WHEN {way.here_absent} THEN 'comes' WHEN {way.there_absent} THEN 'goes' ELSE 'changes' END "
        "FROM net_change AS n"
    )


def _refuse_if_moved_on(connection: Connection, table: Table, way: _Direction) -> None:
    differs = " OR ".join(f'j."{way.here}_{c.name}" IS NOT t."{c.name}"' for c in table.columns)
    moved = connection.exec_driver_sql(
        f"SELECT n.row_id FROM net_change AS n "
        f'LEFT JOIN "{table.name}" AS t ON t.id = n.row_id '
        f"LEFT JOIN {shadow_name(table.name)} AS j ON j.change_id = n.{way.here_id} "
        f"WHERE n.tbl = '{table.name}' AND NOT ({way.here_absent} AND {way.there_absent}) AND "
        f"CASE WHEN {way.here_absent} THEN t.id IS NOT NULL ELSE t.id IS NULL OR {differs} END LIMIT 1"
    ).first()
    if moved:
        raise Stale(
            f"The {table.name.replace('_', ' ')} no. {moved[0]} was changed outside this program since, "
            "so this step cannot be replayed.",
            way_out="Run “rebuild check” on the file; later steps are untouched.",
        )


def _refuse_if_more_was_touched(connection: Connection) -> None:
    """Cascades of this replay must stay inside what the act itself touched, else they would be final."""
    more = connection.exec_driver_sql(_MORE).first()
    if more:
        raise Stale(
            f"The {more[0].replace('_', ' ')} no. {more[1]} hangs on what would go and was put there outside "
            "this program, so this step cannot be replayed.",
            way_out="Run “rebuild check” on the file; later steps are untouched.",
        )


def _delete(table: Table, way: _Direction) -> str:
    return (
        f'DELETE FROM "{table.name}" WHERE id IN (SELECT n.row_id FROM net_change AS n '
        f"WHERE n.tbl = '{table.name}' AND {way.there_absent} AND NOT {way.here_absent})"
    )


def _insert(table: Table, way: _Direction) -> str:
    names = ", ".join(f'"{c.name}"' for c in table.columns)
    images = ", ".join(f'j."{way.there}_{c.name}"' for c in table.columns)
    return (
        f'INSERT INTO "{table.name}" ({names}) SELECT {images} FROM net_change AS n '
        f"JOIN {shadow_name(table.name)} AS j ON j.change_id = n.{way.there_id} "
        f"WHERE n.tbl = '{table.name}' AND {way.here_absent} AND NOT {way.there_absent}"
    )


def _update(table: Table, way: _Direction) -> str:
    sets = ", ".join(f'"{c.name}" = j."{way.there}_{c.name}"' for c in table.columns if c.name != "id")
    return (
        f'UPDATE "{table.name}" SET {sets} FROM net_change AS n '
        f"JOIN {shadow_name(table.name)} AS j ON j.change_id = n.{way.there_id} "
        f"WHERE n.tbl = '{table.name}' AND \"{table.name}\".id = n.row_id "
        f"AND NOT {way.here_absent} AND NOT {way.there_absent}"
    )
