"""Opening a step again: one act with a reason. What was noted at the tick is kept as an earlier attempt."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.joints import Joint
from rebuild.model.records.parts import Part
from rebuild.model.records.refit import RefitStep
from rebuild.model.records.steps import StepAttempt, Task
from rebuild.model.records.teardown import RemovalPart
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.store.tx import Tx
from rebuild.words.joints import Tightness
from rebuild.words.steps import TaskKind, TaskState
from rebuild.work.gates import acts as gates
from rebuild.work.gates.rules import need_reason
from rebuild.work.joints.acts import JointState, set_in
from rebuild.work.joints.acts_off import all_apart
from rebuild.work.joints.rows import row_of
from rebuild.work.joints.rows_put_on import parts_put_on
from rebuild.work.records.columns import title
from rebuild.work.records.wall_clock import now
from rebuild.work.steps import rules_order as order
from rebuild.work.steps.acts_on_machine import leaves_the_machine
from rebuild.work.waiting.acts_clocks import drop_rest


def open_again(
    store: Store, task_id: int, reason: str, *, all_the_same: bool = False, at: dt.datetime | None = None
) -> None:
    """Open a step again, with why. What was measured, torqued and noted stays readable as an attempt.

    A refit step opened again comes apart: its joints are apart from then on.

    Raises:
        BadEntry: no reason, or the step is not done.
        Refused: a step that comes after it is done; ``all_the_same`` opens it regardless.
    """
    said = need_reason(reason, "Why again")
    with store.act(Act.UNTICK, "") as tx:
        task = tx.get(Task, task_id, "step")
        if not all_the_same:
            order.refuse_reopening(tx, task)
        put_aside(tx, task, said, at or now())
        tx.subject = f"“{task.title}”: {said}"


def take_apart_again(store: Store, part_id: int, reason: str, *, at: dt.datetime | None = None) -> int:
    """A part comes off again: every done step that put it on is opened, in one act; returns how many.

    Raises:
        BadEntry: no reason, or no step put it on.
    """
    said = need_reason(reason, "Why again")
    with store.act(Act.TAKE_APART, "") as tx:
        part = tx.get(Part, part_id, "part")
        steps = _that_put_on(tx, part_id)
        if not steps:
            raise BadEntry(
                "was not put on by a step that is done.",
                where="Part",
                value=title(part),
                way_out="If it only now comes off, log it in the removal log.",
            )
        for task in steps:
            put_aside(tx, task, said, at or now())
        all_apart(tx, [part_id], at or now())
        tx.subject = f"{title(part)}: {said}"
        return len(steps)


def put_aside(
    tx: Tx, task: Task, reason: str, at: dt.datetime, *, apart: Collection[int] | None = None
) -> None:
    """Keep what was noted at a step's tick as its attempt, and open the step. Raises BadEntry when it is not done.

    Its joints come apart; with ``apart`` those alone.
    """
    if task.state not in (TaskState.DONE, TaskState.LEFT_OUT):
        raise BadEntry(
            "is open already.", where="Step", value=task.title, way_out="Choose one that is done or left out."
        )
    if task.state is TaskState.DONE:
        _keep_attempt(tx, task, reason, at, apart)
        leaves_the_machine(tx, task, at)
    task.state, task.done_at = TaskState.OPEN, None
    task.done_measured = task.done_torque = task.done_note = ""
    drop_rest(tx, task, at)
    gates.close_of(tx, f"the step was opened again: {reason}", at, task_id=task.id)


def _keep_attempt(tx: Tx, task: Task, reason: str, at: dt.datetime, apart: Collection[int] | None) -> None:
    joints = _joints_of(tx, task) or [tx.get(Joint, key, "joint") for key in sorted(apart or ())]
    number = tx.session.scalar(select(func.max(StepAttempt.number)).where(StepAttempt.task_id == task.id))
    tx.session.add(
        StepAttempt(
            task_id=task.id,
            number=(number or 0) + 1,
            done_at=task.done_at,
            measured=task.done_measured,
            torque=task.done_torque,
            note=task.done_note,
            joints="; ".join(f"{row.name}: {row_of(row).state}" for row in joints),
            opened_at=at,
            reason=reason,
        )
    )
    for joint in joints:
        if apart is None or joint.id in apart:
            set_in(tx, joint, JointState(Tightness.APART), at)


def _joints_of(tx: Tx, task: Task) -> list[Joint]:
    """The joints a refit step brought together."""
    if task.kind is not TaskKind.REFIT:
        return []
    return list(
        tx.session.scalars(
            select(Joint)
            .where(
                Joint.machine_id == task.machine_id,
                (Joint.task_id == task.id) | Joint.part_id.in_(parts_put_on(tx, task)),
            )
            .order_by(Joint.id)
        )
    )


def _that_put_on(tx: Tx, part_id: int) -> list[Task]:
    """The done steps that put a part on: refit steps of it, and whatever step a joint of the part was made by."""
    by_joint = select(Joint.task_id).where(Joint.part_id == part_id, Joint.task_id.is_not(None))
    drafted = (
        select(RefitStep.task_id)
        .join(RemovalPart, RemovalPart.removal_id == RefitStep.removal_id)
        .where(RemovalPart.part_id == part_id)
    )
    return list(
        tx.session.scalars(
            select(Task)
            .where(
                Task.state == TaskState.DONE,
                ((Task.kind == TaskKind.REFIT) & ((Task.part_id == part_id) | Task.id.in_(drafted)))
                | ((Task.kind != TaskKind.REMOVE) & Task.id.in_(by_joint)),
            )
            .order_by(Task.position.desc(), Task.id.desc())
        )
    )
