"""Means: note one, name it in a step, and come by it: make, buy, borrow, lend, have it back."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.machines import Machine
from rebuild.model.records.means import OneMeans, OneStepMeans
from rebuild.model.records.steps import Link, Task
from rebuild.model.records.waiting import Waiting
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.store.tx import Tx
from rebuild.trade.schedule.network import loop_closed_by
from rebuild.words.means import MeansKind
from rebuild.words.places import PlaceKind
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.waiting import WaitingKind
from rebuild.work.places.acts_move import place_named
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.wall_clock import now

_OPEN = (TaskState.OPEN, TaskState.UNDER_WAY)


def add_means(
    store: Store,
    name: str,
    kind: MeansKind = MeansKind.TOOL,
    typed: Mapping[str, str] | None = None,
) -> int:
    """Something steps may need; returns its id.

    Raises:
        BadEntry: a field cannot be read, or the shop lists it already.
    """
    columns = read_typed("means", {"name": name, "kind": kind.value, **(typed or {})})
    with store.act(Act.ADD_MEANS, str(columns["name"])) as tx:
        _refuse_listed(tx, str(columns["name"]))
        row = _new(tx)
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        return row.id


def _new(tx: Tx) -> OneMeans:
    last = tx.session.scalar(select(func.max(OneMeans.position)))
    return OneMeans(position=0 if last is None else last + 1)


def _named(tx: Tx, name: str) -> OneMeans | None:
    wanted = name.strip().casefold()
    return next((row for row in tx.session.scalars(select(OneMeans)) if row.name.casefold() == wanted), None)


def _refuse_listed(tx: Tx, name: str) -> None:
    if _named(tx, name) is not None:
        raise BadEntry(
            "is on the list already.",
            where="What",
            value=name.strip(),
            way_out="Choose it, or call this one otherwise.",
        )


def name_means(
    store: Store, task_id: int, name: str, kind: MeansKind = MeansKind.TOOL, note: str = ""
) -> int:
    """A step needs this; listed as lacking when the shop did not know of it. Returns the means' id.

    Raises:
        BadEntry: no name, or the step names it already.
    """
    columns = read_typed("means", {"name": name, "kind": kind.value})
    with store.act(Act.NAME_MEANS, "") as tx:
        task = tx.get(Task, task_id, "step")
        row = _named(tx, name)
        if row is None:
            row = _new(tx)
            set_columns(row, columns)
            tx.session.add(row)
            tx.session.flush()
        there = select(OneStepMeans.id).where(
            OneStepMeans.task_id == task_id, OneStepMeans.means_id == row.id
        )
        if tx.session.scalar(there):
            raise BadEntry(
                "is named by this step already.", where="What", value=row.name, way_out="Nothing to do."
            )
        tx.session.add(OneStepMeans(task_id=task_id, means_id=row.id, note=note.strip()))
        _make_first(tx, row, task)
        tx.session.flush()
        tx.subject = f"{row.name} for “{task.title}”"
        return row.id


def have(store: Store, means_id: int, *, owned: bool = True) -> None:
    """The shop has it for good, or has it no more (worn out, used up, sold)."""
    with store.act(Act.SET_MEANS, "") as tx:
        row = tx.get(OneMeans, means_id, "means")
        row.owned = owned
        if not owned:
            row.waiting_id = None
        tx.subject = f"{row.name}: {'in the shop' if owned else 'the shop has none'}"


def make(store: Store, means_id: int, machine_id: int | None = None) -> int:
    """Make it: a step that comes before each step that names it; returns the step's id.

    Without a machine the step is of the machine whose open step names it first.

    Raises:
        BadEntry: a step that makes it is there already, or it is not a thing that is made.
    """
    with store.act(Act.SET_MEANS, "") as tx:
        row = tx.get(OneMeans, means_id, "means")
        needing = _needing(tx, row)
        machine = tx.get(Machine, machine_id or (needing[0].machine_id if needing else 0), "machine")
        if row.kind in (MeansKind.HELPER, MeansKind.CONSUMABLE):
            raise BadEntry(
                f"is a {row.kind.value} and is not made.",
                where="What",
                value=row.name,
                way_out="Ask for it, or buy it.",
            )
        made_by = tx.session.get(Task, row.task_id) if row.task_id is not None else None
        if made_by is not None and made_by.state in _OPEN:
            raise BadEntry(
                "is being made already.", where="What", value=row.name, way_out=f"See “{made_by.title}”."
            )
        last = select(func.max(Task.position)).where(
            Task.machine_id == machine.id, Task.subassembly_id.is_(None)
        )
        task = Task(
            machine_id=machine.id,
            kind=TaskKind.MAKE,
            title=f"Make {row.name}",
            position=(tx.session.scalar(last) or 0) + 1,
        )
        tx.session.add(task)
        tx.session.flush()
        row.task_id = task.id
        for needs in needing:
            _make_first(tx, row, needs)
        tx.subject = f"make {row.name}"
        return task.id


def _needing(tx: Tx, row: OneMeans) -> list[Task]:
    """The open steps that name it, in order."""
    named = select(Task).join(OneStepMeans, OneStepMeans.task_id == Task.id)
    return list(
        tx.session.scalars(
            named.where(OneStepMeans.means_id == row.id, Task.state.in_(_OPEN)).order_by(
                Task.position, Task.id
            )
        )
    )


def _make_first(tx: Tx, row: OneMeans, needs: Task) -> None:
    """The step that makes it comes before one that needs it, on one machine and without closing a loop."""
    task = tx.session.get(Task, row.task_id) if row.task_id is not None else None
    if (
        task is None
        or task.machine_id != needs.machine_id
        or task.state not in _OPEN
        or needs.state not in _OPEN
    ):
        return
    links = [
        (one.before_id, one.after_id) for one in tx.session.execute(select(Link.before_id, Link.after_id))
    ]
    if (task.id, needs.id) in links or loop_closed_by(task.id, needs.id, links):
        return
    tx.session.add(Link(before_id=task.id, after_id=needs.id, reason=f"it needs {row.name}"))


def buy(store: Store, means_id: int, machine_id: int | None = None) -> int:
    """Put it on the list of what is waited for, as an order; returns the line's id. Raises BadEntry."""
    return _line(store, means_id, WaitingKind.ORDER, machine_id, "", None)


def borrow(store: Store, means_id: int, machine_id: int | None = None, who: str = "") -> int:
    """Borrow it: a line in what is waited for, here once it is marked as come; returns its id. Raises BadEntry."""
    return _line(store, means_id, WaitingKind.BORROWED, machine_id, who, None)


def lend(store: Store, means_id: int, who: str, *, at: dt.datetime | None = None) -> int:
    """Lend it out, gone ``at`` now unless given: it lies with whom it was lent to until it is back.

    Returns the line's id.

    Raises:
        BadEntry: nobody is named, the shop has it not, or it is lent already.
    """
    if not who.strip():
        raise BadEntry("is empty.", where="To whom", way_out="Say who has it, so that it can be asked for.")
    return _line(store, means_id, WaitingKind.LENT, None, who, at or now())


def _line(
    store: Store, means_id: int, kind: WaitingKind, machine_id: int | None, who: str, gone: dt.datetime | None
) -> int:
    with store.act(Act.SET_MEANS, "") as tx:
        row = tx.get(OneMeans, means_id, "means")
        line = tx.session.get(Waiting, row.waiting_id) if row.waiting_id is not None else None
        _refuse_running(row, line, kind)
        made = Waiting(machine_id=machine_id, kind=kind, what=row.name, who=who.strip(), ordered_at=gone)
        tx.session.add(made)
        tx.session.flush()
        row.waiting_id = made.id
        if gone is not None:
            place_named(tx, PlaceKind.LENT, made.who, gone)
        tx.subject = f"{kind.value}: {row.name}"
        return made.id


def _refuse_running(row: OneMeans, line: Waiting | None, kind: WaitingKind) -> None:
    """One line at a time: what is lent is asked back first, what is ordered or borrowed not asked for again."""
    if line is not None and line.returned_at is None and line.arrived_at is None:
        called = {WaitingKind.LENT: "lent out", WaitingKind.BORROWED: "being borrowed"}.get(
            line.kind, "on order"
        )
        raise BadEntry(
            f"is {called} already.",
            where="What",
            value=row.name,
            way_out="Say that it came, see its line in what is waited for, or list another one like it.",
        )
    if kind is WaitingKind.LENT and not row.owned:
        raise BadEntry(
            "is not the shop's own.", where="What", value=row.name, way_out="Say first that the shop has it."
        )


def back(store: Store, means_id: int, *, at: dt.datetime | None = None) -> None:
    """It came: a loan is back, an order arrived and is the shop's, a thing borrowed is here (a second time: returned).

    Raises:
        BadEntry: nothing of it is on its way.
    """
    when = at or now()
    with store.act(Act.SET_MEANS, "") as tx:
        row = tx.get(OneMeans, means_id, "means")
        line = tx.session.get(Waiting, row.waiting_id) if row.waiting_id is not None else None
        if line is None or line.returned_at is not None:
            raise BadEntry(
                "is neither lent, borrowed nor ordered.",
                where="What",
                value=row.name,
                way_out="Nothing to do.",
            )
        if line.kind is WaitingKind.LENT:
            line.returned_at = when
            said = "back"
        elif line.kind is WaitingKind.BORROWED and (line.arrived_at or line.ordered_at):
            line.returned_at = when
            said = "given back"
        elif line.kind is WaitingKind.BORROWED:
            line.arrived_at = line.ordered_at = when
            said = "borrowed"
        else:
            line.ordered_at, line.arrived_at = line.ordered_at or when, line.arrived_at or when
            row.owned, said = True, "bought"
        tx.subject = f"{title(row)}: {said}"
