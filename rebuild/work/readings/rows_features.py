"""The features of a machine to choose from, named with their part."""

from __future__ import annotations

from sqlalchemy import Connection, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.parts import Parts
from rebuild.work.records.rows import Choice

#: The tables the lookups here ask.
READS = frozenset({"feature", "part"})


def feature_choices(connection: Connection, machine_id: int) -> list[Choice]:
    """Every feature as ``AP-11 shaft, journal A``, in the order of the part codes."""
    rows = connection.execute(
        select(Features.id, Features.name, Parts.code, Parts.name.label("part"))
        .join(Parts, Parts.id == Features.part_id)
        .where(Parts.machine_id == machine_id)
        .order_by(Parts.code, Parts.id, Features.position, Features.id)
    )
    return [Choice(row.id, f"{row.code} {row.part}, {row.name}".strip()) for row in rows]
