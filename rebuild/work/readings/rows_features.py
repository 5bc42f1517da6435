"""The features of a machine to choose from, named with their part."""

from __future__ import annotations

from sqlalchemy import Connection, select

from rebuild.model.all import Feature, Part
from rebuild.work.records.rows import Choice


def feature_choices(connection: Connection, machine_id: int) -> list[Choice]:
    """Every feature as ``AP-11 shaft, journal A``, in the order of the part codes."""
    rows = connection.execute(
        select(Feature.id, Feature.name, Part.code, Part.name.label("part"))
        .join(Part, Part.id == Feature.part_id)
        .where(Part.machine_id == machine_id)
        .order_by(Part.code, Part.id, Feature.position, Feature.id)
    )
    return [Choice(row.id, f"{row.code} {row.part}, {row.name}".strip()) for row in rows]
