"""Sizes that are not standard, and who must know of them: mates, spares, the machine's book."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from sqlalchemy import Connection, Select, or_, select

from rebuild.model.tables.decisions import OddSizes
from rebuild.model.tables.features import Features
from rebuild.model.tables.fits import Fits
from rebuild.model.tables.parts import Parts
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import show_typed
from rebuild.work.records.field import show_day

#: The tables the lookups here ask.
READS = frozenset({"feature", "fit", "odd_size", "part"})


@dataclass(frozen=True, slots=True)
class OddRow:
    """A size that is not standard, and how the part asked about comes to know of it."""

    id: int
    part_id: int
    part: str
    feature: str
    what: str
    size: str
    instead_of: str
    reason: str
    since: str
    through: str


def odd_sizes(connection: Connection, machine_id: int) -> list[OddRow]:
    """Every odd size of a machine: for its book."""
    return _odd_rows(connection, select(Parts.id).where(Parts.machine_id == machine_id), {})


def odd_sizes_for(connection: Connection, part_id: int) -> list[OddRow]:
    """The odd sizes a part must know: its own, its mates', and those of the part it is a spare of."""
    through = {part_id: "its own"}
    own = select(Features.id).where(Features.part_id == part_id)
    ends = connection.execute(
        select(Fits.outer_id, Fits.inner_id).where(or_(Fits.outer_id.in_(own), Fits.inner_id.in_(own)))
    ).all()
    features = {key for row in ends for key in row}
    mates = connection.execute(select(Features.part_id).where(Features.id.in_(features))).scalars()
    for mate in mates:
        through.setdefault(mate, "of its mate")
    spare_of = connection.execute(select(Parts.spare_of_id).where(Parts.id == part_id)).scalar()
    if spare_of is not None:
        through.setdefault(spare_of, "of the part it is a spare of")
    return _odd_rows(connection, list(through), through)


def _odd_rows(
    connection: Connection, parts: Collection[int] | Select[int], through: dict[int, str]
) -> list[OddRow]:
    rows = connection.execute(
        select(
            OddSizes.id,
            OddSizes.part_id,
            Parts.code,
            Parts.name,
            Features.name.label("feature"),
            OddSizes.what,
            OddSizes.size_text,
            OddSizes.size_unit,
            OddSizes.size_mm,
            OddSizes.instead_of,
            OddSizes.reason,
            OddSizes.since,
        )
        .join(Parts, Parts.id == OddSizes.part_id)
        .outerjoin(Features, Features.id == OddSizes.feature_id)
        .where(OddSizes.part_id.in_(parts))
        .order_by(Parts.code, OddSizes.id)
    )
    return [
        OddRow(
            row.id,
            row.part_id,
            f"{row.code} {row.name}".strip(),
            row.feature or "",
            row.what,
            ""
            if None in (row.size_text, row.size_unit, row.size_mm)  # a bad cell of the three may be left out
            else show_typed(Size(row.size_text, row.size_unit, row.size_mm), row.size_unit),
            row.instead_of,
            row.reason,
            show_day(row.since) if row.since else "",
            through.get(row.part_id, "its own"),
        )
        for row in rows
    ]
