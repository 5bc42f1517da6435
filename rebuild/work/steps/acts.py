"""Steps of work: add, put in order, link, tick off."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.joints import Joint
from rebuild.model.records.machines import Machine
from rebuild.model.records.steps import ConstraintPart, Link, Task, TaskCaution, TaskConstraint
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.results.cautions import caution
from rebuild.trade.schedule.network import loop_closed_by
from rebuild.trade.sizes.comma import settled
from rebuild.trade.sizes.quantity import parse_length
from rebuild.words.joints import Tightness
from rebuild.words.steps import ConstraintKind, LinkKind, TaskKind, TaskState
from rebuild.work.gates.rules import refuse_idle_reason
from rebuild.work.joints.acts import parse_joint
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.records.wall_clock import now
from rebuild.work.records.ways_out import Refused, Way, WayKind
from rebuild.work.steps import rules, rules_order as order
from rebuild.work.steps.acts_finish import finish, wanted_in
from rebuild.work.steps.acts_gate import pass_step
from rebuild.work.waiting.acts_clocks import start_rest


def add_task(
    store: Store,
    machine_id: int,
    subassembly_id: int | None,
    text: str,
    kind: TaskKind = TaskKind.OTHER,
    *,
    part_id: int | None = None,
    after: Sequence[int] = (),
    asks: Sequence[ConstraintKind] = (),
    typed: Mapping[str, str] | None = None,
) -> int:
    """A new step, last in its subassembly, after the given steps; returns its id. ``asks``: what it needs besides.

    Raises:
        BadEntry: a field cannot be read, or the durations do not rise.
    """
    columns = read_typed("task", {"title": text, **(typed or {})}, comma=decimal_comma(store))
    with store.act(Act.ADD_TASK, str(columns["title"])) as tx:
        tx.get(Machine, machine_id, "machine")
        refuse_other_machine(tx, machine_id, subassembly=subassembly_id, part=part_id)
        last = tx.session.scalar(
            select(func.max(Task.position)).where(
                Task.machine_id == machine_id, Task.subassembly_id.is_(subassembly_id)
            )
        )
        task = Task(
            machine_id=machine_id,
            subassembly_id=subassembly_id,
            part_id=part_id,
            kind=kind,
            position=0 if last is None else last + 1,
        )
        set_columns(task, columns)
        rules.task(tx, task, {}, typed or {})
        tx.session.add(task)
        tx.session.flush()
        for before in dict.fromkeys(after):
            refuse_other_machine(tx, machine_id, step=before)
            tx.session.add(Link(before_id=before, after_id=task.id))
        for asked in asks:
            tx.session.add(TaskConstraint(task_id=task.id, kind=asked))
        return task.id


def reorder(store: Store, task_ids: Sequence[int], at: int) -> None:
    """Move steps to index ``at`` of their subassembly's list, keeping their own order.

    Links stay as they are, and a new order may not go against one that was kept until now.

    Raises:
        BadEntry: the steps are not all of one list.
        Refused: a step would come to stand above one it waits for; the chain is spelled out.
    """
    if not task_ids:
        return
    with store.act(Act.REORDER, "") as tx:
        moving = [tx.get(Task, key, "step") for key in dict.fromkeys(task_ids)]
        first = moving[0]
        for task in moving:
            if (task.machine_id, task.subassembly_id) != (first.machine_id, first.subassembly_id):
                raise BadEntry(
                    "is of another list.",
                    where="Step",
                    value=task.title,
                    way_out="Move steps of one subassembly at a time.",
                )
        listed = list(
            tx.session.scalars(
                select(Task)
                .where(Task.machine_id == first.machine_id, Task.subassembly_id.is_(first.subassembly_id))
                .order_by(Task.position, Task.id)
            )
        )
        rest = [task for task in listed if task.id not in set(task_ids)]
        index = max(0, min(at, len(rest)))
        wanted = rest[:index] + moving + rest[index:]
        order.refuse_order(tx, listed, wanted, set(task_ids))
        for position, task in enumerate(wanted):
            if task.position != position:
                task.position = position
        tx.subject = f"of {title(first)}" + (f" and {len(moving) - 1} more" if len(moving) > 1 else "")


def add_link(
    store: Store, before_id: int, after_id: int, kind: LinkKind = LinkKind.BEFORE, reason: str = ""
) -> int:
    """Say that ``before`` must be done before ``after``; returns the link's id.

    Raises:
        Refused: it would close a loop, which is spelled out; or it asks for something off that is on again.
        BadEntry: the link is there already, or the steps are of two machines.
    """
    with store.act(Act.ADD_LINK, "") as tx:
        before, after = tx.get(Task, before_id, "step"), tx.get(Task, after_id, "step")
        refuse_other_machine(tx, before.machine_id, step=after_id)
        if tx.session.scalar(select(Link.id).where(Link.before_id == before_id, Link.after_id == after_id)):
            raise BadEntry("already comes first.", where="Link", value=before.title, way_out="Nothing to do.")
        _refuse_loop(tx, before_id, after_id)
        order.refuse_link(tx, before, after, kind)
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
    first = tx.session.scalar(select(Link.id).where(Link.before_id == loop[0], Link.after_id == loop[1]))
    ways = (
        (Way(WayKind.TAKE_LINK_AWAY, f"Take “{names[loop[0]]}” before “{names[loop[1]]}” away", first),)
        if first is not None
        else ()
    )
    raise Refused(
        "The steps would wait for each other in a loop:",
        chain=tuple(names[key] for key in loop),
        way_out="Take one of these links away first.",
        ways=ways,
    )


@dataclass(frozen=True, slots=True)
class Done:
    """What is noted when a step is ticked off; ``joint`` says how its joint was left: ``snug, oiled``."""

    measured: str = ""
    torque: str = ""
    note: str = ""
    at: dt.datetime | None = None
    joint: str = ""


def tick(
    store: Store,
    task_id: int,
    done: Done | None = None,
    *,
    confirmed: bool = False,
    reason: str = "",
    by: str = "",
) -> None:
    """Tick a step off, with when, and what was measured or torqued.

    A refit step puts its parts on the machine and leaves their joints as said (finger tight when nothing was);
    a step that must cure starts its clock. ``confirmed`` ticks one that cannot be undone. A ``reason`` ticks one
    that was refused, all the same: then the act is called so, and what stood against it is noted with the reason
    until it is closed.

    Raises:
        Refused: a step before it is open, something must still be off, is unproved, cures or is not made, it
            would close an opening still needed, it needs power and that is held, it cannot be undone and its fit
            or cautions are open, a torque is not the one wanted, or the joint said has none to land on.
        BadEntry, Ambiguous: a measured size, torque or joint word cannot be read; a reason nobody asked for.
    """
    noted, comma = done or Done(), decimal_comma(store)
    with store.act(Act.GO_ON if reason.strip() else Act.TICK, "") as tx:
        task = tx.get(Task, task_id, "step")
        at = noted.at or now()
        asked = pass_step(tx, task, at, confirmed=confirmed, reason=reason, by=by)
        joint = replace(parse_joint(noted.joint, noted.torque, comma=comma), reason=reason, by=by)
        if noted.measured.strip():
            unit = tx.get(Machine, task.machine_id, "machine").unit
            parse_length(noted.measured, unit, "Measured", decimal_comma=comma)
        task.state = TaskState.DONE
        task.done_at = at
        task.done_measured = settled(noted.measured.strip(), comma)
        task.done_torque = joint.torque
        task.done_note = noted.note.strip()
        asked = finish(tx, task, joint, at) or asked
        start_rest(tx, task, at)
        refuse_idle_reason(reason, asked or task.irreversible)
        tx.subject = f"“{task.title}”"


def prove(store: Store, constraint_id: int, note: str = "", *, at: dt.datetime | None = None) -> None:
    """What had to be proved before closing was seen: oil flowing, a full turn, a reading."""
    with store.act(Act.PROVE, "") as tx:
        row = tx.get(TaskConstraint, constraint_id, "constraint")
        row.proved_at = at or now()
        row.proved_note = note.strip()
        task = tx.get(Task, row.task_id, "step")
        tx.subject = f"{row.detail or row.kind.value} on “{task.title}”"


def read_cautions(store: Store, task_id: int, *, at: dt.datetime | None = None) -> None:
    """The cautions on a step were read, by whoever is about to do it."""
    with store.act(Act.READ_CAUTIONS, "") as tx:
        task = tx.get(Task, task_id, "step")
        for row in tx.session.scalars(select(TaskCaution).where(TaskCaution.task_id == task_id)):
            row.read_at = at or now()
        tx.subject = f"on “{task.title}”"


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


def joint_of_step(store: Store, task_id: int) -> int:
    """A joint for a step that has none: named by it, of its part, apart until something is said; returns its id."""
    with store.act(Act.ADD_JOINT, "") as tx:
        task = tx.get(Task, task_id, "step")
        row = Joint(
            machine_id=task.machine_id,
            subassembly_id=task.subassembly_id,
            part_id=task.part_id,
            task_id=task.id,
            name=task.title,
            tight=Tightness.APART,
            torque_wanted=wanted.words if (wanted := wanted_in(task.torque_wanted)) is not None else "",
        )
        tx.session.add(row)
        tx.session.flush()
        tx.subject = row.name
        return row.id


def add_constraint(
    store: Store,
    task_id: int,
    kind: ConstraintKind,
    detail: str = "",
    *,
    rest: str = "",
    part_ids: Sequence[int] = (),
) -> int:
    """Say what a step asks for besides order; returns the constraint's id.

    Args:
        rest: how long it must cure or rest, as ``24 h``; its clock starts when the step is ticked off.
        part_ids: the parts it speaks of: what stands at the position, what closes the opening it is done
            through, what may not go on before it is proved. Without any, a proof is asked of the step itself.

    Raises:
        BadEntry: the time cannot be read, or a part is of another machine.
    """
    columns = read_typed(
        "task_constraint",
        {"kind": kind.value, "detail": detail, "rest_min": rest},
        comma=decimal_comma(store),
    )
    with store.act(Act.ADD_CONSTRAINT, "") as tx:
        task = tx.get(Task, task_id, "step")
        row = TaskConstraint(task_id=task_id)
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        for key in dict.fromkeys(part_ids):
            refuse_other_machine(tx, task.machine_id, part=key)
            tx.session.add(ConstraintPart(constraint_id=row.id, part_id=key))
        tx.subject = f"“{kind.value}” on “{task.title}”"
        return row.id
