"""Which rows of the measurement grid are wanted and in which order, as one query."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import Any

from sqlalchemy import ColumnElement, Connection, Select, and_, case, func, literal, or_, select, union_all

from rebuild.model.tables.features import Features, Stations
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Readings
from rebuild.trade.limits.verdict import Verdict
from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.work.machines.rows_tree import order_of_subassemblies, subassemblies

#: The tables the lookups here ask.
READS = frozenset({"feature", "part", "reading", "station", "subassembly", "task"})

Key = tuple[int, int]
"""(feature id, station id); station 0 is the feature as a whole."""


class SortBy(Enum):
    """What the grid is put in order by."""

    TREE = "order of the tree"
    CODE = "part code"
    FEATURE = "feature"
    KIND = "kind"
    NEWEST = "current reading"
    WORST = "worst first"
    MARGIN = "share of the tolerance"


@dataclass(frozen=True, slots=True)
class Asked:
    """Which rows of a machine are wanted, and in which order."""

    machine_id: int
    subassembly_ids: frozenset[int] | None = None
    part_ids: frozenset[int] | None = None
    text: str = ""
    verdicts: frozenset[Verdict] | None = None
    decisions: frozenset[Decision] | None = None
    stage: Stage | None = None
    unread: bool = False
    sort: SortBy = SortBy.TREE
    descending: bool = False


def keys_query(connection: Connection, asked: Asked) -> Select[Any]:
    """The (feature id, station id) of every row asked for, in order; verdicts are not looked at here."""
    stationed = (
        select(Features.id.label("feature_id"), func.coalesce(Stations.id, 0).label("station_id"))
        .select_from(Features)
        .join(Parts, Parts.id == Features.part_id)
        .outerjoin(Stations, Stations.feature_id == Features.id)
        .where(*_whose(asked))
    )
    # By the feature's own readings: asking for readings without a station first would read the whole file.
    read_as_a_whole = select(Readings.id).where(
        Readings.feature_id == Features.id, Readings.station_id.is_(None), Readings.struck.is_(None)
    )
    at_large = (
        select(Features.id.label("feature_id"), literal(0).label("station_id"))
        .select_from(Features)
        .join(Parts, Parts.id == Features.part_id)
        .where(*_whose(asked))
        .where(select(Stations.id).where(Stations.feature_id == Features.id).exists())
        .where(read_as_a_whole.exists())
    )
    pairs = union_all(stationed, at_large).subquery()
    query = (
        select(pairs.c.feature_id, pairs.c.station_id)
        .select_from(pairs)
        .join(Features, Features.id == pairs.c.feature_id)
        .join(Parts, Parts.id == Features.part_id)
        .outerjoin(Stations, Stations.id == pairs.c.station_id)
    )
    return _sorted(connection, _filtered(query, asked, pairs), asked, pairs)


def _whose(asked: Asked) -> list[ColumnElement[bool]]:
    """Whose features: asked of the parts themselves, so that one part's rows cost no look at its machine's."""
    whose = [Parts.machine_id == asked.machine_id]
    if asked.subassembly_ids is not None:
        whose.append(Parts.subassembly_id.in_(asked.subassembly_ids))
    if asked.part_ids is not None:
        whose.append(Parts.id.in_(asked.part_ids))
    return whose


def _filtered(query: Select[Any], asked: Asked, pairs: Any) -> Select[Any]:
    if asked.decisions is not None:
        query = query.where(Parts.decision.in_(asked.decisions))
    for word in asked.text.split():
        like = f"%{word}%"
        query = query.where(
            or_(
                Parts.code.like(like),
                Parts.name.like(like),
                Features.name.like(like),
                Stations.name.like(like),
                Features.kind.like(like),
                Parts.other_names.like(like),
            )
        )
    if asked.stage is not None or asked.unread:
        here = and_(
            Readings.feature_id == pairs.c.feature_id,
            func.coalesce(Readings.station_id, 0) == pairs.c.station_id,
            Readings.struck.is_(None),
        )
        there = select(Readings.id).where(here)
        if asked.stage is not None:
            there = there.where(Readings.stage == asked.stage)
        query = query.where(~there.exists() if asked.unread else there.exists())
    return query


def _sorted(connection: Connection, query: Select[Any], asked: Asked, pairs: Any) -> Select[Any]:
    order: list[Any] = []
    if asked.sort is SortBy.CODE:
        order = [Parts.code]
    elif asked.sort is SortBy.FEATURE:
        order = [Features.name]
    elif asked.sort is SortBy.KIND:
        order = [Features.kind]
    elif asked.sort is SortBy.NEWEST:
        order = [
            select(func.max(Readings.id))
            .where(
                Readings.feature_id == pairs.c.feature_id,
                func.coalesce(Readings.station_id, 0) == pairs.c.station_id,
            )
            .scalar_subquery()
        ]
    if asked.descending:
        order = [column.desc() for column in order]
    return query.order_by(
        *order,
        _tree_place(connection, asked.machine_id),
        Parts.position,
        Parts.id,
        Features.position,
        Features.id,
        Stations.position,
        pairs.c.station_id,
    )


def _tree_place(connection: Connection, machine_id: int) -> Any:
    places = {
        key: place for place, key in enumerate(order_of_subassemblies(subassemblies(connection, machine_id)))
    }
    if not places:
        return literal(0)
    return case(places, value=Parts.subassembly_id, else_=len(places))
