"""The parts that are off the machine now, and those a refit step has put on: only a refit done brings a part back."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

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

    The newest removal of a part speaks: its own refit step is done, or a refit step of the part was done since. A
    step to take it off that was ticked after that, and logged nowhere, is a removal too.
    A place said to be the machine brings nothing back: a bag is emptied long before its part is on.
    """
    typed, removed = _ticked(connection, machine_id)
    newest = _newest(connection, machine_id)
    off = {
        part_id
        for part_id, (at, on) in newest.items()
        if on is None and not any(done >= at for done in typed.get(part_id, ()))
    }
    for part_id, taken in removed.items():
        last = max(taken)
        at, on = newest.get(part_id, (None, None))
        fitted = [*typed.get(part_id, ()), *((on,) if on is not None else ())]
        if (at is None or last > at) and not any(done >= last for done in fitted):
            off.add(part_id)
    back = {part_id for part_id in newest if part_id not in off}
    return OnAndOff(frozenset(off), frozenset(back | {key for key in typed if key not in off}))


def _ticked(
    connection: Connection, machine_id: int
) -> tuple[dict[int, list[dt.datetime]], dict[int, list[dt.datetime]]]:
    """When steps that put a part on, and those that take one off, were done, by the part they name."""
    found: dict[TaskKind, dict[int, list[dt.datetime]]] = {TaskKind.REFIT: {}, TaskKind.REMOVE: {}}
    for row in connection.execute(
        select(Tasks.part_id, Tasks.kind, Tasks.done_at).where(
            Tasks.machine_id == machine_id,
            Tasks.part_id.is_not(None),
            Tasks.kind.in_(found),
            Tasks.state == TaskState.DONE,
            Tasks.done_at.is_not(None),
        )
    ):
        if row.part_id is not None and row.done_at is not None:
            found[row.kind].setdefault(row.part_id, []).append(row.done_at)
    return found[TaskKind.REFIT], found[TaskKind.REMOVE]


def _newest(connection: Connection, machine_id: int) -> dict[int, tuple[dt.datetime, dt.datetime | None]]:
    """When each part came off last, and when the refit step drafted from that was done; None: it is open."""
    done = (
        select(func.max(func.coalesce(Tasks.done_at, Removals.at)))
        .join(RefitSteps, RefitSteps.task_id == Tasks.id)
        .where(RefitSteps.removal_id == Removals.id, Tasks.state == TaskState.DONE)
        .correlate(Removals.clause())
        .scalar_subquery()
    )
    rows = connection.execute(
        select(RemovalParts.part_id, Removals.at, done.label("on"))
        .join(Removals, Removals.id == RemovalParts.removal_id)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .where(Attempts.machine_id == machine_id)
        .order_by(Removals.at, Removals.id)
    )
    return {row.part_id: (row.at, row.on) for row in rows}
