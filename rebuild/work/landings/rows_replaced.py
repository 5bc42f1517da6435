"""Values of this window over which another window has put its own."""

from __future__ import annotations

from collections.abc import Collection

from sqlalchemy import Connection, select

from rebuild.model.asked import alias
from rebuild.model.tables.readings import Readings

#: The tables the lookups here ask.
READS = frozenset({"reading"})


def replaced_by(
    connection: Connection, reading_ids: Collection[int], added: Collection[int]
) -> list[tuple[int, str, str]]:
    """Of these readings, each that one of the ``added`` speaks over now: id, as typed, and as the other was typed."""
    if not reading_ids or not added:
        return []
    mine = alias(Readings, "mine")
    found = connection.execute(
        select(mine.id, mine.typed, Readings.typed)
        .where(
            mine.id.in_(reading_ids),
            Readings.id.in_(added),
            Readings.feature_id == mine.feature_id,
            Readings.station_id.is_not_distinct_from(mine.station_id),
            Readings.stage == mine.stage,
            Readings.id > mine.id,
            Readings.struck.is_(None),
        )
        .order_by(mine.id, Readings.id)
    )
    return [(row[0], row[1], row[2]) for row in found]
