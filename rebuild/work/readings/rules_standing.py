"""Where a reading stands, as a condition SQLite answers from the readings of the one feature."""

from __future__ import annotations

from sqlalchemy import BindParameter, ColumnElement, and_, func

from rebuild.model.records.readings import Reading


def standing_at(feature_id: int, station_id: int | None) -> ColumnElement[bool]:
    """Readings of a feature at a station (None: of the feature as a whole) that are not struck out.

    Not ``station_id IS NULL``: SQLite takes the index on the station for it, and in that nearly every reading of
    the file without a station lies under the one NULL.
    """
    return standing_of(feature_id, station_id or 0)


def standing_of(feature: int | BindParameter[int], station: int | BindParameter[int]) -> ColumnElement[bool]:
    """The same, the station 0 being the feature as a whole; for a statement made once and asked often."""
    return and_(
        Reading.feature_id == feature,
        func.coalesce(Reading.station_id, 0) == station,
        Reading.struck.is_(None),
    )
