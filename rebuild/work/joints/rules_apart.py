"""A joint that a done step brought together comes apart only by taking apart again, with why; never while it runs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sqlalchemy import select

from rebuild.model.records.joints import Joint
from rebuild.model.records.refit import RefitStep
from rebuild.model.records.run_in import RunStep
from rebuild.model.records.steps import Task
from rebuild.model.records.teardown import RemovalPart
from rebuild.store.tx import Tx
from rebuild.words.run_in import RunState, run_state
from rebuild.words.steps import TaskKind, TaskState
from rebuild.work.records.ways_out import Refused, Way, WayKind


def steps_that_made(tx: Tx, joint: Joint) -> list[Task]:
    """The done steps a joint is together by: its own, and those that put its part on; last first."""
    drafted = (
        select(RefitStep.task_id)
        .join(RemovalPart, RemovalPart.removal_id == RefitStep.removal_id)
        .where(RemovalPart.part_id == joint.part_id)
    )
    put_on = (Task.kind == TaskKind.REFIT) & (Task.id.in_(drafted) | (Task.part_id == joint.part_id))
    own = (Task.id == joint.task_id) & (Task.kind != TaskKind.REMOVE)
    asked = own | put_on if joint.part_id is not None else own
    return list(
        tx.session.scalars(
            select(Task)
            .where(Task.machine_id == joint.machine_id, Task.state == TaskState.DONE, asked)
            .order_by(Task.position.desc(), Task.id.desc())
        )
    )


def refuse_apart(tx: Tx, joints: Iterable[Joint]) -> None:
    """Raise Refused for a joint that a done step brought together: the step would go on saying it is done."""
    for joint in joints:
        steps = steps_that_made(tx, joint)
        if steps:
            raise Refused(
                f"{joint.name} was brought together by “{steps[0].title}”, which is done: apart, it is open again.",
                way_out="Say why it comes apart: what was noted then stays readable as an earlier attempt.",
                ways=(Way(WayKind.ALL_THE_SAME, "Take it apart again, and say why", joint.id),),
            )


def refuse_while_running(tx: Tx, machine_ids: Sequence[int]) -> None:
    """Raise Refused when a speed of the run-in is running: nothing comes apart on a machine that may turn."""
    rows = tx.session.scalars(select(RunStep).where(RunStep.machine_id.in_(machine_ids)).order_by(RunStep.id))
    for row in rows:
        if run_state(row.state, begun=row.started_at is not None) is RunState.RUNNING:
            raise Refused(
                f"“{row.name}” of the run-in is running: nothing comes apart while the machine may turn.",
                way_out="Stop it, lock the supply out, and mark that speed as stopped on the Run-in page; then again.",
            )
