"""Taking back the newest act of an open file, and doing it again: each an act of its own."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager

from sqlalchemy import Connection

from rebuild.errors import Stale
from rebuild.model.tables.every import whole
from rebuild.store import entry, next_undo as undoing
from rebuild.store.act import Act
from rebuild.store.beside import Tell
from rebuild.store.next_undo import Step
from rebuild.store.tx import Tx

#: Opens a view of the file.
Read = Callable[[], AbstractContextManager[Connection]]
#: Begins an act of a kind, about a subject, that reverses the act of this id.
Begin = Callable[[Act, str, int], AbstractContextManager[Tx]]


def words(read: Read, *, undo: bool) -> str | None:
    """What undo (or redo) would do now, in words, or None."""
    step = _next(read, undo=undo)
    return None if step is None else step.words


def rows_touched(read: Read, *, undo: bool) -> dict[str, int]:
    """How many rows of each table undo (or redo) would touch, most first."""
    with read() as connection:
        step = undoing.next_step(connection, undo=undo)
        return undoing.rows_by_table(connection, step.act_id) if step is not None else {}


def replay(read: Read, begin: Begin, *, undo: bool, tell: Tell) -> Step | None:
    """Take back the newest act (or do the last one again); returns which, or None when there is none.

    Raises:
        Stale: another window did something in this very moment; nothing was changed.
        Stopped: ``tell`` stopped it; nothing was changed.
    """
    step = _next(read, undo=undo)
    if step is None:
        return None
    with begin(Act.UNDO if undo else Act.REDO, step.words, step.act_id) as tx:
        if undoing.next_step(tx.connection, undo=undo) != step:
            raise Stale(
                "Another window has done something in this very moment.",
                way_out="Look at what changed, then choose undo or redo again.",
            )
        from rebuild.store import take_back

        take_back.replay(tx.connection, whole(), step.act_id, undo=undo, tell=tell)
        entry.mark(entry.driver(tx.connection), step.act_id, undone=undo)
    return step


def _next(read: Read, *, undo: bool) -> Step | None:
    with read() as connection:
        return undoing.next_step(connection, undo=undo)
