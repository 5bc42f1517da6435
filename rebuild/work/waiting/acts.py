"""Orders, work sent out, quotes and loans; and the stock that is looked through before an order."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from enum import Enum

from rebuild.errors import BadEntry
from rebuild.model.records.machines import Machine
from rebuild.model.records.parts import Part
from rebuild.model.records.places import Place
from rebuild.model.records.steps import Task
from rebuild.model.records.waiting import StockItem, Waiting
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.waiting import WaitingKind
from rebuild.work.places.acts_follow import follow_order, line_of_away, put_delivery
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.records.wall_clock import now
from rebuild.work.waiting import rules


class Mark(Enum):
    """What happened to an order or loan; the value is the word said of it."""

    ORDERED = "ordered"
    CHASED = "chased"
    ARRIVED = "arrived"
    CHECKED = "checked"
    RETURNED = "returned"


_SAID = {
    (Mark.ORDERED, WaitingKind.SENT_OUT): "sent out", (Mark.ARRIVED, WaitingKind.SENT_OUT): "back",
    (Mark.ORDERED, WaitingKind.LENT): "lent", (Mark.ORDERED, WaitingKind.BORROWED): "borrowed",
}  # fmt: skip


def said_of(what: Mark, kind: WaitingKind) -> str:
    """The word for what happened to a line of a kind: a part sent out is not ordered, it comes back.

    >>> said_of(Mark.ORDERED, WaitingKind.SENT_OUT), said_of(Mark.ARRIVED, WaitingKind.SENT_OUT)
    ('sent out', 'back')
    """
    return _SAID.get((what, kind), what.value)


def add_waiting(
    store: Store,
    machine_id: int | None,
    what: str,
    kind: WaitingKind = WaitingKind.ORDER,
    *,
    subassembly_id: int | None = None,
    part_id: int | None = None,
    task_id: int | None = None,
    typed: Mapping[str, str] | None = None,
) -> int:
    """A new order, job sent out, quote or loan (no machine: for the shop); returns its id.

    A part gives its subassembly, so that cost can be told by subassembly. Of a part that was put at a shop or lent
    already the line that made is filled in: it is one thing out, not two.

    Raises:
        BadEntry: a field cannot be read, the dates do not follow each other, or the part is of another machine.
    """
    columns = read_typed("waiting", {"what": what, **(typed or {})}, comma=decimal_comma(store))
    with store.act(Act.ADD_WAITING, f"{kind.value}: {columns['what']}") as tx:
        if machine_id is not None:
            tx.get(Machine, machine_id, "machine")
            refuse_other_machine(tx, machine_id, subassembly=subassembly_id, part=part_id, step=task_id)
        row = line_of_away(tx, part_id, kind) or Waiting(machine_id=machine_id, kind=kind)
        row.subassembly_id, row.part_id, row.task_id = subassembly_id, part_id, task_id
        set_columns(row, columns)
        row.subassembly_id = row.subassembly_id or _subassembly(tx, row)
        rules.waiting(tx, row, {}, typed or {})
        tx.session.add(row)
        tx.session.flush()
        follow_order(tx, row)
        return row.id


def _subassembly(tx: Tx, row: Waiting) -> int | None:
    if row.part_id is not None:
        return tx.get(Part, row.part_id, "part").subassembly_id
    if row.task_id is not None:
        return tx.get(Task, row.task_id, "step").subassembly_id
    return None


def mark(
    store: Store,
    waiting_id: int,
    what: Mark,
    *,
    note: str = "",
    place_id: int | None = None,
    at: dt.datetime | None = None,
) -> None:
    """Note that an order was placed, chased, arrived, was checked or returned, ``at`` now unless given.

    What arrives is put in ``place_id``; once it has been checked the buying step it was for is done.

    Raises:
        BadEntry: out of order, as checked before it arrived.
    """
    when = at or now()
    with store.act(Act.MARK_WAITING, "") as tx:
        row = tx.get(Waiting, waiting_id, "order or loan")
        if what is Mark.ORDERED:
            row.ordered_at = when
            if row.kind is WaitingKind.QUOTE:
                row.kind = WaitingKind.ORDER
        elif what is Mark.CHASED:
            row.chased_at = when
        elif what is Mark.ARRIVED:
            row.arrived_at = when
            _put(tx, row, place_id)
        elif what is Mark.CHECKED:
            row.inspected_at, row.inspected_note = when, note.strip()
            _settle_step(tx, row, when)
        else:
            _give_back(row, when)
        rules.waiting(tx, row, {}, {})
        follow_order(tx, row)
        put_delivery(tx, row)
        tx.subject = f"{said_of(what, row.kind)}: {row.what}"


def _put(tx: Tx, row: Waiting, place_id: int | None) -> None:
    if place_id is not None:
        tx.get(Place, place_id, "place")
        row.place_id = place_id


def _settle_step(tx: Tx, row: Waiting, at: dt.datetime) -> None:
    task = tx.session.get(Task, row.task_id) if row.task_id is not None else None
    if (
        task is not None
        and task.kind in (TaskKind.BUY, TaskKind.SEND_OUT)
        and task.state
        in (
            TaskState.OPEN,
            TaskState.UNDER_WAY,
        )
    ):
        task.state, task.done_at = TaskState.DONE, at


def _give_back(row: Waiting, at: dt.datetime) -> None:
    if row.kind in (WaitingKind.QUOTE,):
        raise BadEntry(
            "is a quote and cannot be returned.",
            where="Returned",
            value=row.what,
            way_out="Order it first, or remove it.",
        )
    row.returned_at = at


def add_stock(store: Store, name: str, typed: Mapping[str, str] | None = None) -> int:
    """Something on the shelf that may serve; returns its id. Raises BadEntry."""
    columns = read_typed("stock_item", {"name": name, **(typed or {})}, comma=decimal_comma(store))
    with store.act(Act.ADD_STOCK, str(columns["name"])) as tx:
        row = StockItem()
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        tx.subject = title(row)
        return row.id
