"""Joints taken apart again: with why, and the steps that brought them together are open again, in one act."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from rebuild.model.records.joints import Joint
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.words.joints import Tightness
from rebuild.work.gates.rules import need_reason
from rebuild.work.joints.acts import JointState, set_in
from rebuild.work.joints.rules_apart import refuse_while_running, steps_that_made
from rebuild.work.records.columns import title
from rebuild.work.records.wall_clock import now
from rebuild.work.steps.acts_again import put_aside


def take_joints_apart(
    store: Store, joint_ids: Sequence[int], reason: str, *, at: dt.datetime | None = None
) -> int:
    """Take joints apart; returns how many steps are open again. Other joints of those steps stay as they are.

    Raises:
        BadEntry: no reason.
        Refused: a speed of the run-in is running.
    """
    said = need_reason(reason, "Why again")
    with store.act(Act.TAKE_APART, "") as tx:
        joints = [tx.get(Joint, key, "joint") for key in dict.fromkeys(joint_ids)]
        refuse_while_running(tx, [joint.machine_id for joint in joints])
        steps = {step.id: step for joint in joints for step in steps_that_made(tx, joint)}
        for step in steps.values():
            put_aside(tx, step, said, at or now(), apart={joint.id for joint in joints})
        for joint in joints:
            set_in(tx, joint, JointState(Tightness.APART), at or now())
        more = f" and {len(joints) - 1} more" if len(joints) > 1 else ""
        tx.subject = f"{title(joints[0])}{more}: {said}" if joints else said
        return len(steps)
