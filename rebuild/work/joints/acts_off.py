"""A part comes off: every joint of it is apart, and what its log says of a fastener is told of the joint it held."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Collection

from sqlalchemy import or_, select

from rebuild.model.records.joints import Joint
from rebuild.model.records.parts import Part
from rebuild.model.records.teardown import Fastener
from rebuild.model.tables.teardown import Fasteners, RemovalParts
from rebuild.store.tx import Tx
from rebuild.trade.joints.duty import duty_of_kind
from rebuild.trade.joints.tour import wanted_for
from rebuild.words.joints import Tightness
from rebuild.words.teardown import FastenerKind
from rebuild.work.gates import acts as gates
from rebuild.work.joints.acts import JointState, set_in

#: What is screwed, and so may be what an owner's joint without a thread is held by; a pin or key is another joint.
_SCREWED = (
    FastenerKind.SCREW,
    FastenerKind.BOLT,
    FastenerKind.STUD,
    FastenerKind.NUT,
    FastenerKind.SET_SCREW,
)
_SERIES = re.compile(r"(unc|unf|unef|bsw|bsf)$")


def all_apart(tx: Tx, part_ids: Collection[int], at: dt.datetime) -> None:
    """Every joint of these parts is apart from ``at`` on: a part that is off is held by none of them.

    A joint whose fasteners held two parts is apart when either comes off.
    """
    with_it = (
        select(Fasteners.joint_id)
        .join(RemovalParts, RemovalParts.removal_id == Fasteners.removal_id)
        .where(RemovalParts.part_id.in_(sorted(part_ids)), Fasteners.joint_id.is_not(None))
    )
    held = {row.joint_id for row in tx.connection.execute(with_it)}
    of_them = or_(Joint.part_id.in_(sorted(part_ids)), Joint.id.in_(held))
    rows = tx.session.scalars(select(Joint).where(of_them).order_by(Joint.id)).all()
    for joint in rows:
        _apart(tx, joint, at)


def joint_apart(
    tx: Tx,
    fastener: Fastener,
    of: tuple[str, int | None],
    place: tuple[int, int | None, str],
    at: dt.datetime,
) -> Joint:
    """The joint a fastener held, now apart: one its part has already, else a new one.

    ``of`` names the part it held, ``place`` is (machine, subassembly, location). A new one stands where its part does.
    """
    called, part_id = of
    joint = _held(tx, fastener, part_id) or _new(tx, fastener, called, part_id, place)
    _apart(tx, joint, at)
    return joint


def _apart(tx: Tx, joint: Joint, at: dt.datetime) -> None:
    set_in(tx, joint, JointState(Tightness.APART), at)
    tx.session.flush()
    gates.close_of(tx, "its part came off again", at, joint_id=joint.id)


def _held(tx: Tx, fastener: Fastener, part_id: int | None) -> Joint | None:
    """The joint of its part with its thread; for a screw one whose thread nobody has said, which is now known."""
    if part_id is None:
        return None
    rows = tx.session.scalars(select(Joint).where(Joint.part_id == part_id).order_by(Joint.id)).all()
    hole = (fastener.hole or "").casefold()
    listed = sorted(rows, key=lambda joint: (hole not in joint.name.casefold(), joint.id))
    alike = [joint for joint in listed if _thread(joint.thread) == _thread(fastener.thread)]
    if alike and (fastener.thread or fastener.kind not in _SCREWED):
        return alike[0]
    if fastener.kind not in _SCREWED:
        return None
    if not fastener.thread:
        return listed[0] if listed else None
    untold = [joint for joint in listed if not joint.thread and not _pinned(tx, joint)]
    for joint in untold:
        joint.thread, joint.grade = fastener.thread, joint.grade or fastener.grade
        joint.count = joint.count if len(untold) > 1 else max(joint.count or 1, fastener.count or 1)
    return untold[0] if untold else None


def _thread(words: str | None) -> str:
    return _SERIES.sub("", re.sub(r"\s+", "", words or "").casefold())


def _pinned(tx: Tx, joint: Joint) -> bool:
    """Whether the log says that a pin, key or ring is what held it."""
    kinds = tx.session.scalars(select(Fastener.kind).where(Fastener.joint_id == joint.id)).all()
    return joint.wanted is Tightness.PINNED or any(kind not in _SCREWED for kind in kinds)


def _new(
    tx: Tx, fastener: Fastener, called: str, part_id: int | None, place: tuple[int, int | None, str]
) -> Joint:
    machine_id, subassembly_id, location = place
    if part_id is not None:
        subassembly_id = tx.get(Part, part_id, "part").subassembly_id
    kind = fastener.kind.value
    joint = Joint(
        machine_id=machine_id,
        subassembly_id=subassembly_id,
        part_id=part_id,
        location=location,
        name=", ".join(filter(None, (called, fastener.hole, f"{fastener.thread} {kind}".strip()))),
        thread=fastener.thread,
        count=fastener.count,
        grade=fastener.grade,
        wanted=Tightness(wanted_for(kind, torque_known=bool(fastener.grade))),
        duty=duty_of_kind(kind),
        tight=Tightness.APART,
    )
    tx.session.add(joint)
    tx.session.flush()
    return joint
