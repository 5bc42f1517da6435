"""Which parts a joint holds: its own, and those its fasteners came off with; one that is off leaves it apart."""

from __future__ import annotations

from collections.abc import Collection

from sqlalchemy import Connection, select

from rebuild.model.tables.joints import Joints
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.teardown import Fasteners, RemovalParts
from rebuild.work.places import rows_off
from rebuild.work.places.rows_off import off_parts

#: The tables the lookups here ask.
READS = rows_off.READS | {"fastener", "joint"}


def parts_held(connection: Connection, machine_id: int) -> dict[int, set[int]]:
    """The parts each joint of a machine holds, by joint; a joint nobody named a part of is left out."""
    found: dict[int, set[int]] = {}
    own = select(Joints.id, Joints.part_id).where(
        Joints.machine_id == machine_id, Joints.part_id.is_not(None)
    )
    with_it = (
        select(Fasteners.joint_id, RemovalParts.part_id)
        .join(RemovalParts, RemovalParts.removal_id == Fasteners.removal_id)
        .join(Joints, Joints.id == Fasteners.joint_id)
        .where(Joints.machine_id == machine_id)
    )
    for query in (own, with_it):
        for joint_id, part_id in connection.execute(query).all():
            found.setdefault(joint_id, set()).add(part_id)
    return found


def one_of_two_off(connection: Connection, machine_id: int, held: dict[int, set[int]]) -> dict[int, str]:
    """Of joints that hold several parts: which of them are off, in words, by joint."""
    several = {key: parts for key, parts in held.items() if len(parts) > 1}
    if not several:
        return {}
    off = off_parts(connection, machine_id)
    names = _names(connection, off & set().union(*several.values()))
    return {
        key: _off_words([names[part] for part in sorted(parts & off)])
        for key, parts in several.items()
        if parts & off
    }


def _off_words(names: list[str]) -> str:
    return f"{' and '.join(names)} {'is' if len(names) == 1 else 'are'} off"


def _names(connection: Connection, part_ids: Collection[int]) -> dict[int, str]:
    rows = connection.execute(select(Parts.id, Parts.code, Parts.name).where(Parts.id.in_(part_ids)))
    return {row.id: f"{row.code} {row.name}".strip() for row in rows}
