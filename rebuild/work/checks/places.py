"""Places worked out again: where each part lies is the stay it has not left."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from rebuild.store.file_tables import tables_of


def stays(raw: sqlite3.Connection) -> Iterator[str]:
    """A part lies in one place, and its history of places does not run backwards."""
    if "stay" not in tables_of(raw):
        return
    differ = raw.execute(
        "SELECT part.code, part.name FROM part LEFT JOIN stay ON stay.part_id = part.id AND stay.left_at IS NULL "
        "WHERE part.place_id IS NOT stay.place_id OR (stay.id IS NOT NULL AND part.placed_at IS NOT stay.came_at) "
        "GROUP BY part.id ORDER BY part.id"
    )
    for code, name in differ:
        yield f"{code} {name}: the part and its history of places say two things. Put it away once more.".strip()
    several = raw.execute(
        "SELECT part.code, part.name, count(*) FROM stay JOIN part ON part.id = stay.part_id "
        "WHERE stay.left_at IS NULL GROUP BY part.id HAVING count(*) > 1 ORDER BY part.id"
    )
    for code, name, count in several:
        yield f"{code} {name} lies in {count} places at once. Put it where it lies once more.".strip()
    backwards = raw.execute(
        "SELECT part.code, part.name, stay.came_at, stay.left_at FROM stay JOIN part ON part.id = stay.part_id "
        "WHERE stay.came_at > stay.left_at ORDER BY stay.id"
    )
    for code, name, came, left in backwards:
        yield f"{code} {name}: came to a place on {came} and left it before, on {left}.".strip()
