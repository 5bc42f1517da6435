"""Machines, parts, features, stations and readings as lists that can be imported again, names beside numbers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from operator import itemgetter
from typing import Any

from sqlalchemy import Connection, Select, select

from rebuild.model.tables.features import Features, Stations
from rebuild.model.tables.machines import Machines, Subassemblies
from rebuild.model.tables.parts import MatchedSets, Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.readings import Instruments, Readings
from rebuild.work.lists.fields import FEATURES, MACHINES, PARTS, READINGS, STATIONS, Column, What
from rebuild.work.lists.plain_rows import plain_rows
from rebuild.work.lists.rows_everything import Head, Listing

#: The tables the lookups here ask.
READS = frozenset({
    "feature", "instrument", "machine", "matched_set", "part", "place", "reading", "station", "subassembly",
})  # fmt: skip


def lists(connection: Connection) -> Iterator[Listing]:
    """The five lists of a whole file, in the order they are imported; their rows are read as the caller walks."""
    yield _list(connection, What.MACHINES, MACHINES, _machines())
    yield _list(connection, What.PARTS, PARTS, _parts())
    yield _list(connection, What.FEATURES, FEATURES, _features())
    yield _list(connection, What.STATIONS, STATIONS, _stations())
    yield _list(connection, What.READINGS, READINGS, _readings())


def _list(connection: Connection, what: What, columns: Sequence[Column], query: Select[Any]) -> Listing:
    """The columns of a list picked from those a question has; one it lacks is empty."""
    heads = tuple(Head(column.head, column.name, column.holds) for column in columns)
    names = [one.key for one in query.selected_columns]
    names.append("")  # of a row with one cell more, which is empty
    picks = itemgetter(*(names.index(column.source if column.source in names else "") for column in columns))
    picked = (picks((*row, None)) for row in plain_rows(connection, query))
    return Listing(what.value, what.value, heads, picked)


def _machines() -> Select[Any]:
    return select(*Machines.columns()).order_by(Machines.position, Machines.id)


def _parts() -> Select[Any]:
    return (
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


def _features() -> Select[Any]:
    return (
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


def _stations() -> Select[Any]:
    return (
        select(*Stations.columns(), Features.name.label("feature_name"), Parts.code.label("part_code"))
        .join(Features, Features.id == Stations.feature_id)
        .join(Parts, Parts.id == Features.part_id)
        .order_by(Stations.feature_id, Stations.position, Stations.id)
    )


def _readings() -> Select[Any]:
    return (
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
