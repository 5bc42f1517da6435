"""Which fits an act has touched, so that only those are worked out again."""

from __future__ import annotations

from collections.abc import Collection

from sqlalchemy import Connection, select, text

from rebuild.model.tables.features import Stations
from rebuild.model.tables.readings import Readings
from rebuild.store.changed import Changed
from rebuild.work.fits.rows import of_features, of_parts
from rebuild.work.fits.rows_sides import chunks

#: The tables the lookups here ask.
READS = frozenset({"feature", "fit", "reading", "station"})

#: Tables after whose change every fit is worked out again.
_ALL = ("instrument", "setting", "machine")


def touched(connection: Connection, changed: Changed) -> set[int] | None:
    """The fits an act has touched, among them removed ones; None when all must be worked out again."""
    if changed.touches(*_ALL):
        return None
    own = changed.rows("fit")
    found = set(own.added | own.updated | own.removed)
    parts = changed.rows("part")
    found |= set(of_parts(connection, parts.updated))
    features = changed.rows("feature")
    keys = set(features.updated) | _features_of_stations(connection, changed.rows("station").updated)
    readings = changed.rows("reading")
    keys |= _features_of_readings(connection, readings.added | readings.updated)
    keys |= _features_once(connection, readings.removed)
    return found | set(of_features(connection, keys))


def _features_of_stations(connection: Connection, ids: Collection[int]) -> set[int]:
    query = select(Stations.feature_id)
    return {
        key
        for chunk in chunks(ids)
        for key in connection.execute(query.where(Stations.id.in_(chunk))).scalars()
    }


def _features_of_readings(connection: Connection, ids: Collection[int]) -> set[int]:
    query = select(Readings.feature_id)
    return {
        key
        for chunk in chunks(ids)
        for key in connection.execute(query.where(Readings.id.in_(chunk))).scalars()
    }


_ONCE = text(
    "SELECT DISTINCT j.b_feature_id FROM change AS c JOIN j_reading AS j ON j.change_id = c.id "
    "WHERE c.tbl = 'reading' AND c.op = 'd' AND c.row_id = :row"
)


def _features_once(connection: Connection, reading_ids: Collection[int]) -> set[int]:
    """The features of readings that are gone, from the journal."""
    return {key for row in reading_ids for key in connection.execute(_ONCE, {"row": row}).scalars() if key}
