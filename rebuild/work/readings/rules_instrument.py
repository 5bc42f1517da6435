"""Hold a value that its instrument can hardly have read: the wrong use, or outside its range."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.errors import Implausible
from rebuild.model.tables.readings import Instruments
from rebuild.trade.limits.reach import Reach, cannot, finer_than
from rebuild.trade.sizes.quantity import Size
from rebuild.words.readings import FeatureKind
from rebuild.work.readings.reaches import SCALE, reach_in


@dataclass(frozen=True, slots=True)
class Asked:
    """What a question about a value names: where, the text, and the unit ranges are told in."""

    where: str
    typed: str
    unit: str


def reach_by_id(connection: Connection, instrument_id: int) -> Reach | None:
    """How far one instrument reaches and what it measures, or None when it is gone."""
    row = connection.execute(
        select(Instruments.name, Instruments.resolution_mm, *SCALE).where(Instruments.id == instrument_id)
    ).first()
    return reach_in(row) if row is not None else None


def refuse_unfit(
    connection: Connection,
    instrument_id: int | None,
    kind: FeatureKind,
    sizes: Sequence[Size],
    asked: Asked,
) -> None:
    """Raise Implausible when the instrument named cannot measure such a feature, or not this size, or not as fine."""
    reach = reach_by_id(connection, instrument_id) if instrument_id is not None else None
    if reach is None:
        return
    value = sum(size.mm for size in sizes) / len(sizes)
    why = cannot(reach, kind, value, asked.unit) or finer_than(reach, sizes)
    if why:
        raise Implausible(
            why,
            where=asked.where,
            value=asked.typed,
            way_out="Choose the instrument it was read with, or press Enter again to store it as it is.",
        )
