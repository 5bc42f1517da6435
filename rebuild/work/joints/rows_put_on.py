"""Which parts a refit step puts on."""

from __future__ import annotations

from sqlalchemy import Connection, or_, select

from rebuild.model.tables.joints import Joints
from rebuild.model.tables.refit import RefitSteps
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.teardown import RemovalParts
from rebuild.store.tx import Tx
from rebuild.trade.joints.duty import duty_in
from rebuild.words.joints import JointDuty
from rebuild.words.steps import TaskKind

#: The tables the lookups here ask.
READS = frozenset({"joint", "refit_step", "removal_part", "task"})


def pins_alone(connection: Connection, task_id: int) -> bool:
    """Whether all that a step brings together is pinned or keyed: it is driven home, never snug or torqued."""
    drafted = (
        select(RemovalParts.part_id)
        .join(RefitSteps, RefitSteps.removal_id == RemovalParts.removal_id)
        .where(RefitSteps.task_id == task_id)
    )
    own = select(Tasks.part_id).where(Tasks.id == task_id, Tasks.kind == TaskKind.REFIT)
    rows = connection.execute(
        select(Joints.name, Joints.duty).where(
            or_(Joints.task_id == task_id, Joints.part_id.in_(drafted), Joints.part_id.in_(own))
        )
    ).all()
    return bool(rows) and all((row.duty or duty_in(row.name)) is JointDuty.PIN for row in rows)


def parts_put_on(tx: Tx, task: Tasks) -> set[int]:
    """The parts a refit step puts on: its own, and all that came off in the removal it was drafted from."""
    if task.kind is not TaskKind.REFIT:
        return set()
    drafted = tx.session.scalars(
        select(RemovalParts.part_id)
        .join(RefitSteps, RefitSteps.removal_id == RemovalParts.removal_id)
        .where(RefitSteps.task_id == task.id)
    )
    return set(drafted) | ({task.part_id} if task.part_id is not None else set())
