"""Where a part lies: one record with its history, and what follows from a move, inside an act.

The only writer of ``part.place_id`` and ``part.placed_at``: they are the stay that was not left, kept on the part
so that a list of parts needs no second table. A removal's *put in*, what was sent out or lent and what came back
are moves like any other, so none of them can say another place than the part does.
"""

from __future__ import annotations

import datetime as dt

from sqlalchemy import select

from rebuild.model.records.parts import Part
from rebuild.model.records.places import Place, Stay
from rebuild.model.records.waiting import Clock, Waiting
from rebuild.store.tx import Tx
from rebuild.words.places import PlaceKind
from rebuild.words.waiting import ClockKind, WaitingKind
from rebuild.work.records.columns import title

#: A part in such a place is waited for under this kind.
AWAY = {PlaceKind.AT_A_SHOP: WaitingKind.SENT_OUT, PlaceKind.LENT: WaitingKind.LENT}


def move(
    tx: Tx,
    part: Part,
    place: Place | None,
    at: dt.datetime,
    *,
    removal_id: int | None = None,
    waiting_id: int | None = None,
) -> None:
    """From ``at`` on a part lies in ``place`` (None: nobody noted where), put there by a removal or an order.

    Out of a shop or a loan its line in what is waited for is closed; into one it gets a line; out of a bath its
    bath clock ends. Put where it lies already, it goes on lying there since it came.
    """
    tx.session.flush()
    was = open_stay(tx, part.id)
    place_id = place.id if place is not None else None
    if (
        was is not None
        and was.place_id == place_id
        and removal_id is None
        and waiting_id in (None, was.waiting_id)
    ):
        _carry(part, was)
        return
    if was is not None:
        was.left_at = max(was.came_at or at, at)
        _out_of(tx, part, was, at, waiting_id)
    if place is not None and place.kind in AWAY and waiting_id is None:
        waiting_id = _line_for(tx, part, place, at).id
    now = Stay(part_id=part.id, place_id=place_id, removal_id=removal_id, waiting_id=waiting_id, came_at=at)
    tx.session.add(now)
    _carry(part, now)
    tx.session.flush()


def carry_over(tx: Tx, thing: Part, part: Part, at: dt.datetime) -> None:
    """A thing turned out to be ``part``: that one lies from ``at`` on where the thing lies, and has its history."""
    tx.session.flush()
    stay = open_stay(tx, thing.id)
    place = tx.session.get(Place, stay.place_id) if stay is not None and stay.place_id is not None else None
    waiting_id = stay.waiting_id if stay is not None else None
    if stay is not None:
        stay.left_at = max(stay.came_at or at, at)
        thing.place_id = thing.placed_at = None
    if place is not None:
        move(tx, part, place, at, waiting_id=waiting_id)
    tx.session.flush()


def open_stay(tx: Tx, part_id: int) -> Stay | None:
    """The stay a part has not left."""
    return tx.session.scalars(
        select(Stay).where(Stay.part_id == part_id, Stay.left_at.is_(None)).order_by(Stay.id.desc())
    ).first()


def place_named(tx: Tx, kind: PlaceKind, name: str, at: dt.datetime) -> Place:
    """The place of that kind and name, made if need be."""
    for found in tx.session.scalars(select(Place).where(Place.kind == kind).order_by(Place.id)):
        if found.name.casefold() == name.casefold():
            return found
    made = Place(kind=kind, name=name, since=at)
    tx.session.add(made)
    tx.session.flush()
    return made


def settle_kind(tx: Tx, place: Place, at: dt.datetime) -> None:
    """A place turned into a shop or a loan: each part in it gets its line in what is waited for."""
    if place.kind not in AWAY:
        return
    lying = select(Stay, Part).join(Part, Part.id == Stay.part_id)
    for stay, part in tx.session.execute(
        lying.where(Stay.place_id == place.id, Stay.left_at.is_(None))
    ).all():
        if stay.waiting_id is None:
            stay.waiting_id = _line_for(tx, part, place, stay.came_at or at).id


def _carry(part: Part, stay: Stay) -> None:
    """The part says what its stay says."""
    part.place_id, part.placed_at = stay.place_id, stay.came_at


def _out_of(tx: Tx, part: Part, stay: Stay, at: dt.datetime, cause: int | None) -> None:
    """What ends when a part leaves a place."""
    place = tx.session.get(Place, stay.place_id) if stay.place_id is not None else None
    if place is None:
        return
    line = tx.session.get(Waiting, stay.waiting_id) if stay.waiting_id is not None else None
    if line is not None and line.id != cause and AWAY.get(place.kind) is line.kind:
        if line.kind is WaitingKind.LENT:
            line.returned_at = line.returned_at or at
        else:
            line.arrived_at = line.arrived_at or at
    if place.kind is PlaceKind.BATH:
        running = select(Clock).where(
            Clock.part_id == part.id, Clock.kind == ClockKind.BATH, Clock.closed_at.is_(None)
        )
        for clock in tx.session.scalars(running):
            clock.closed_at, clock.closed_note = at, "taken out of the bath"


def _line_for(tx: Tx, part: Part, place: Place, at: dt.datetime) -> Waiting:
    """The open line of a part that is away, made if it has none."""
    kind = AWAY[place.kind]
    line = tx.session.scalars(
        select(Waiting)
        .where(
            Waiting.part_id == part.id,
            Waiting.kind == kind,
            Waiting.arrived_at.is_(None),
            Waiting.returned_at.is_(None),
        )
        .order_by(Waiting.id.desc())
    ).first()
    if line is None:
        line = Waiting(
            machine_id=part.machine_id,
            subassembly_id=part.subassembly_id,
            part_id=part.id,
            kind=kind,
            what=title(part),
            quantity=max(part.quantity, 1),
        )
        tx.session.add(line)
    line.who = line.who or place.name
    line.ordered_at = line.ordered_at or at
    tx.session.flush()
    return line
