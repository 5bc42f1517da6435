"""An unknown thing turned out to be a part: all that is known of it goes to that part, in one act."""

from __future__ import annotations

from sqlalchemy import delete, func, select, update

from rebuild.errors import BadEntry
from rebuild.model.records.boxes import MergedPart
from rebuild.model.records.parts import Part
from rebuild.model.records.photos import Photo, PhotoSubject
from rebuild.model.records.places import Place
from rebuild.model.records.teardown import RemovalPart
from rebuild.model.tables.every import whole
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.words.parts import Identity, Origin
from rebuild.words.places import place_words
from rebuild.work.boxes.acts import refuse_itself
from rebuild.work.boxes.acts_fold import fold_features
from rebuild.work.boxes.acts_machine import follow_machine
from rebuild.work.places.acts_move import carry_over, open_stay
from rebuild.work.records.columns import title
from rebuild.work.records.wall_clock import now

#: Fields of the part that what was seen on the thing fills where nothing stands yet.
_FILLED = (
    "material", "condition", "match_mark", "orientation", "handedness", "maker_number", "stamped", "figure_item",
)  # fmt: skip


class AlreadyLies(BadEntry):
    """The part lies somewhere already: the thing is that same one, or another alike."""


def merge(store: Store, part_id: int, into_id: int, *, same: bool = False) -> str:
    """A thing is the part ``into_id`` and stands alone no longer; returns what was carried over, in words.

    Its readings, photos, places, questions, clues and whatever else names it name the part from then on; a feature
    the part has too, of the same kind and size, is folded into that. A tag printed for the thing leads to the part.
    ``same`` says that it is the very one, though the part lies in another place already.

    Raises:
        AlreadyLies: the part lies in a place where the thing does not, and nobody said that both are one.
        BadEntry: it is the thing itself, or something ties the thing to another machine.
    """
    refuse_itself(part_id, into_id)
    with store.act(Act.MERGE_PART, "") as tx:
        thing, part = tx.get(Part, part_id, "part"), tx.get(Part, into_id, "part")
        was, is_now = title(thing), title(part)
        if not same:
            _refuse_lying(tx, thing, part)
        if thing.machine_id != part.machine_id:
            follow_machine(tx, thing, part.machine_id)
        _fill(thing, part, was)
        carry_over(tx, thing, part, now())
        tx.session.add(
            MergedPart(
                part_id=into_id, was_number=part_id, was_code=thing.code, was_name=thing.name, at=now()
            )
        )
        tx.session.flush()
        _drop_twice(tx, part_id, into_id)
        folded = fold_features(tx, part_id, into_id)
        _repoint(tx, part_id, into_id)
        elsewhere = _filed_elsewhere(tx, into_id)
        tx.session.expire_all()
        tx.connection.execute(Part.table.delete().where(Part.table.c.id == part_id))
        tx.subject = f"{was} into {is_now}"
    said = f"{was} is {is_now}; what was noted of it went along."
    return " ".join(filter(None, (said, folded.words, elsewhere)))


def another_alike(store: Store, part_id: int, like_id: int) -> str:
    """A thing is another one like the part ``like_id``: a spare of it, known from now on; returns that in words.

    Raises:
        BadEntry: it is the thing itself, or something ties the thing to another machine.
    """
    refuse_itself(part_id, like_id)
    with store.act(Act.BOX, "") as tx:
        thing, part = tx.get(Part, part_id, "part"), tx.get(Part, like_id, "part")
        if thing.machine_id != part.machine_id:
            follow_machine(tx, thing, part.machine_id)
        thing.spare_of_id, thing.identity = part.id, Identity.CONFIRMED
        last = select(func.max(Part.position)).where(
            Part.machine_id == part.machine_id, Part.subassembly_id.is_(part.subassembly_id)
        )
        thing.position = (tx.session.scalar(last) or 0) + 1
        thing.subassembly_id = part.subassembly_id
        said = f"{title(thing)} is another one like {title(part)}"
        tx.subject = said
    return f"{said}: a spare of it."


def _refuse_lying(tx: Tx, thing: Part, part: Part) -> None:
    """Raise AlreadyLies when the part lies in a place, and the thing not in the same."""
    there, here = open_stay(tx, part.id), open_stay(tx, thing.id)
    if there is None or there.place_id is None or (here is not None and here.place_id == there.place_id):
        return
    place = tx.get(Place, there.place_id, "place")
    raise AlreadyLies(
        f"lies in {place_words(place.kind, place.name)} already.",
        where="It is",
        value=title(part),
        way_out="Say whether this is the same one, or another alike.",
    )


def _fill(thing: Part, part: Part, was: str) -> None:
    for name in _FILLED:
        if not getattr(part, name) and getattr(thing, name):
            setattr(part, name, getattr(thing, name))
    known = {one.strip().casefold() for one in (part.name, *part.other_names.split(","))}
    if thing.name.casefold() not in known:
        part.other_names = ", ".join(filter(None, (part.other_names, thing.name)))
    part.note = "\n".join(filter(None, (part.note, f"Was noted as {was}.", thing.note)))
    if part.origin is Origin.MISSING:
        part.origin = Origin.ORIGINAL if thing.origin is Origin.UNKNOWN else thing.origin
    if part.identity in (Identity.UNKNOWN, Identity.SUSPECTED) and thing.identity is Identity.CONFIRMED:
        part.identity = Identity.CONFIRMED


def _drop_twice(tx: Tx, part_id: int, into_id: int) -> None:
    """What would say the same of the part twice afterwards: a photo that shows both, a removal of both."""
    for record, column in ((PhotoSubject, PhotoSubject.photo_id), (RemovalPart, RemovalPart.removal_id)):
        theirs = select(column).where(record.part_id == into_id)
        tx.session.execute(delete(record).where(record.part_id == part_id, column.in_(theirs)))
    sorted_there = select(Photo.id).where(Photo.part_id == into_id)
    tx.session.execute(
        delete(PhotoSubject).where(PhotoSubject.part_id == part_id, PhotoSubject.photo_id.in_(sorted_there))
    )
    tx.session.execute(
        update(Part).where(Part.id == into_id, Part.spare_of_id == part_id).values(spare_of_id=None)
    )


def _filed_elsewhere(tx: Tx, part_id: int) -> str:
    """The parts under which photos that show this one are filed, in a sentence; empty when there are none."""
    rows = tx.session.execute(
        select(Part)
        .join(Photo, Photo.part_id == Part.id)
        .join(PhotoSubject, PhotoSubject.photo_id == Photo.id)
        .where(PhotoSubject.part_id == part_id, Part.id != part_id)
        .order_by(Part.id)
    ).scalars()
    named = ", ".join(dict.fromkeys(title(part) for part in rows))
    return f"A photo of it is filed under {named}: P on the Photos page files it here." if named else ""


def _repoint(tx: Tx, part_id: int, into_id: int) -> None:
    """Every row of every table that names the thing names the part."""
    for table in whole().sorted_tables:
        for column in table.c:
            if any(key.column.table.name == "part" for key in column.foreign_keys):
                tx.connection.execute(table.update().where(column == part_id).values({column.name: into_id}))
