"""Which rows of the measurement grid are wanted and in which order, as one query."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import Any

from sqlalchemy import Connection, Select, and_, case, func, literal, or_, select, union_all

from rebuild.model.named import Feature, Part, Reading, Station
from rebuild.trade.limits.verdict import Verdict
from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.work.machines.rows_tree import order_of_subassemblies, subassemblies

Key = tuple[int, int]
"""(feature id, station id); station 0 is the feature as a whole."""


class SortBy(Enum):
    """What the grid is put in order by."""

    TREE = "order of the tree"
    CODE = "part code"
    FEATURE = "feature"
    KIND = "kind"
    NEWEST = "newest reading"
    WORST = "worst first"


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
        select(Feature.id.label("feature_id"), func.coalesce(Station.id, 0).label("station_id"))
        .select_from(Feature)
        .join(Part, Part.id == Feature.part_id)
        .outerjoin(Station, Station.feature_id == Feature.id)
        .where(Part.machine_id == asked.machine_id)
    )
    # By the feature's own readings: asking for readings without a station first would read the whole file.
    read_as_a_whole = select(Reading.id).where(
        Reading.feature_id == Feature.id, Reading.station_id.is_(None), Reading.struck.is_(None)
    )
    at_large = (
        select(Feature.id.label("feature_id"), literal(0).label("station_id"))
        .select_from(Feature)
        .join(Part, Part.id == Feature.part_id)
        .where(Part.machine_id == asked.machine_id)
        .where(select(Station.id).where(Station.feature_id == Feature.id).exists())
        .where(read_as_a_whole.exists())
    )
    pairs = union_all(stationed, at_large).subquery()
    query = (
        select(pairs.c.feature_id, pairs.c.station_id)
        .select_from(pairs)
        .join(Feature, Feature.id == pairs.c.feature_id)
        .join(Part, Part.id == Feature.part_id)
        .outerjoin(Station, Station.id == pairs.c.station_id)
    )
    return _sorted(connection, _filtered(query, asked, pairs), asked, pairs)


def _filtered(query: Select[Any], asked: Asked, pairs: Any) -> Select[Any]:
    if asked.subassembly_ids is not None:
        query = query.where(Part.subassembly_id.in_(asked.subassembly_ids))
    if asked.part_ids is not None:
        query = query.where(Part.id.in_(asked.part_ids))
    if asked.decisions is not None:
        query = query.where(Part.decision.in_(asked.decisions))
    for word in asked.text.split():
        like = f"%{word}%"
        query = query.where(
            or_(
                Part.code.like(like), Part.name.like(like), Feature.name.like(like), Station.name.like(like),
                Feature.kind.like(like), Part.other_names.like(like),
            )
        )  # fmt: skip
    if asked.stage is not None or asked.unread:
        here = and_(
            Reading.feature_id == pairs.c.feature_id,
            func.coalesce(Reading.station_id, 0) == pairs.c.station_id,
            Reading.struck.is_(None),
        )
        there = select(Reading.id).where(here)
        if asked.stage is not None:
            there = there.where(Reading.stage == asked.stage)
        query = query.where(~there.exists() if asked.unread else there.exists())
    return query


def _sorted(connection: Connection, query: Select[Any], asked: Asked, pairs: Any) -> Select[Any]:
    order: list[Any] = []
    if asked.sort is SortBy.CODE:
        order = [Part.code]
    elif asked.sort is SortBy.FEATURE:
        order = [Feature.name]
    elif asked.sort is SortBy.KIND:
        order = [Feature.kind]
    elif asked.sort is SortBy.NEWEST:
        order = [
            select(func.max(Reading.id))
            .where(
                Reading.feature_id == pairs.c.feature_id,
                func.coalesce(Reading.station_id, 0) == pairs.c.station_id,
            )
            .scalar_subquery()
        ]
    if asked.descending:
        order = [column.desc() for column in order]
    return query.order_by(
        *order, _tree_place(connection, asked.machine_id), Part.position, Part.id, Feature.position, Feature.id,
        Station.position, pairs.c.station_id,
    )  # fmt: skip


def _tree_place(connection: Connection, machine_id: int) -> Any:
    places = {
        key: place for place, key in enumerate(order_of_subassemblies(subassemblies(connection, machine_id)))
    }
    if not places:
        return literal(0)
    return case(places, value=Part.subassembly_id, else_=len(places))
