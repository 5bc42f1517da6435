"""Hold a value that its instrument can hardly have read: the wrong use, or outside its range."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.errors import Implausible
from rebuild.model.tables.readings import Instruments
from rebuild.trade.limits.reach import Reach, cannot, reach_of
from rebuild.words.readings import FeatureKind


@dataclass(frozen=True, slots=True)
class Asked:
    """What a question about a value names: where, the text, and the unit ranges are told in."""

    where: str
    typed: str
    unit: str


def reach_by_id(connection: Connection, instrument_id: int) -> Reach | None:
    """How far one instrument reaches and what it measures, or None when it is gone."""
    row = connection.execute(
        select(
            Instruments.name,
            Instruments.kind,
            Instruments.unit,
            Instruments.least_mm,
            Instruments.most_mm,
            Instruments.measures,
        ).where(Instruments.id == instrument_id)
    ).first()
    if row is None:
        return None
    return reach_of(
        row.name,
        row.kind,
        row.unit,
        least_mm=row.least_mm,
        most_mm=row.most_mm,
        measures=row.measures or "",
    )


def refuse_unfit(
    connection: Connection, instrument_id: int | None, kind: FeatureKind, value_mm: float, asked: Asked
) -> None:
    """Raise Implausible when the instrument named cannot measure such a feature, or not this size."""
    reach = reach_by_id(connection, instrument_id) if instrument_id is not None else None
    why = cannot(reach, kind, value_mm, asked.unit) if reach is not None else ""
    if why:
        raise Implausible(
            why,
            where=asked.where,
            value=asked.typed,
            way_out="Choose the instrument it was read with, or press Enter again to store it as it is.",
        )
