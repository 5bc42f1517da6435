"""What follows from a step being done, however it came to be: joints come together or apart, parts stand on it."""

from __future__ import annotations

import datetime as dt
import re

from sqlalchemy import select

from rebuild.errors import BadEntry
from rebuild.model.records.steps import Task
from rebuild.store.tx import Tx
from rebuild.trade.joints.usual_torque import TorqueRange, agrees
from rebuild.trade.sizes.amounts import parse_torque, parse_torque_band
from rebuild.words.gates import Gate
from rebuild.words.steps import TaskKind, TaskState
from rebuild.work.gates import acts as gates
from rebuild.work.joints.acts import JointState, put_together
from rebuild.work.joints.acts_off import all_apart
from rebuild.work.records.ways_out import Refused, Way, WayKind
from rebuild.work.steps.acts_on_machine import stands_on_the_machine

_TORQUE = re.compile(
    r"(?:\d[\d.,]*\s*(?:-|to)\s*)?\d[\d.,]*\s*(?:N[·.]?\s?m|lbf?[- ]?(?:ft|in)|ft[- ]?lbf?)\b", re.IGNORECASE
)


def finish(tx: Tx, task: Task, joint: JointState, at: dt.datetime) -> bool:
    """Bring the joints of a done step to what was said and its parts on; True when a torque was left with a reason.

    Raises:
        Refused: the torque is not the one wanted, or words of a joint have no joint to land on.
        BadEntry, Ambiguous: a torque cannot be read.
    """
    outside = _torque_of_step(tx, task, joint, at)
    together = put_together(tx, task, joint, at)
    if not together.joints and (joint.tight is not None or joint.dress is not None):
        words = ", ".join(filter(None, (joint.tight, joint.dress)))
        raise Refused(
            f"Joint left: “{words}” has no joint to land on; “{task.title}” puts no joint together.",
            way_out="Make its joint, or say it in the note.",
            ways=(Way(WayKind.NEW_JOINT, "Make a joint of this step", task.id),),
        )
    stands_on_the_machine(tx, task, at)
    if task.kind is TaskKind.REMOVE and task.part_id is not None and not _put_on_since(tx, task, at):
        all_apart(tx, [task.part_id], at)
    return outside or together.outside


def _put_on_since(tx: Tx, task: Task, at: dt.datetime) -> bool:
    """Whether a step has put the part of a removing step on since: one ticked late takes nothing off."""
    back = select(Task.id).where(
        Task.part_id == task.part_id,
        Task.kind == TaskKind.REFIT,
        Task.state == TaskState.DONE,
        Task.done_at >= at,
    )
    return tx.session.scalars(back.limit(1)).first() is not None


def follow_done(tx: Tx, task: Task, was: object) -> None:
    """A step made done as a field does what a tick does to its joints and parts; ``was`` is the state before."""
    if task.state is TaskState.DONE and was is not TaskState.DONE and task.done_at is not None:
        finish(tx, task, JointState(torque=task.done_torque or ""), task.done_at)


def _torque_of_step(tx: Tx, task: Task, joint: JointState, at: dt.datetime) -> bool:
    """Hold a torque against what the step itself wants; True when it was left outside, with the reason."""
    wanted = wanted_in(task.torque_wanted)
    if not joint.torque or wanted is None or agrees(parse_torque(joint.torque).newton_metres, wanted):
        return False
    against = f"Torqued to: “{joint.torque}” is not the {wanted.words} that “{task.title}” wants."
    if not joint.reason.strip():
        raise Refused(
            against,
            way_out="Read the wrench again and type what it says, or leave it so with a reason.",
            ways=(Way(WayKind.ALL_THE_SAME, "Leave it so all the same", task.id),),
        )
    gone = gates.GoneOn(
        task.machine_id,
        Gate.TORQUE,
        f"“{task.title}” torqued to {joint.torque}",
        against,
        task_id=task.id,
    )
    gates.note(tx, gone, joint.reason, joint.by, at)
    return True


def wanted_in(text: str) -> TorqueRange | None:
    """The torque in words such as ``jam nuts 40 lb-ft`` or ``40-45 lb-ft``; None when there is none to be read.

    >>> band = wanted_in("jam nuts 40-45 lb-ft")
    >>> band.words, round(band.low_Nm, 1), round(band.high_Nm, 1)
    ('40-45 lb-ft', 54.2, 61.0)
    """
    found = _TORQUE.search(text or "")
    if found is None:
        return None
    try:
        low, high = parse_torque_band(found[0])
    except BadEntry:
        return None
    return TorqueRange(low.newton_metres, high.newton_metres, found[0])
