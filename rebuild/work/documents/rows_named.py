"""What a call-out may name: every part of a machine, each spec of it, and its oil points."""

from __future__ import annotations

from sqlalchemy import Connection, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.lubrication import OilPoints
from rebuild.model.tables.parts import Parts
from rebuild.work.documents.names import Names
from rebuild.work.documents.rows import CallOutRow
from rebuild.work.records.rows import Choice

#: The tables the lookups here ask.
READS = frozenset({"feature", "oil_point", "part"})
#: The number of a choice is the row's own times this, plus which kind it is.
_SPREAD, _PART, _FEATURE, _OIL = 3, 0, 1, 2


def choices_named(connection: Connection, machine_id: int) -> list[Choice]:
    """Parts by code, each followed by its features, then the oil points."""
    features: dict[int, list[Choice]] = {}
    parts = connection.execute(
        select(Parts.id, Parts.code, Parts.name)
        .where(Parts.machine_id == machine_id)
        .order_by(Parts.code, Parts.name, Parts.id)
    ).all()
    listed = connection.execute(
        select(Features.id, Features.part_id, Features.name, Parts.code, Parts.name.label("part"))
        .join(Parts, Parts.id == Features.part_id)
        .where(Parts.machine_id == machine_id)
        .order_by(Features.position, Features.id)
    )
    for row in listed:
        label = f"{row.code} {row.part}".strip() + f": {row.name}"
        features.setdefault(row.part_id, []).append(Choice(row.id * _SPREAD + _FEATURE, label))
    found: list[Choice] = []
    for part in parts:
        label = f"{part.code} {part.name}".strip()
        found.append(Choice(part.id * _SPREAD + _PART, label, (part.code, part.name)))
        found += features.get(part.id, [])
    points = connection.execute(
        select(OilPoints.id, OilPoints.number, OilPoints.feeds)
        .where(OilPoints.machine_id == machine_id)
        .order_by(OilPoints.position, OilPoints.id)
    )
    found += [
        Choice(row.id * _SPREAD + _OIL, f"oil point {row.number} {row.feeds}".strip()) for row in points
    ]
    return found


def named_by(key: int) -> Names:
    """What a choice of that number names."""
    row, kind = divmod(key, _SPREAD)
    return Names(
        row if kind == _PART else None, row if kind == _FEATURE else None, row if kind == _OIL else None
    )


def choice_of(mark: CallOutRow) -> int | None:
    """The number of the choice a call-out stands on; None when it names nothing."""
    if mark.oil_point_id is not None:
        return mark.oil_point_id * _SPREAD + _OIL
    if mark.feature_id is not None:
        return mark.feature_id * _SPREAD + _FEATURE
    return mark.part_id * _SPREAD + _PART if mark.part_id is not None else None
