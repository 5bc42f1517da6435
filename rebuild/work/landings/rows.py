"""The values that wait for a row."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import Connection, select

from rebuild.model.tables.readings import Unplaced
from rebuild.words.counted import counted
from rebuild.work.landings.stored import UnplacedRow

#: So many are named in a sentence.
_NAMED = 4
READS = frozenset({"unplaced"})


def unplaced(connection: Connection) -> list[UnplacedRow]:
    """Every value without a row, the oldest first."""
    rows = connection.execute(
        select(
            Unplaced.id,
            Unplaced.typed,
            Unplaced.sent_at,
            Unplaced.seen_on,
            Unplaced.instrument_id,
            Unplaced.temperature_text,
            Unplaced.taken_by,
        ).order_by(Unplaced.id)
    )
    return [UnplacedRow(*row[:5], row.temperature_text or "", row.taken_by) for row in rows]


def waiting_words(rows: Sequence[UnplacedRow]) -> str:
    """What waits, in a sentence; empty when nothing does."""
    if not rows:
        return ""
    sent = ", ".join(row.typed for row in rows[:_NAMED])
    more = f" and {len(rows) - _NAMED} more" if len(rows) > _NAMED else ""
    waits = "waits" if len(rows) == 1 else "wait"
    return f"{counted(len(rows), 'value')} without a row {waits}: {sent}{more}."
