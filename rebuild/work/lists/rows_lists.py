"""Machines, parts, features, stations and readings as lists that can be imported again, names beside numbers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from sqlalchemy import Connection, select

from rebuild.model.all import (
    Feature,
    Instrument,
    Machine,
    MatchedSet,
    Part,
    Place,
    Reading,
    Station,
    Subassembly,
)
from rebuild.work.lists.fields import FEATURES, MACHINES, PARTS, READINGS, STATIONS, Column, What
from rebuild.work.lists.rows_everything import Head, Listing, Value, plain


def lists(connection: Connection) -> list[Listing]:
    """The five lists of a whole file, in the order they are imported."""
    return [
        _list(What.MACHINES, MACHINES, _machines(connection)),
        _list(What.PARTS, PARTS, _parts(connection)),
        _list(What.FEATURES, FEATURES, _features(connection)),
        _list(What.STATIONS, STATIONS, _stations(connection)),
        _list(What.READINGS, READINGS, _readings(connection)),
    ]


def _list(what: What, columns: Sequence[Column], rows: Iterable[Mapping[str, Any]]) -> Listing:
    heads = tuple(Head(column.head, column.name, column.holds) for column in columns)
    made = tuple(tuple(_cell(row.get(column.source)) for column in columns) for row in rows)
    return Listing(what.value, what.value, heads, made)


def _cell(value: object) -> Value:
    return plain(value)


def _machines(connection: Connection) -> list[Mapping[str, Any]]:
    query = select(Machine.__table__).order_by(Machine.position, Machine.id)
    return [dict(row) for row in connection.execute(query).mappings()]


def _parts(connection: Connection) -> list[Mapping[str, Any]]:
    query = (
        select(
            Part.__table__, Machine.name.label("machine"), Subassembly.code.label("group_code"),
            Subassembly.name.label("group_name"), Place.kind.label("place_kind"), Place.name.label("place_name"),
            MatchedSet.name.label("set_name"),
        )
        .join(Machine, Machine.id == Part.machine_id)
        .outerjoin(Subassembly, Subassembly.id == Part.subassembly_id)
        .outerjoin(Place, Place.id == Part.place_id)
        .outerjoin(MatchedSet, MatchedSet.id == Part.matched_set_id)
        .order_by(Machine.position, Machine.id, Part.id)
    )  # fmt: skip
    return [dict(row) for row in connection.execute(query).mappings()]


def _features(connection: Connection) -> list[Mapping[str, Any]]:
    query = (
        select(
            Feature.__table__, Part.code.label("part_code"), Part.name.label("part_name"),
            Part.machine_id, Machine.name.label("machine"),
        )
        .join(Part, Part.id == Feature.part_id)
        .join(Machine, Machine.id == Part.machine_id)
        .order_by(Feature.id)
    )  # fmt: skip
    return [dict(row) for row in connection.execute(query).mappings()]


def _stations(connection: Connection) -> list[Mapping[str, Any]]:
    query = (
        select(Station.__table__, Feature.name.label("feature_name"), Part.code.label("part_code"))
        .join(Feature, Feature.id == Station.feature_id)
        .join(Part, Part.id == Feature.part_id)
        .order_by(Station.feature_id, Station.position, Station.id)
    )
    return [dict(row) for row in connection.execute(query).mappings()]


def _readings(connection: Connection) -> list[Mapping[str, Any]]:
    query = (
        select(
            Reading.__table__, Feature.name.label("feature_name"), Part.code.label("part_code"),
            Part.name.label("part_name"), Station.name.label("station_name"), Instrument.name.label("instrument_name"),
        )
        .join(Feature, Feature.id == Reading.feature_id)
        .join(Part, Part.id == Feature.part_id)
        .outerjoin(Station, Station.id == Reading.station_id)
        .outerjoin(Instrument, Instrument.id == Reading.instrument_id)
        .order_by(Reading.id)
    )  # fmt: skip
    return [dict(row) for row in connection.execute(query).mappings()]
