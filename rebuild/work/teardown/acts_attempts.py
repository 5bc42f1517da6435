"""Attempts: a subassembly taken down again keeps what came before, with what stopped it and what was changed."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import select

from rebuild.model.records.machines import Machine, Subassembly
from rebuild.model.records.refit import RefitStep
from rebuild.model.records.steps import Task
from rebuild.model.records.teardown import Attempt, Removal, RemovalPart
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.words.steps import TaskState
from rebuild.work.gates.rules import need_reason
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.records.wall_clock import now


def begin_attempt(
    store: Store,
    machine_id: int,
    subassembly_id: int | None,
    *,
    stopped_by: str = "",
    changed: str = "",
    at: dt.datetime | None = None,
) -> int:
    """Begin the next attempt on a subassembly; the last one keeps its log and its refit. Returns its id.

    ``stopped_by`` and ``changed`` are noted on the attempt that ends here.

    Raises:
        BadEntry: an attempt ends here, and nothing says what stopped it.
    """
    with store.act(Act.BEGIN_ATTEMPT, "") as tx:
        tx.get(Machine, machine_id, "machine")
        refuse_other_machine(tx, machine_id, subassembly=subassembly_id)
        last = current(tx, machine_id, subassembly_id)
        if last is not None:
            stop(last, stopped_by)
            last.changed = changed.strip() or last.changed
        row = next_attempt(tx, machine_id, subassembly_id, at or now())
        tx.subject = f"no. {row.number} on {of_what(tx, row)}"
        return row.id


def stop(attempt: Attempt, why: str) -> None:
    """Note on an attempt why it did not stand. Raises BadEntry without a reason, now or earlier."""
    attempt.stopped_by = why.strip() or attempt.stopped_by
    need_reason(attempt.stopped_by, f"What stopped attempt {attempt.number}")


def current(tx: Tx, machine_id: int, subassembly_id: int | None) -> Attempt | None:
    """The newest attempt on a subassembly."""
    return tx.session.scalars(
        select(Attempt)
        .where(Attempt.machine_id == machine_id, Attempt.subassembly_id.is_(subassembly_id))
        .order_by(Attempt.number.desc(), Attempt.id.desc())
    ).first()


def next_attempt(tx: Tx, machine_id: int, subassembly_id: int | None, at: dt.datetime) -> Attempt:
    """A new attempt, one up from the newest."""
    last = current(tx, machine_id, subassembly_id)
    row = Attempt(
        machine_id=machine_id,
        subassembly_id=subassembly_id,
        began_at=at,
        number=last.number + 1 if last else 1,
    )
    tx.session.add(row)
    tx.session.flush()
    return row


def of_what(tx: Tx, attempt: Attempt) -> str:
    """What an attempt is on, in words."""
    if attempt.subassembly_id is None:
        return tx.get(Machine, attempt.machine_id, "machine").name
    row = tx.get(Subassembly, attempt.subassembly_id, "subassembly")
    return f"{row.code} {row.name}".strip()


def off_now(tx: Tx, part_id: int) -> tuple[Removal, Attempt, Task | None] | None:
    """The newest removal of a part, unless a later attempt has begun since; with its refit step once it is done.

    None when it was never taken off, or the attempt it belongs to has been followed by another.
    """
    row = tx.session.execute(
        select(Removal, Attempt)
        .join(RemovalPart, RemovalPart.removal_id == Removal.id)
        .join(Attempt, Attempt.id == Removal.attempt_id)
        .where(RemovalPart.part_id == part_id)
        .order_by(Removal.id.desc())
        .limit(1)
    ).first()
    if row is None:
        return None
    removal, attempt = row
    newest = current(tx, attempt.machine_id, attempt.subassembly_id)
    if newest is not None and newest.id != attempt.id:
        return None
    refit = tx.session.scalars(
        select(Task)
        .join(RefitStep, RefitStep.task_id == Task.id)
        .where(RefitStep.removal_id == removal.id, Task.state == TaskState.DONE)
    ).first()
    return removal, attempt, refit
