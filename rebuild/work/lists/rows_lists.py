"""Machines, parts, features, stations and readings as lists that can be imported again, names beside numbers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from sqlalchemy import Connection, select

from rebuild.model.tables.features import Features, Stations
from rebuild.model.tables.machines import Machines, Subassemblies
from rebuild.model.tables.parts import MatchedSets, Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.readings import Instruments, Readings
from rebuild.work.lists.fields import FEATURES, MACHINES, PARTS, READINGS, STATIONS, Column, What
from rebuild.work.lists.rows_everything import Head, Listing, Value, plain

#: The tables the lookups here ask.
READS = frozenset({
    "feature", "instrument", "machine", "matched_set", "part", "place", "reading", "station", "subassembly",
})  # fmt: skip


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
    query = select(*Machines.columns()).order_by(Machines.position, Machines.id)
    return [dict(row) for row in connection.execute(query).mappings()]


def _parts(connection: Connection) -> list[Mapping[str, Any]]:
    query = (
        select(
            *Parts.columns(),
            Machines.name.label("machine"),
            Subassemblies.code.label("group_code"),
            Subassemblies.name.label("group_name"),
            Places.kind.label("place_kind"),
            Places.name.label("place_name"),
            MatchedSets.name.label("set_name"),
        )
        .join(Machines, Machines.id == Parts.machine_id)
        .outerjoin(Subassemblies, Subassemblies.id == Parts.subassembly_id)
        .outerjoin(Places, Places.id == Parts.place_id)
        .outerjoin(MatchedSets, MatchedSets.id == Parts.matched_set_id)
        .order_by(Machines.position, Machines.id, Parts.id)
    )
    return [dict(row) for row in connection.execute(query).mappings()]


def _features(connection: Connection) -> list[Mapping[str, Any]]:
    query = (
        select(
            *Features.columns(),
            Parts.code.label("part_code"),
            Parts.name.label("part_name"),
            Parts.machine_id,
            Machines.name.label("machine"),
        )
        .join(Parts, Parts.id == Features.part_id)
        .join(Machines, Machines.id == Parts.machine_id)
        .order_by(Features.id)
    )
    return [dict(row) for row in connection.execute(query).mappings()]


def _stations(connection: Connection) -> list[Mapping[str, Any]]:
    query = (
        select(*Stations.columns(), Features.name.label("feature_name"), Parts.code.label("part_code"))
        .join(Features, Features.id == Stations.feature_id)
        .join(Parts, Parts.id == Features.part_id)
        .order_by(Stations.feature_id, Stations.position, Stations.id)
    )
    return [dict(row) for row in connection.execute(query).mappings()]


def _readings(connection: Connection) -> list[Mapping[str, Any]]:
    query = (
        select(
            *Readings.columns(),
            Features.name.label("feature_name"),
            Parts.code.label("part_code"),
            Parts.name.label("part_name"),
            Stations.name.label("station_name"),
            Instruments.name.label("instrument_name"),
        )
        .join(Features, Features.id == Readings.feature_id)
        .join(Parts, Parts.id == Features.part_id)
        .outerjoin(Stations, Stations.id == Readings.station_id)
        .outerjoin(Instruments, Instruments.id == Readings.instrument_id)
        .order_by(Readings.id)
    )
    return [dict(row) for row in connection.execute(query).mappings()]
