"""What moves a part without being called a move: a removal put right, an order gone or back, a bath begun."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from sqlalchemy import select

from rebuild.model.records.parts import Part
from rebuild.model.records.places import Place, Stay
from rebuild.model.records.record import Record
from rebuild.model.records.teardown import Removal, RemovalPart
from rebuild.model.records.waiting import Clock, Waiting
from rebuild.store.tx import Tx
from rebuild.words.decisions import Decision
from rebuild.words.places import PlaceKind
from rebuild.words.waiting import ClockKind, WaitingKind
from rebuild.work.places.acts_move import AWAY, move, open_stay, place_named, settle_kind
from rebuild.work.records.columns import title
from rebuild.work.records.wall_clock import now

#: Where a shop or borrower was not named.
NOT_NAMED = "not said where"
_KINDS = {waited: place for place, waited in AWAY.items()}
#: Of a part decided so, something else is made or bought: the part itself does not go.
_STAYS_HERE = (Decision.REMAKE, Decision.BUY)


def lies_where_typed(tx: Tx, row: Part, at: dt.datetime | None = None) -> None:
    """A part lies from now (or ``at``) in the place that was put on it as a field."""
    typed = tx.get(Place, row.place_id, "place") if row.place_id is not None else None
    if typed is not None or open_stay(tx, row.id) is not None:
        move(tx, row, typed, at or now())


def follow_place(tx: Tx, row: Record, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    """What a record whose fields ``typed`` were just set moves; ``before`` holds its columns until then."""
    tx.session.flush()
    if isinstance(row, Part) and "place_id" in typed and row.place_id != before.get("place_id"):
        lies_where_typed(tx, row)
    elif isinstance(row, Place) and "kind" in typed and row.kind is not before.get("kind"):
        settle_kind(tx, row, now())
    elif isinstance(row, Place) and "name" in typed and row.name != before.get("name"):
        _rename_lines(tx, row, str(before.get("name") or ""))
    elif isinstance(row, Removal) and ("place_id" in typed or "at" in typed):
        put_right(tx, row)
    elif isinstance(row, Waiting) and typed:
        if "who" in typed and row.part_id is None and row.kind is WaitingKind.LENT:
            _rename_borrower(tx, row, str(before.get("who") or ""))
        follow_order(tx, row)
        if "place_id" in typed:
            put_delivery(tx, row)
    elif isinstance(row, Clock) and row.closed_at is not None and before.get("closed_at") is None:
        out_of_bath(tx, row, row.closed_at)


def _rename_lines(tx: Tx, place: Place, was: str) -> None:
    """Whoever a place stands for is called so in the lines of what is out with him too: one record, one name."""
    kind = AWAY.get(place.kind)
    if kind is None or not was:
        return
    for line in tx.session.scalars(
        select(Waiting).where(Waiting.kind == kind, Waiting.returned_at.is_(None))
    ):
        if line.who.casefold() == was.casefold():
            line.who = place.name


def _rename_borrower(tx: Tx, line: Waiting, was: str) -> None:
    """A borrower of a means called otherwise: his place is, unless others know it by the old name."""
    if not line.who or line.ordered_at is None or line.returned_at is not None:
        return
    places = list(tx.session.scalars(select(Place).where(Place.kind == PlaceKind.LENT).order_by(Place.id)))
    if any(place.name.casefold() == line.who.casefold() for place in places):
        return
    old = next((place for place in places if place.name.casefold() == was.casefold()), None)
    others = [
        one.id
        for one in tx.session.scalars(
            select(Waiting).where(Waiting.kind == WaitingKind.LENT, Waiting.returned_at.is_(None))
        )
        if one.id != line.id and one.who.casefold() == was.casefold()
    ]
    if old is None or others or tx.session.scalar(select(Stay.id).where(Stay.place_id == old.id)):
        place_named(tx, PlaceKind.LENT, line.who, line.ordered_at)
    else:
        old.name = line.who


def follow_order(tx: Tx, row: Waiting) -> None:
    """The part of a line that was sent out or lent is there until the line says it is back."""
    part = tx.session.get(Part, row.part_id) if row.part_id is not None else None
    kind = _KINDS.get(row.kind)
    if part is None or kind is None:
        return
    tx.session.flush()
    stay = open_stay(tx, part.id)
    there = tx.session.get(Place, stay.place_id) if stay is not None and stay.place_id is not None else None
    is_there = stay is not None and stay.waiting_id == row.id and there is not None and there.kind is kind
    out = row.ordered_at is not None and row.arrived_at is None and row.returned_at is None
    goes = row.kind is WaitingKind.LENT or part.decision not in _STAYS_HERE
    if out and goes and not is_there:
        shop = place_named(tx, kind, row.who or NOT_NAMED, row.ordered_at or now())
        move(tx, part, shop, row.ordered_at or now(), waiting_id=row.id)
    elif is_there and not out:
        back = tx.session.get(Place, row.place_id) if row.place_id is not None else None
        move(tx, part, back, row.returned_at or row.arrived_at or now(), waiting_id=row.id)
    elif is_there and row.who and there is not None and there.name == NOT_NAMED and stay is not None:
        stay.place_id = part.place_id = place_named(tx, kind, row.who, row.ordered_at or now()).id


def line_of_away(tx: Tx, part_id: int | None, kind: WaitingKind) -> Waiting | None:
    """The line a move made for a part that is away, as long as nobody filled it in."""
    part = tx.session.get(Part, part_id) if part_id is not None else None
    stay = open_stay(tx, part.id) if part is not None else None
    line = (
        tx.session.get(Waiting, stay.waiting_id) if stay is not None and stay.waiting_id is not None else None
    )
    if line is None or part is None or line.kind is not kind or line.what != title(part):
        return None
    return line if line.arrived_at is None and line.returned_at is None else None


def put_delivery(tx: Tx, row: Waiting) -> None:
    """What was delivered lies where its line says, unless it was put elsewhere since."""
    part = tx.session.get(Part, row.part_id) if row.part_id is not None else None
    came = row.returned_at or row.arrived_at
    if part is None or row.place_id is None or came is None:
        return
    tx.session.flush()
    stay = open_stay(tx, part.id)
    place = tx.get(Place, row.place_id, "place")
    if stay is not None and stay.waiting_id == row.id and stay.place_id is None and place.kind not in AWAY:
        stay.place_id = part.place_id = place.id
    elif stay is None or stay.waiting_id == row.id or stay.came_at is None or stay.came_at <= came:
        move(tx, part, place, came, waiting_id=row.id)


def put_right(tx: Tx, row: Removal) -> None:
    """A removal's *put in* or time was typed anew: the stays it began say the same from now on."""
    tx.session.flush()
    place = tx.get(Place, row.place_id, "place") if row.place_id is not None else None
    of = select(Part).join(RemovalPart, RemovalPart.part_id == Part.id)
    for part in tx.session.scalars(of.where(RemovalPart.removal_id == row.id)).all():
        begun = tx.session.scalars(
            select(Stay).where(Stay.part_id == part.id, Stay.removal_id == row.id)
        ).first()
        if begun is not None:
            _mend(tx, part, begun, place, row.at)
        elif place is not None:
            _put_in(tx, part, place, row)


def _mend(tx: Tx, part: Part, stay: Stay, place: Place | None, at: dt.datetime) -> None:
    """A stay that lasts is begun again in the right place; one long left is only corrected."""
    if stay.left_at is not None:
        stay.place_id = place.id if place is not None else None
        stay.came_at = min(at, stay.left_at)
        return
    removal_id = stay.removal_id
    if place is not None and place.kind in AWAY:
        tx.session.delete(stay)
        tx.session.flush()
        move(tx, part, place, at, removal_id=removal_id)
        return
    stay.place_id = part.place_id = place.id if place is not None else None
    stay.came_at = part.placed_at = at


def _put_in(tx: Tx, part: Part, place: Place, row: Removal) -> None:
    """A *put in* typed later: where the part lies now if nothing came after, else a stay that was left."""
    stay = open_stay(tx, part.id)
    if stay is None or stay.came_at is None or stay.came_at <= row.at:
        move(tx, part, place, row.at, removal_id=row.id)
        return
    tx.session.add(
        Stay(part_id=part.id, place_id=place.id, removal_id=row.id, came_at=row.at, left_at=stay.came_at)
    )


def into_bath(tx: Tx, clock: Clock) -> None:
    """A part whose bath clock starts lies in a bath: the one named with it, else the only one, else one made."""
    part = tx.session.get(Part, clock.part_id) if clock.part_id is not None else None
    if part is None or clock.kind is not ClockKind.BATH:
        return
    here = tx.session.get(Place, part.place_id) if part.place_id is not None else None
    if here is not None and here.kind is PlaceKind.BATH:
        return
    baths = tx.session.scalars(select(Place).where(Place.kind == PlaceKind.BATH).order_by(Place.id)).all()
    said = [bath for bath in baths if bath.name.casefold() in clock.what.casefold()]
    bath = said[0] if said else baths[0] if len(baths) == 1 else None
    move(tx, part, bath or place_named(tx, PlaceKind.BATH, "bath", clock.started_at), clock.started_at)


def out_of_bath(tx: Tx, clock: Clock, at: dt.datetime) -> None:
    """A part whose bath clock was seen to lies in the bath no longer; where it went is not said yet."""
    part = tx.session.get(Part, clock.part_id) if clock.part_id is not None else None
    if part is None or clock.kind is not ClockKind.BATH or part.place_id is None:
        return
    here = tx.session.get(Place, part.place_id)
    if here is not None and here.kind is PlaceKind.BATH:
        move(tx, part, None, at)
