"""A joint of a part that is off is not together: the part is put on first, or it is said why it counts as on."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import select

from rebuild.model.records.gates import Override
from rebuild.model.records.joints import Joint
from rebuild.store.tx import Tx
from rebuild.words.gates import Gate
from rebuild.words.joints import Tightness
from rebuild.work.joints.rows_parts_held import parts_held
from rebuild.work.places.rows_off import off_parts, refit_of, where_off
from rebuild.work.records.ways_out import Refused, RowLead, Way, WayKind

#: What only a joint whose parts are there can be.
TOGETHER = (Tightness.SNUG, Tightness.TORQUED, Tightness.LOCKED, Tightness.PINNED)


def off_part(tx: Tx, row: Joint) -> int | None:
    """The part of a joint that is off; None when all it holds are on."""
    held = parts_held(tx.connection, row.machine_id).get(row.id, set())
    held |= {row.part_id} if row.part_id is not None else set()
    off = held & off_parts(tx.connection, row.machine_id) if held else set()
    return row.part_id if row.part_id in off else min(off, default=None)


def off_words(tx: Tx, row: Joint) -> str:
    """What stands against a joint being together, in words; empty when its parts are on, or it has none."""
    part_id = off_part(tx, row)
    if part_id is None:
        return ""
    said = select(Override.id).where(
        Override.joint_id == row.id, Override.gate == Gate.ORDER, Override.closed_at.is_(None)
    )
    if tx.session.scalars(said).first() is not None:  # it was said that the part counts as on
        return ""
    return where_off(tx.connection, part_id)


def refuse_off(tx: Tx, rows: Sequence[Joint], tight: Tightness | None) -> None:
    """Raise Refused for the first joint that is to be together while its part is off."""
    if tight not in TOGETHER:
        return
    tx.session.flush()
    for row in rows:
        off = off_words(tx, row)
        if off:
            raise _refused(tx, row, off, tight)


def _refused(tx: Tx, row: Joint, off: str, tight: Tightness) -> Refused:
    part_id = off_part(tx, row)
    assert part_id is not None
    step = refit_of(tx.connection, part_id)
    ways = [Way(WayKind.GO_TO, f"Go to “{step[1]}”", step[0])] if step is not None else []
    ways.append(Way(WayKind.ALL_THE_SAME, "It is on: say so all the same, and why", row.id))
    first = (
        f"Tick “{step[1]}” when it is on"
        if step is not None
        else "Draft the refit steps and tick the one that puts it on"
    )
    return Refused(
        f"{off}: {row.name} cannot be {tight.said} without it.",
        way_out=f"{first}; or say why it counts as on.",
        ways=ways,
        rows=(RowLead(off, "part", part_id),),
    )
