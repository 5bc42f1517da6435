"""The values that wait for a row."""

from __future__ import annotations

from sqlalchemy import Connection, select

from rebuild.model.tables.readings import Unplaced
from rebuild.work.landings.stored import UnplacedRow

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
