"""What goes along, inside an act, when a thing turns out to be of another machine of the shop."""

from __future__ import annotations

from sqlalchemy import delete, func, or_, select, update

from rebuild.errors import BadEntry
from rebuild.model.records.controls import Control
from rebuild.model.records.documents import CallOut
from rebuild.model.records.features import Feature
from rebuild.model.records.fits import Fit
from rebuild.model.records.joints import Joint
from rebuild.model.records.log import Question
from rebuild.model.records.lubrication import OilPoint
from rebuild.model.records.parts import Part
from rebuild.model.records.photos import MarkPart, Photo, PhotoMark, PhotoSubject
from rebuild.model.records.steps import ConstraintPart, Task
from rebuild.model.records.surveys import Survey
from rebuild.model.records.teardown import RemovalPart
from rebuild.model.records.waiting import Clock, Waiting
from rebuild.store.tx import Tx
from rebuild.work.records.columns import columns_of, title

#: What ties a part to its machine: with one of these it can be of no other.
_TIES = (
    (Task, "a step"), (ConstraintPart, "a constraint"), (Joint, "a joint"), (OilPoint, "an oil point"),
    (Survey, "a survey"), (Control, "a control"), (RemovalPart, "a line of the removal log"),
)  # fmt: skip


def follow_machine(tx: Tx, part: Part, machine_id: int) -> None:
    """A loose part goes to another machine, with its photos, questions, orders and clocks.

    Raises:
        BadEntry: something ties it to the machine it is at.
    """
    refuse_tied(tx, part)
    _photos(tx, part, machine_id)
    own: list[Question | Waiting | Clock] = []
    own += tx.session.scalars(select(Question).where(Question.part_id == part.id)).all()
    own += tx.session.scalars(select(Waiting).where(Waiting.part_id == part.id)).all()
    own += tx.session.scalars(select(Clock).where(Clock.part_id == part.id)).all()
    for row in own:
        row.machine_id, row.subassembly_id = machine_id, None
        if isinstance(row, Question):
            row.task_id = None
    for mark in tx.session.scalars(select(CallOut).where(CallOut.part_id == part.id)).all():
        mark.text = mark.text or title(
            part
        )  # the manual is the other machine's: the words stay, the tie goes
        mark.part_id = mark.feature_id = None
    part.machine_id, part.subassembly_id, part.matched_set_id = machine_id, None, None
    tx.session.flush()


def refuse_tied(tx: Tx, part: Part) -> None:
    """Raise BadEntry when something of one machine holds on to a part."""
    held = [
        words
        for record, words in _TIES
        if tx.session.scalar(select(func.count()).select_from(record).where(record.part_id == part.id))
    ]
    own = select(Feature.id).where(Feature.part_id == part.id)
    fits = select(Fit.id).where(or_(Fit.outer_id.in_(own), Fit.inner_id.in_(own), Fit.gap_id.in_(own)))
    if tx.session.scalar(fits.limit(1)) is not None:
        held.append("a fit")
    if held:
        raise BadEntry(
            f"has {', '.join(held)} on the machine it is at.",
            where="Of machine",
            value=title(part),
            way_out="Remove that first, or leave the thing at that machine.",
        )


def _photos(tx: Tx, part: Part, machine_id: int) -> None:
    """Photos of it alone go along; of one that shows other things too, the other machine gets one of its own."""
    showing = select(PhotoSubject.photo_id).where(PhotoSubject.part_id == part.id)
    rows = tx.session.scalars(select(Photo).where(or_(Photo.part_id == part.id, Photo.id.in_(showing)))).all()
    for photo in rows:
        if _shows_more(tx, photo, part.id):
            _copy(tx, photo, part, machine_id)
        else:
            photo.machine_id, photo.subassembly_id = machine_id, None


def _shows_more(tx: Tx, photo: Photo, part_id: int) -> bool:
    others = select(PhotoSubject.id).where(
        PhotoSubject.photo_id == photo.id,
        or_(PhotoSubject.part_id.is_(None), PhotoSubject.part_id != part_id),
    )
    sorted_else = photo.part_id not in (None, part_id) or photo.task_id is not None
    return sorted_else or tx.session.scalar(others.limit(1)) is not None


def _copy(tx: Tx, photo: Photo, part: Part, machine_id: int) -> None:
    columns = columns_of(photo)
    columns |= {
        "id": None,
        "machine_id": machine_id,
        "subassembly_id": None,
        "task_id": None,
        "part_id": part.id,
    }
    tx.session.add(Photo(**columns))
    if photo.part_id == part.id:
        photo.part_id = None
    tx.session.flush()
    tx.session.execute(
        delete(PhotoSubject).where(PhotoSubject.photo_id == photo.id, PhotoSubject.part_id == part.id)
    )
    here = select(PhotoMark.id).where(PhotoMark.photo_id == photo.id)
    named = select(MarkPart.mark_id).where(MarkPart.part_id == part.id, MarkPart.mark_id.in_(here))
    tx.session.execute(
        update(PhotoMark).where(PhotoMark.id.in_(named), PhotoMark.text == "").values(text=title(part))
    )
    tx.session.execute(delete(MarkPart).where(MarkPart.part_id == part.id, MarkPart.mark_id.in_(here)))
