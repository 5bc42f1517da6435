"""Steps of work: add, put in order, link, tick off."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy import func, select

from rebuild.errors import BadEntry, BrokenOrder
from rebuild.model.all import Link, Machine, Task, TaskCaution, TaskConstraint
from rebuild.model.enums import ConstraintKind, LinkKind, TaskKind, TaskState
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.amounts import parse_torque
from rebuild.trade.cautions import caution
from rebuild.trade.network import loop_closed_by
from rebuild.trade.quantity import parse_length
from rebuild.work.edit import read_typed, set_columns, title
from rebuild.work.sound import make_sound, now, refuse_other_machine


def add_task(
    store: Store,
    machine_id: int,
    subassembly_id: int | None,
    text: str,
    kind: TaskKind = TaskKind.OTHER,
    *,
    part_id: int | None = None,
    after: Sequence[int] = (),
    typed: Mapping[str, str] | None = None,
) -> int:
    """A new step, last in its subassembly, after the given steps; returns its id.

    Raises:
        BadEntry: a field cannot be read, or the durations do not rise.
    """
    columns = read_typed("task", {"title": text, **(typed or {})})
    with store.act(Act.ADD_TASK, str(columns["title"])) as tx:
        tx.get(Machine, machine_id, "machine")
        refuse_other_machine(tx, machine_id, subassembly=subassembly_id, part=part_id)
        last = tx.session.scalar(
            select(func.max(Task.position)).where(
                Task.machine_id == machine_id, Task.subassembly_id.is_(subassembly_id)
            )
        )
        task = Task(
            machine_id=machine_id, subassembly_id=subassembly_id, part_id=part_id, kind=kind,
            position=0 if last is None else last + 1,
        )  # fmt: skip
        set_columns(task, columns)
        make_sound(tx, task, {}, typed or {})
        tx.session.add(task)
        tx.session.flush()
        for before in dict.fromkeys(after):
            refuse_other_machine(tx, machine_id, step=before)
            tx.session.add(Link(before_id=before, after_id=task.id))
        return task.id


def reorder(store: Store, task_ids: Sequence[int], at: int) -> None:
    """Move steps to index ``at`` of their subassembly's list, keeping their own order.

    The list's order is a wish; links are what binds, and they stay as they are.

    Raises:
        BadEntry: the steps are not all of one list.
    """
    if not task_ids:
        return
    with store.act(Act.REORDER, "") as tx:
        moving = [tx.get(Task, key, "step") for key in dict.fromkeys(task_ids)]
        first = moving[0]
        for task in moving:
            if (task.machine_id, task.subassembly_id) != (first.machine_id, first.subassembly_id):
                raise BadEntry("is of another list.", where="Step", value=task.title,
                               way_out="Move steps of one subassembly at a time.")  # fmt: skip
        rest = [
            task
            for task in tx.session.scalars(
                select(Task)
                .where(Task.machine_id == first.machine_id, Task.subassembly_id.is_(first.subassembly_id))
                .order_by(Task.position, Task.id)
            )
            if task.id not in set(task_ids)
        ]
        index = max(0, min(at, len(rest)))
        for position, task in enumerate(rest[:index] + moving + rest[index:]):
            if task.position != position:
                task.position = position
        tx.subject = f"of {title(first)}" + (f" and {len(moving) - 1} more" if len(moving) > 1 else "")


def add_link(
    store: Store, before_id: int, after_id: int, kind: LinkKind = LinkKind.BEFORE, reason: str = ""
) -> int:
    """Say that ``before`` must be done before ``after``; returns the link's id.

    Raises:
        BrokenOrder: it would close a loop; the loop is spelled out.
        BadEntry: the link is there already, or the steps are of two machines.
    """
    with store.act(Act.ADD_LINK, "") as tx:
        before, after = tx.get(Task, before_id, "step"), tx.get(Task, after_id, "step")
        refuse_other_machine(tx, before.machine_id, step=after_id)
        if tx.session.scalar(select(Link.id).where(Link.before_id == before_id, Link.after_id == after_id)):
            raise BadEntry("already comes first.", where="Link", value=before.title, way_out="Nothing to do.")
        _refuse_loop(tx, before_id, after_id)
        link = Link(before_id=before_id, after_id=after_id, kind=kind, reason=reason.strip())
        tx.session.add(link)
        tx.session.flush()
        tx.subject = f"“{before.title}” before “{after.title}”"
        return link.id


def _refuse_loop(tx: Tx, before_id: int, after_id: int) -> None:
    links = [
        (row.before_id, row.after_id) for row in tx.session.execute(select(Link.before_id, Link.after_id))
    ]
    loop = loop_closed_by(before_id, after_id, links)
    if loop is None:
        return
    names = {task.id: task.title for task in tx.session.scalars(select(Task).where(Task.id.in_(loop)))}
    raise BrokenOrder(
        "The steps would wait for each other in a loop:",
        chain=tuple(names[key] for key in loop),
        way_out="Take one of these links away first.",
    )


@dataclass(frozen=True, slots=True)
class Done:
    """What is noted when a step is ticked off."""

    measured: str = ""
    torque: str = ""
    note: str = ""
    at: dt.datetime | None = None


def unmet(tx: Tx, task_id: int) -> list[Task]:
    """The steps that should be done before this one and are not."""
    return list(
        tx.session.scalars(
            select(Task)
            .join(Link, Link.before_id == Task.id)
            .where(Link.after_id == task_id, Task.state.not_in([TaskState.DONE, TaskState.LEFT_OUT]))
            .order_by(Task.position, Task.id)
        )
    )


def tick(store: Store, task_id: int, done: Done | None = None, *, sure: bool = False) -> None:
    """Tick a step off, with when, and what was measured or torqued.

    ``sure`` takes an irreversible step, or one whose predecessors are still open, all the same.

    Raises:
        BrokenOrder: a step before it is open, or the step cannot be undone; ``sure`` settles both.
        BadEntry, Ambiguous: a measured size or torque cannot be read.
    """
    noted = done or Done()
    with store.act(Act.TICK, "") as tx:
        task = tx.get(Task, task_id, "step")
        if not sure:
            _refuse_early(tx, task)
        if noted.torque.strip():
            parse_torque(noted.torque, "Torqued to")
        if noted.measured.strip():
            parse_length(noted.measured, tx.get(Machine, task.machine_id, "machine").unit, "Measured")
        task.state = TaskState.DONE
        task.done_at = noted.at or now()
        task.done_measured = noted.measured.strip()
        task.done_torque = noted.torque.strip()
        task.done_note = noted.note.strip()
        tx.subject = f"“{task.title}”"


def _refuse_early(tx: Tx, task: Task) -> None:
    waiting = unmet(tx, task.id)
    if waiting:
        chain = (waiting[0].title, task.title)
        more = f" ({len(waiting) - 1} more steps before it are open too)" if len(waiting) > 1 else ""
        raise BrokenOrder(
            f"A step before this one is still open{more}:",
            chain=chain,
            way_out="Do it first, or tick this one all the same.",
        )
    if task.irreversible:
        raise BrokenOrder(
            f"“{task.title}” cannot be undone on the machine.",
            way_out="Look once more, take a photo, then tick it again to confirm.",
        )


def untick(store: Store, task_id: int) -> None:
    """Open a step again; what was noted at the tick stays in the history."""
    with store.act(Act.UNTICK, "") as tx:
        task = tx.get(Task, task_id, "step")
        task.state = TaskState.OPEN
        task.done_at = None
        task.done_measured = task.done_torque = task.done_note = ""
        tx.subject = f"“{task.title}”"


def add_caution(store: Store, task_id: int, topic: str) -> int:
    """Put a caution on a step; returns its id. Raises BadEntry for a topic that is not known."""
    known = caution(topic)
    with store.act(Act.ADD_CAUTION, "") as tx:
        task = tx.get(Task, task_id, "step")
        row = TaskCaution(task_id=task_id, topic=known.topic)
        tx.session.add(row)
        tx.session.flush()
        tx.subject = f"{known.title} on “{task.title}”"
        return row.id


def add_constraint(store: Store, task_id: int, kind: ConstraintKind, detail: str = "") -> int:
    """Say what a step asks for besides order; returns the constraint's id."""
    columns = read_typed("task_constraint", {"kind": kind.value, "detail": detail})
    with store.act(Act.ADD_CONSTRAINT, "") as tx:
        task = tx.get(Task, task_id, "step")
        row = TaskConstraint(task_id=task_id)
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        tx.subject = f"“{kind.value}” on “{task.title}”"
        return row.id
