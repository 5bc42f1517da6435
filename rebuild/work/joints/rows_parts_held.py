"""Which parts a joint holds: its own, and those its fasteners came off with; one that is off leaves it apart."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from sqlalchemy import Connection, select

from rebuild.model.tables.joints import Joints
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.teardown import Fasteners, RemovalParts
from rebuild.words.joints import Tightness
from rebuild.work.joints import rows
from rebuild.work.joints.rows import JointRow, joints
from rebuild.work.places.rows_off import off_parts

#: The tables the lookups here ask.
READS = rows.READS | {"attempt", "part", "refit_step", "removal", "removal_part"}


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


def joints_said(connection: Connection, machine_id: int) -> list[JointRow]:
    """Every joint in walking order; one that holds several parts and is apart says which of them is off."""
    off = off_parts(connection, machine_id)
    held = parts_held(connection, machine_id)
    names = _names(connection, off)
    return [
        _said(row, [names[part] for part in sorted(held.get(row.id, set()) & off)], len(held.get(row.id, ())))
        for row in joints(connection, machine_id)
    ]


def _said(row: JointRow, off: list[str], parts: int) -> JointRow:
    if not off or parts < 2 or row.tight is not Tightness.APART:
        return row
    words = _off_words(off)
    return replace(row, off=words, lacks="; ".join(filter(None, (words, row.lacks))), final=False)


def _off_words(names: list[str]) -> str:
    return f"{' and '.join(names)} {'is' if len(names) == 1 else 'are'} off"


def _names(connection: Connection, part_ids: Collection[int]) -> dict[int, str]:
    found = connection.execute(select(Parts.id, Parts.code, Parts.name).where(Parts.id.in_(part_ids)))
    return {row.id: f"{row.code} {row.name}".strip() for row in found}
