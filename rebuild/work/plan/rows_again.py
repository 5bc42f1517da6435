"""Sections of the facts brought up to date after a few changes: only the rows the journal names are read again.

Each gives just what reading the whole section anew would, or None where that cannot be told from the changes.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from typing import NamedTuple, Protocol, TypeVar

from sqlalchemy import Connection, or_, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.fits import Fits
from rebuild.model.tables.readings import Readings

#: The tables the lookups here ask.
READS = frozenset({"change", "feature", "fit", "reading"})
#: More rows changed than this are read with all the others.
MOST = 60


class Changed(NamedTuple):
    """One row the journal names: its table, its id, and i(nsert), u(pdate) or d(elete)."""

    table: str
    id: int
    op: str


class HasId(Protocol):
    """A fact with the id of its row."""

    @property
    def id(self) -> int:
        """Of the row it tells of."""


F = TypeVar("F", bound=HasId)


def changed_since(connection: Connection, seen: int, tables: Collection[str]) -> list[Changed] | None:
    """The rows of some tables changed after a point of the journal; None when they are more than ``MOST``."""
    marks = ", ".join("?" * len(tables))
    rows = connection.exec_driver_sql(
        f"SELECT DISTINCT tbl, row_id, op FROM change WHERE id > ? AND tbl IN ({marks}) LIMIT {MOST + 1}",
        (seen, *sorted(tables)),
    ).all()
    return None if len(rows) > MOST else [Changed(*row) for row in rows]


def swapped(
    held: Sequence[F], changed: Collection[int], read: Callable[[list[int]], Sequence[F]]
) -> tuple[F, ...]:
    """The facts in the order they have, those changed read again: for rows of which none came, went or moved."""
    fresh = {fact.id: fact for fact in read(sorted(changed))}
    return tuple([fresh.get(fact.id, fact) for fact in held]) if fresh else tuple(held)


def mended(
    held: Sequence[F],
    order: Iterable[int],
    changed: Collection[int],
    read: Callable[[list[int]], Sequence[F]],
) -> tuple[F, ...] | None:
    """The facts in the order of the ids there are now, those changed or not held read again; None if too many."""
    gone = set(changed)
    known = {fact.id: fact for fact in held if fact.id not in gone}
    order = list(order)
    wanted = [key for key in order if key not in known]
    if len(wanted) > MOST:
        return None
    if wanted:
        known |= {fact.id: fact for fact in read(wanted)}
    return tuple([known[key] for key in order if key in known])


def touched_fits(connection: Connection, changed: Sequence[Changed]) -> set[int] | None:
    """The fits that rest on the changed rows; None where a row is gone, or is one all fits may rest on."""
    by: dict[str, list[int]] = {}
    for one in changed:
        if (one.op == "d" and one.table != "fit") or one.table in ("instrument", "station"):
            return None
        by.setdefault(one.table, []).append(one.id)
    features = list(by.get("feature", ()))
    if readings := by.get("reading"):
        query = select(Readings.feature_id).where(Readings.id.in_(readings))
        features += connection.execute(query).scalars()
    found = set(by.get("fit", ()))
    if parts := by.get("part"):
        features += connection.execute(select(Features.id).where(Features.part_id.in_(parts))).scalars()
    if features:
        sides = (Fits.outer_id, Fits.inner_id, Fits.gap_id, Fits.later_id)
        query = select(Fits.id).where(or_(*(side.in_(features) for side in sides)))
        found.update(connection.execute(query).scalars())
    return found
