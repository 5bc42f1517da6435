"""Which grid rows a change concerns, and whether the list of rows itself may differ now."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rebuild.store.changed import Changed
from rebuild.window.readings.shown import Shown
from rebuild.work.readings.rows_grid import Asked, Key, keys_of_readings

if TYPE_CHECKING:
    from sqlalchemy import Connection

#: Above this many changed readings everything prepared is dropped instead of picked over.
MANY = 500


@dataclass(frozen=True, slots=True)
class News:
    """Rows to prepare again; whether to ask for the list again; whether every row is concerned."""

    keys: frozenset[Key] = frozenset()
    list_may_differ: bool = False
    everything: bool = False


def find(
    connection: Connection,
    changed: Changed,
    asked: Asked,
    known: Collection[Key],
    shown: Mapping[Key, Shown],
) -> News:
    """What a change means for a view of ``asked`` with the keys ``known``, some of them prepared (``shown``)."""
    if changed.touches("instrument"):
        return News(list_may_differ=changed.touches("feature", "station", "part"), everything=True)
    features = _all(changed, "feature")
    parts = _all(changed, "part")
    stations = _all(changed, "station")
    listed = bool(features or parts or stations or changed.touches("subassembly", "machine"))
    keys = {
        key
        for key, row in shown.items()
        if key[0] in features or row.row.part_id in parts or key[1] in stations
    }
    readings = _all(changed, "reading")
    if len(readings) > MANY:
        return News(list_may_differ=True, everything=True)
    if readings:
        touched = _keys_of_readings(connection, changed, shown)
        keys |= touched
        listed |= _reading_moves_list(asked, changed, touched, known)
    return News(frozenset(keys), listed)


def _all(changed: Changed, table: str) -> frozenset[int]:
    rows = changed.rows(table)
    return rows.added | rows.updated | rows.removed


def _keys_of_readings(connection: Connection, changed: Changed, shown: Mapping[Key, Shown]) -> set[Key]:
    """The rows of readings that changed; of those taken away, as far as they were showing."""
    rows = changed.rows("reading")
    keys = keys_of_readings(connection, rows.added | rows.updated)
    if rows.removed:
        keys |= {
            key
            for key, row in shown.items()
            if any(reading is not None and reading.id in rows.removed for reading in row.row.readings)
        }
    return keys


def _reading_moves_list(
    asked: Asked, changed: Changed, touched: Collection[Key], known: Collection[Key]
) -> bool:
    """Whether a reading can add or hide rows.

    An order or a filter by verdict is not asked again for a row already listed: rows must not jump away
    while they are measured. A feature that has stations has a row of its own only while it is read there.
    """
    if asked.stage is not None or asked.unread or any(key not in known for key in touched):
        return True
    rows = changed.rows("reading")
    at_large = any(key[1] == 0 for key in touched)
    return (at_large and bool(rows.removed or rows.updated)) or len(rows.removed) > len(touched)
