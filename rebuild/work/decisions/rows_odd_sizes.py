"""Sizes that are not standard, and who must know of them: mates, spares, the machine's book."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from sqlalchemy import Connection, Select, or_, select

from rebuild.model.all import Feature, Fit, OddSize, Part
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import show_typed


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
    return _odd_rows(connection, select(Part.id).where(Part.machine_id == machine_id), {})


def odd_sizes_for(connection: Connection, part_id: int) -> list[OddRow]:
    """The odd sizes a part must know: its own, its mates', and those of the part it is a spare of."""
    through = {part_id: "its own"}
    own = select(Feature.id).where(Feature.part_id == part_id)
    ends = connection.execute(
        select(Fit.outer_id, Fit.inner_id).where(or_(Fit.outer_id.in_(own), Fit.inner_id.in_(own)))
    ).all()
    features = {key for row in ends for key in row}
    mates = connection.execute(select(Feature.part_id).where(Feature.id.in_(features))).scalars()
    for mate in mates:
        through.setdefault(mate, "of its mate")
    spare_of = connection.execute(select(Part.spare_of_id).where(Part.id == part_id)).scalar()
    if spare_of is not None:
        through.setdefault(spare_of, "of the part it is a spare of")
    return _odd_rows(connection, list(through), through)


def _odd_rows(
    connection: Connection, parts: Collection[int] | Select[int], through: dict[int, str]
) -> list[OddRow]:
    rows = connection.execute(
        select(
            OddSize.id, OddSize.part_id, Part.code, Part.name, Feature.name.label("feature"), OddSize.what,
            OddSize.size_text, OddSize.size_unit, OddSize.size_mm, OddSize.instead_of, OddSize.reason, OddSize.since,
        )
        .join(Part, Part.id == OddSize.part_id)
        .outerjoin(Feature, Feature.id == OddSize.feature_id)
        .where(OddSize.part_id.in_(parts))
        .order_by(Part.code, OddSize.id)
    )  # fmt: skip
    return [
        OddRow(
            row.id, row.part_id, f"{row.code} {row.name}".strip(), row.feature or "", row.what,
            "" if row.size_mm is None else show_typed(Size(row.size_text, row.size_unit, row.size_mm), row.size_unit),
            row.instead_of, row.reason, row.since.strftime("%Y-%m-%d") if row.since else "",
            through.get(row.part_id, "its own"),
        )
        for row in rows
    ]  # fmt: skip
