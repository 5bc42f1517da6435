"""Steps that are done although a joint they brought together is not tight yet: as it is said beside "done"."""

from __future__ import annotations

from sqlalchemy import Connection, select

from rebuild.model.tables.joints import Joints
from rebuild.model.tables.refit import RefitSteps
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.teardown import RemovalParts
from rebuild.words.joints import Tightness
from rebuild.words.steps import TaskKind, TaskState

#: The tables the lookups here ask.
READS = frozenset({"joint", "refit_step", "removal_part", "task"})
#: The least tight first.
_LOOSE = (Tightness.APART, Tightness.LOOSE, Tightness.FINGER)


def left_loose(connection: Connection, machine_id: int) -> dict[int, str]:
    """By step that is done: how the least tight of its joints is, as ``finger tight``."""
    loose = connection.execute(
        select(Joints.task_id, Joints.part_id, Joints.tight).where(
            Joints.machine_id == machine_id, Joints.tight.in_(_LOOSE)
        )
    ).all()
    if not loose:
        return {}
    done, put_on = _done(connection, machine_id)
    found: dict[int, Tightness] = {}
    for row in loose:
        for key in {row.task_id, *put_on.get(row.part_id, ())} & done:
            found[key] = min(found.get(key, row.tight), row.tight, key=_LOOSE.index)
    return {key: tight.said for key, tight in found.items()}


def _done(connection: Connection, machine_id: int) -> tuple[set[int | None], dict[int | None, list[int]]]:
    """The steps that are done, and which of them put each part on."""
    steps = connection.execute(
        select(Tasks.id, Tasks.part_id, Tasks.kind).where(
            Tasks.machine_id == machine_id, Tasks.state == TaskState.DONE
        )
    ).all()
    put_on: dict[int | None, list[int]] = {}
    for row in steps:
        if row.kind is TaskKind.REFIT and row.part_id is not None:
            put_on.setdefault(row.part_id, []).append(row.id)
    drafted = connection.execute(
        select(RemovalParts.part_id, RefitSteps.task_id)
        .select_from(RefitSteps)
        .join(RemovalParts, RemovalParts.removal_id == RefitSteps.removal_id)
        .join(Tasks, Tasks.id == RefitSteps.task_id)
        .where(Tasks.machine_id == machine_id, Tasks.state == TaskState.DONE)
    )
    for one in drafted:
        put_on.setdefault(one.part_id, []).append(one.task_id)
    return {row.id for row in steps}, put_on
