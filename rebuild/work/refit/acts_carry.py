"""Links a refit draft takes from elsewhere: the user's own of the attempt before, and the making of its parts."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from sqlalchemy import or_, select

from rebuild.model.records.refit import DraftedLink, RefitStep
from rebuild.model.records.steps import Link, Task
from rebuild.model.records.teardown import Attempt, RemovalPart
from rebuild.store.tx import Tx
from rebuild.trade.schedule.network import loop_closed_by
from rebuild.words.steps import LinkKind, TaskKind, TaskState

_MAKING = (TaskKind.MAKE, TaskKind.REWORK, TaskKind.BUY, TaskKind.SEND_OUT)
_OPEN = (TaskState.OPEN, TaskState.UNDER_WAY)
NOT_MADE = "the part is not made yet"
#: The reason a drafted link carries until the user gives it one of his own.
CAME_AFTER = "came off after it (removal log)"


def links_of_last_attempt(tx: Tx, attempt: Attempt, fresh: Collection[int | None]) -> int:
    """Carry over the links the user made among the last attempt's refit steps; returns how many."""
    last = tx.session.scalars(
        select(Attempt)
        .where(
            Attempt.machine_id == attempt.machine_id,
            Attempt.subassembly_id.is_(attempt.subassembly_id),
            Attempt.number < attempt.number,
        )
        .order_by(Attempt.number.desc())
    ).first()
    if last is None or not fresh:
        return 0
    before, now = _steps_by_part(tx, last.id), _steps_by_part(tx, attempt.id)
    part_of = {task: part for part, task in before.items()}
    drafted = select(DraftedLink.link_id).where(DraftedLink.link_id.is_not(None))
    made = 0
    for link in tx.session.scalars(
        select(Link)
        .where(Link.before_id.in_(part_of), or_(Link.id.not_in(drafted), Link.reason != CAME_AFTER))
        .order_by(Link.id)
    ).all():
        first = now.get(part_of[link.before_id])
        then = now.get(part_of.get(link.after_id, 0))
        if first in fresh or then in fresh:
            made += _link_once(tx, first, then, link.kind, link.reason or f"kept from attempt {last.number}")
    return made


def _steps_by_part(tx: Tx, attempt_id: int) -> dict[int, int]:
    rows = tx.session.execute(
        select(RemovalPart.part_id, RefitStep.task_id)
        .join(RefitStep, RefitStep.removal_id == RemovalPart.removal_id)
        .where(RefitStep.attempt_id == attempt_id, RefitStep.task_id.is_not(None))
    )
    return {row.part_id: row.task_id for row in rows}


def link_makings(tx: Tx, steps: Sequence[tuple[int, tuple[int, ...]]]) -> int:
    """Let each refit step wait for the open steps that make, rework, buy or send out its parts."""
    made = 0
    for task_id, part_ids in steps:
        making = tx.session.scalars(
            select(Task.id).where(Task.part_id.in_(part_ids), Task.kind.in_(_MAKING), Task.state.in_(_OPEN))
        ).all()
        for key in making:
            made += _link_once(tx, key, task_id, LinkKind.BEFORE, NOT_MADE)
    return made


def _link_once(tx: Tx, first: int | None, then: int | None, kind: LinkKind, reason: str) -> int:
    """Add a link unless it is there or would close a loop; 1 when it was added."""
    if first is None or then is None or first == then:
        return 0
    machine = tx.session.scalar(select(Task.machine_id).where(Task.id == first))
    links = links_of(tx, machine or 0)
    if (first, then) in links or loop_closed_by(first, then, links) is not None:
        return 0
    tx.session.add(Link(before_id=first, after_id=then, kind=kind, reason=reason))
    tx.session.flush()
    return 1


def links_of(tx: Tx, machine_id: int) -> list[tuple[int, int]]:
    """Every link of a machine as (before, after)."""
    rows = tx.session.execute(
        select(Link.before_id, Link.after_id)
        .join(Task, Task.id == Link.after_id)
        .where(Task.machine_id == machine_id)
    )
    return [(row.before_id, row.after_id) for row in rows]
