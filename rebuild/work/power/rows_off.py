"""The parts that are off the machine now, and those a refit step has put on: only a refit done brings a part back."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, exists, select

from rebuild.model.tables.refit import RefitSteps
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.teardown import Attempts, RemovalParts, Removals
from rebuild.words.steps import TaskKind, TaskState

#: The tables the lookups here ask.
READS = frozenset({"attempt", "refit_step", "removal", "removal_part", "task"})


@dataclass(frozen=True, slots=True)
class OnAndOff:
    """Of one machine, as part ids: ``off`` came off and is not back on; ``fitted`` was put on by a step done."""

    off: frozenset[int]
    fitted: frozenset[int]


def on_and_off(connection: Connection, machine_id: int) -> OnAndOff:
    """What the removal log and the refit say, whatever was decided or made meanwhile.

    The newest removal of a part speaks: its own refit step is done, or a refit step of the part was done since.
    A place said to be the machine brings nothing back: a bag is emptied long before its part is on.
    """
    typed: dict[int, list[dt.datetime | None]] = {}
    for row in connection.execute(
        select(Tasks.part_id, Tasks.done_at).where(
            Tasks.machine_id == machine_id,
            Tasks.part_id.is_not(None),
            Tasks.kind == TaskKind.REFIT,
            Tasks.state == TaskState.DONE,
        )
    ):
        typed.setdefault(row.part_id or 0, []).append(row.done_at)
    newest = _newest(connection, machine_id)
    off = {
        part_id
        for part_id, (at, on) in newest.items()
        if not on and not any(done is not None and done >= at for done in typed.get(part_id, ()))
    }
    back = {part_id for part_id in newest if part_id not in off}
    return OnAndOff(frozenset(off), frozenset(back | {key for key in typed if key not in off}))


def _newest(connection: Connection, machine_id: int) -> dict[int, tuple[dt.datetime, bool]]:
    """When each part came off last, and whether the refit step drafted from that is done."""
    done = exists().where(
        RefitSteps.removal_id == Removals.id, RefitSteps.task_id == Tasks.id, Tasks.state == TaskState.DONE
    )
    rows = connection.execute(
        select(RemovalParts.part_id, Removals.at, done.label("on"))
        .join(Removals, Removals.id == RemovalParts.removal_id)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .where(Attempts.machine_id == machine_id)
        .order_by(Removals.at, Removals.id)
    )
    return {row.part_id: (row.at, bool(row.on)) for row in rows}
