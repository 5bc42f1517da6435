"""The removal log: the next thing off, how, its fasteners and shims, and where it was put."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.machines import Machine
from rebuild.model.records.parts import Part
from rebuild.model.records.places import Place
from rebuild.model.records.steps import Task
from rebuild.model.records.teardown import Removal, RemovalPart
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.words.decisions import Decision
from rebuild.words.places import PlaceKind, place_words
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.teardown import RemovalWay
from rebuild.work.joints.acts_off import all_apart
from rebuild.work.places.acts_move import move
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.field import show_day
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.records.wall_clock import now
from rebuild.work.records.ways_out import Refused, Way, WayKind
from rebuild.work.teardown import acts_fasteners as holes
from rebuild.work.teardown.acts_attempts import current, next_attempt, of_what, off_now, stop
from rebuild.work.teardown.acts_named_here import make_alike, make_parts, make_place
from rebuild.work.teardown.off import Again as Again, Off as Off


def log_removal(
    store: Store,
    machine_id: int,
    subassembly_id: int | None,
    off: Off,
    *,
    again: Again | None = None,
    why: str = "",
) -> int:
    """Log one thing off in the newest attempt on a subassembly (the first is begun by it); returns its id.

    Open steps to take these parts off are ticked with it; every joint of these parts comes apart. Parts and
    a place named for the first time are made with it. A part that broke or is not there, and was to be used
    again, is to be decided anew.

    Raises:
        BadEntry: nothing came off, an end is missing where it matters, or a field cannot be read; or a new attempt
            is begun and ``why`` does not say what stopped the last one.
        Refused: a part is off already; ``again`` says what a second removal means. Another one alike is a part
            of its own, made here; the first one stays where it lies.
    """
    columns = _columns(store, off)
    comma = decimal_comma(store)
    with store.act(Act.LOG_REMOVAL, "") as tx:
        machine = tx.get(Machine, machine_id, "machine")
        refuse_other_machine(tx, machine_id, subassembly=subassembly_id)
        for key in off.part_ids:
            refuse_other_machine(tx, machine_id, part=key)
        at = off.at or now()
        attempt = current(tx, machine_id, subassembly_id)
        if again is None:
            _refuse_twice(tx, off.part_ids)
        if attempt is not None and again is Again.NEW_ATTEMPT:
            stop(attempt, why)
        if attempt is None or again is Again.NEW_ATTEMPT:
            attempt = next_attempt(tx, machine_id, subassembly_id, at)
        row = Removal(attempt_id=attempt.id, at=at, how=off.how, position=_next_position(tx, attempt.id))
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        made = make_parts(tx, machine_id, subassembly_id, off.new_parts)
        if again is Again.ALIKE:
            off = _others_alike(tx, subassembly_id, off)
        parts = _take_parts(tx, row, off, made, at)
        all_apart(tx, [part.id for part in parts], at)
        called = ", ".join(title(part) for part in parts) or row.what
        holes.add_all(tx, attempt, row, off.fasteners, (called, parts[0].id if parts else None))
        holes.add_shims_said(tx, row, off.shims, machine.unit, comma)
        tx.subject = f"no. {row.position + 1} from {of_what(tx, attempt)}: {called}, {row.how.value}"
        return row.id


def _columns(store: Store, off: Off) -> dict[str, object]:
    if not off.part_ids and not off.new_parts and not off.what.strip():
        raise BadEntry("is empty.", where="What came off", way_out="Choose a part, or say what it was.")
    if off.how is RemovalWay.DRIVEN and not off.from_end.strip():
        raise BadEntry(
            "is empty.",
            where="From which end",
            way_out="A pin goes back the way it came: say “d front” or “d small end”.",
        )
    typed = {"what": off.what, "from_end": off.from_end, **off.typed}
    return read_typed("removal", typed, comma=decimal_comma(store))


def _others_alike(tx: Tx, subassembly_id: int | None, off: Off) -> Off:
    """A part of its own for each part that is off already: the first one stays in its log and its bag."""
    ids = []
    for key in dict.fromkeys(off.part_ids):
        first = tx.get(Part, key, "part")
        ids.append(make_alike(tx, first, subassembly_id).id if off_now(tx, key) is not None else key)
    return replace(off, part_ids=tuple(ids))


def _refuse_twice(tx: Tx, part_ids: Sequence[int]) -> None:
    for key in part_ids:
        found = off_now(tx, key)
        if found is None:
            continue
        removal, attempt, refit = found
        part = title(tx.get(Part, key, "part"))
        fresh = Way(WayKind.NEW_ATTEMPT, f"It was refitted: begin attempt {attempt.number + 1}", attempt.id)
        if refit is not None:
            back = f" on {show_day(refit.done_at)}" if refit.done_at else ""
            raise Refused(
                f"{part} was refitted{back} (“{refit.title}”).",
                way_out=f"Taking it off again begins attempt {attempt.number + 1}.",
                ways=(fresh,),
            )
        raise Refused(
            f"{part} is off already: no. {removal.position + 1} of {of_what(tx, attempt)}, "
            f"{removal.how.value} on {show_day(removal.at)}{_where_it_lies(tx, key)}.",
            way_out="Choose another part, or say that it was refitted or that this is another one alike.",
            ways=(Way(WayKind.ALIKE, "Another one alike: a part of its own", key), fresh),
        )


def _where_it_lies(tx: Tx, part_id: int) -> str:
    key = tx.get(Part, part_id, "part").place_id
    place = tx.session.get(Place, key) if key is not None else None
    return f"; it lies in {place_words(place.kind, place.name)}" if place is not None else ""


def _next_position(tx: Tx, attempt_id: int) -> int:
    last = tx.session.scalar(select(func.max(Removal.position)).where(Removal.attempt_id == attempt_id))
    return 0 if last is None else last + 1


def _take_parts(tx: Tx, row: Removal, off: Off, made: Sequence[Part], at: dt.datetime) -> list[Part]:
    """Note the parts of a removal, where they lie from now on, and the open steps that meant to take them off."""
    place = tx.get(Place, off.place_id, "place") if off.place_id is not None else None
    if off.new_place is not None:
        place = make_place(tx, off.new_place, at)
    row.place_id = place.id if place is not None else None
    parts = [*(tx.get(Part, key, "part") for key in dict.fromkeys(off.part_ids)), *made]
    for part in parts:
        tx.session.add(RemovalPart(removal_id=row.id, part_id=part.id))
        before = tx.session.get(Place, part.place_id) if part.place_id is not None else None
        if place is not None or (before is not None and before.kind is PlaceKind.ON_THE_MACHINE):
            move(tx, part, place, at, removal_id=row.id)
        if not off.is_whole and part.decision is Decision.REUSE:
            part.decision, part.decided_at = Decision.OPEN, None
    if parts:
        meant_to = tx.session.scalars(
            select(Task).where(
                Task.part_id.in_([part.id for part in parts]),
                Task.kind == TaskKind.REMOVE,
                Task.state.in_([TaskState.OPEN, TaskState.UNDER_WAY]),
            )
        )
        for task in meant_to:
            task.state, task.done_at = TaskState.DONE, at
    return parts


def reorder_removals(store: Store, removal_ids: Sequence[int], at: int) -> None:
    """Move removals to index ``at`` of their attempt's log, keeping their own order.

    Raises:
        BadEntry: they are of two attempts.
    """
    if not removal_ids:
        return
    with store.act(Act.REORDER, "of the removal log") as tx:
        moving = [tx.get(Removal, key, "removal") for key in dict.fromkeys(removal_ids)]
        if len({row.attempt_id for row in moving}) > 1:
            raise BadEntry("are of two attempts.", where="Removals", way_out="Move those of one at a time.")
        rest = [
            row
            for row in tx.session.scalars(
                select(Removal)
                .where(Removal.attempt_id == moving[0].attempt_id)
                .order_by(Removal.position, Removal.id)
            )
            if row.id not in set(removal_ids)
        ]
        index = max(0, min(at, len(rest)))
        for position, row in enumerate(rest[:index] + moving + rest[index:]):
            if row.position != position:
                row.position = position
