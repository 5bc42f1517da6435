"""What lies beside a part in its bag since it came off: its screws and shims."""

from __future__ import annotations

from collections.abc import Collection

from sqlalchemy import Connection, Select, func, select

from rebuild.model.tables.parts import Parts
from rebuild.model.tables.teardown import Fasteners, RemovalParts, Removals, ShimLeaves, ShimPacks

#: The tables the lookups here ask.
READS = frozenset({"fastener", "part", "removal", "removal_part", "shim_leaf", "shim_pack"})


def _last() -> Select[int]:
    """The last removal of each part."""
    return select(func.max(RemovalParts.removal_id)).group_by(RemovalParts.part_id)


def with_parts(connection: Connection, part_ids: Collection[int]) -> dict[int, tuple[str, ...]]:
    """Screws and shims of each part that were put where it still lies."""
    rows = connection.execute(
        select(RemovalParts.part_id, Removals.id)
        .join(Removals, Removals.id == RemovalParts.removal_id)
        .join(Parts, Parts.id == RemovalParts.part_id)
        .where(
            RemovalParts.part_id.in_(list(part_ids)),
            Removals.id.in_(_last()),
            Removals.place_id == Parts.place_id,
        )
    ).all()
    held = _held(connection, {row.id for row in rows})
    return {row.part_id: held[row.id] for row in rows if row.id in held}


def with_places(connection: Connection, place_ids: Collection[int]) -> dict[int, tuple[str, ...]]:
    """Screws and shims in each place: with parts that still lie there, and of what came off without being a part."""
    rows = connection.execute(
        select(Removals.place_id, Removals.id)
        .outerjoin(RemovalParts, RemovalParts.removal_id == Removals.id)
        .outerjoin(Parts, Parts.id == RemovalParts.part_id)
        .where(
            Removals.place_id.in_(list(place_ids)),
            RemovalParts.id.is_(None) | (Removals.id.in_(_last()) & (Parts.place_id == Removals.place_id)),
        )
        .order_by(Removals.at, Removals.id)
        .distinct()
    ).all()
    held = _held(connection, {row.id for row in rows})
    found: dict[int, tuple[str, ...]] = {}
    for row in rows:
        if row.place_id is not None and row.id in held:
            found[row.place_id] = (*found.get(row.place_id, ()), *held[row.id])
    return found


def _held(connection: Connection, removal_ids: Collection[int]) -> dict[int, tuple[str, ...]]:
    """``3 × M6 × 16``, then ``shims 0.5 mm``, of each removal."""
    found: dict[int, tuple[str, ...]] = {}
    for row in connection.execute(
        select(
            Fasteners.removal_id,
            Fasteners.count.label("many"),
            Fasteners.thread,
            Fasteners.length_text,
            Fasteners.length_unit,
            Fasteners.kind,
        )
        .where(Fasteners.removal_id.in_(list(removal_ids)))
        .order_by(Fasteners.removal_id, Fasteners.position, Fasteners.id)
    ):
        long = f"{row.length_text}{' in' if row.length_unit == 'in' else ''}" if row.length_text else ""
        size = " × ".join(filter(None, (row.thread, long)))
        words = f"{row.many} × {size or row.kind.value}"
        found[row.removal_id] = (*found.get(row.removal_id, ()), words)
    for leaf in connection.execute(
        select(ShimPacks.removal_id, ShimLeaves.thickness_text, ShimLeaves.thickness_unit)
        .join(ShimLeaves, ShimLeaves.pack_id == ShimPacks.id)
        .where(ShimPacks.removal_id.in_(list(removal_ids)))
        .order_by(ShimPacks.removal_id, ShimLeaves.position, ShimLeaves.id)
    ):
        text, unit = leaf.thickness_text, leaf.thickness_unit
        words = f"shim {text}" if text.endswith(unit) else f"shim {text} {unit}"
        found[leaf.removal_id] = (*found.get(leaf.removal_id, ()), words)
    return found
