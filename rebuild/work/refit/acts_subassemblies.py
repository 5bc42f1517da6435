"""A subassembly is put together before it is put on: links between the drafts of one machine's subassemblies."""

from __future__ import annotations

import re

from sqlalchemy import select

from rebuild.model.records.machines import Subassembly
from rebuild.model.records.parts import Part
from rebuild.model.records.refit import DraftedLink, RefitStep
from rebuild.model.records.steps import Link, Task
from rebuild.model.records.teardown import Attempt, Removal, RemovalPart
from rebuild.store.tx import Tx
from rebuild.trade.schedule.network import loop_closed_by
from rebuild.words.steps import TaskState
from rebuild.work.refit.acts_carry import links_of

#: The reason such a link carries until the user gives it one of his own.
PUT_TOGETHER = "put together before it is put on"
_OPEN = (TaskState.OPEN, TaskState.UNDER_WAY)


def link_subassemblies(tx: Tx, machine_id: int) -> int:
    """Let each step that puts a subassembly on wait for the last steps that put it together; how many were added.

    It puts one on when its removal names that subassembly, or took off a part of it while another one was being
    taken down. A link the user took away stays away.
    """
    groups = list(tx.session.scalars(select(Subassembly).where(Subassembly.machine_id == machine_id)))
    newest = _newest(tx, machine_id)
    known = {(row.before_id, row.after_id) for row in tx.session.scalars(select(DraftedLink))}
    links = links_of(tx, machine_id)
    made = 0
    for step, own in _open_steps(tx, newest):
        for group_id in _puts_on(tx, step, own, groups):
            for last in _last_of(tx, newest.get(group_id), links):
                pair = (last.task_id or 0, step.task_id or 0)
                if (last.id, step.id) in known or pair in links or loop_closed_by(*pair, links) is not None:
                    continue
                link = Link(before_id=pair[0], after_id=pair[1], reason=PUT_TOGETHER)
                tx.session.add(link)
                tx.session.flush()
                tx.session.add(DraftedLink(before_id=last.id, after_id=step.id, link_id=link.id))
                links.append(pair)
                made += 1
    tx.session.flush()
    return made


def _newest(tx: Tx, machine_id: int) -> dict[int | None, Attempt]:
    """The newest attempt on each subassembly."""
    rows = tx.session.scalars(
        select(Attempt).where(Attempt.machine_id == machine_id).order_by(Attempt.number, Attempt.id)
    )
    return {row.subassembly_id: row for row in rows}


def _open_steps(tx: Tx, newest: dict[int | None, Attempt]) -> list[tuple[RefitStep, int | None]]:
    """The open drafted steps of the newest attempts, each with the subassembly it was drafted for."""
    of = {attempt.id: group for group, attempt in newest.items()}
    rows = tx.session.scalars(
        select(RefitStep)
        .join(Task, Task.id == RefitStep.task_id)
        .where(RefitStep.attempt_id.in_(of), Task.state.in_(_OPEN))
        .order_by(RefitStep.id)
    )
    return [(step, of[step.attempt_id]) for step in rows]


def _puts_on(tx: Tx, step: RefitStep, own: int | None, groups: list[Subassembly]) -> list[int]:
    removal = tx.session.get(Removal, step.removal_id) if step.removal_id is not None else None
    if removal is None:
        return []
    parts = select(Part.subassembly_id).join(RemovalPart, RemovalPart.part_id == Part.id)
    found = set(tx.session.scalars(parts.where(RemovalPart.removal_id == removal.id)))
    found |= {group.id for group in groups if _names(removal.what, group)}
    return sorted(key for key in found if key is not None and key != own)


def _names(what: str, group: Subassembly) -> bool:
    """Whether a removal without parts names a subassembly, whole words, by its name or code."""
    said = set(re.findall(r"[\w-]+", what.casefold()))
    name = set(re.findall(r"[\w-]+", group.name.casefold()))
    return (bool(name) and name <= said) or (bool(group.code) and group.code.casefold() in said)


def _last_of(tx: Tx, attempt: Attempt | None, links: list[tuple[int, int]]) -> list[RefitStep]:
    """The open steps of an attempt's draft that no other of its own steps follows."""
    if attempt is None:
        return []
    steps = [step for step, _ in _open_steps(tx, {attempt.subassembly_id: attempt})]
    own = {step.task_id for step in steps}
    followed = {before for before, after in links if after in own}
    return [step for step in steps if step.task_id not in followed]
