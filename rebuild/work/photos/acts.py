"""Photos: sort to a part, subassembly or step, say what else they show, mark, put a camera's clock right."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import select

from rebuild.errors import BadEntry, FileTrouble
from rebuild.model.records.joints import Joint
from rebuild.model.records.log import Question
from rebuild.model.records.machines import Subassembly
from rebuild.model.records.parts import Part
from rebuild.model.records.photos import Camera, MarkPart, Photo, PhotoMark, PhotoSubject
from rebuild.model.records.steps import Task
from rebuild.model.records.surveys import Survey
from rebuild.model.records.teardown import Attempt, Removal
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.photos.clock import fast_by
from rebuild.words.counted import counted
from rebuild.words.photos import MarkKind
from rebuild.work.photos.about import About
from rebuild.work.photos.rules_pictures import ENDINGS
from rebuild.work.records.columns import title
from rebuild.work.records.fields import called


def sort_photos(store: Store, photo_ids: Sequence[int], about: About) -> None:
    """Say what photos are of (nothing: back to the inbox), in one act. Raises NotThere, BadEntry."""
    with store.act(Act.ATTACH_PHOTO, "") as tx:
        rows = [tx.get(Photo, key, "photo") for key in photo_ids]
        words = _refuse_other_machine(tx, rows, about)
        for row in rows:
            row.subassembly_id, row.part_id, row.task_id = about.subassembly_id, about.part_id, about.task_id
        tx.subject = f"{len(rows)} to {words}"


def sort_each(store: Store, pairs: Sequence[tuple[int, int]]) -> None:
    """Sort photos to a part each, in one act: (photo id, part id). Raises NotThere, BadEntry."""
    with store.act(Act.ATTACH_PHOTO, "") as tx:
        for key, part_id in pairs:
            row = tx.get(Photo, key, "photo")
            _refuse_other_machine(tx, [row], About(part_id=part_id))
            row.part_id = part_id
        tx.subject = f"{len(pairs)} to what was in hand"


def _refuse_other_machine(tx: Tx, rows: Sequence[Photo], about: About) -> str:
    """The words for what photos go to. Raises BadEntry when it is of another machine."""
    found: list[Part | Task | Subassembly] = []
    if about.part_id is not None:
        found.append(tx.get(Part, about.part_id, "part"))
    if about.task_id is not None:
        found.append(tx.get(Task, about.task_id, "step"))
    if about.subassembly_id is not None:
        found.append(tx.get(Subassembly, about.subassembly_id, "subassembly"))
    for record in found:
        if any(row.machine_id != record.machine_id for row in rows):
            raise BadEntry(
                "belongs to another machine.",
                where="Photo of",
                value=title(record),
                way_out="Choose that machine first.",
            )
    return title(found[0]) if found else "the inbox"


def mark_photo(
    store: Store,
    photo_id: int,
    kind: MarkKind,
    start: tuple[float, float],
    end: tuple[float, float],
    text: str = "",
    part_id: int | None = None,
) -> int:
    """Draw a mark on a photo, places as shares of its width and height; returns its id.

    It may name a part, which the photo then shows.

    Raises:
        BadEntry: off the picture, a label without words or part, a part of another machine.
    """
    if not all(0 <= value <= 1 for value in (*start, *end)):
        raise BadEntry("lies off the picture.", where="Mark", way_out="Draw it on the picture.")
    wordless = not text.strip() and (part_id is None or kind is MarkKind.MATCH_MARK)
    if kind in (MarkKind.LABEL, MarkKind.MATCH_MARK) and wordless:
        raise BadEntry(
            "is empty.", where="Words", way_out="Type what the mark says, e.g. 1-1 or oil hole up."
        )
    with store.act(Act.MARK_PHOTO, "") as tx:
        photo = tx.get(Photo, photo_id, "photo")
        row = PhotoMark(
            photo_id=photo_id, kind=kind, x=start[0], y=start[1], x2=end[0], y2=end[1], text=text.strip()
        )
        tx.session.add(row)
        tx.session.flush()
        named = _name(tx, photo, row, part_id) if part_id is not None else ""
        tx.subject = " ".join(filter(None, (kind.value, text.strip(), named, "on", photo.file_name)))
        return row.id


def name_mark(store: Store, mark_id: int, part_id: int | None) -> None:
    """Say which part a mark names, or that it names none. Raises NotThere, BadEntry."""
    with store.act(Act.NAME_ON_MARK, "") as tx:
        mark = tx.get(PhotoMark, mark_id, "mark")
        photo = tx.get(Photo, mark.photo_id, "photo")
        for row in tx.session.scalars(select(MarkPart).where(MarkPart.mark_id == mark_id)).all():
            tx.session.delete(row)
        tx.session.flush()
        named = _name(tx, photo, mark, part_id) if part_id is not None else "nothing"
        tx.subject = f"{named} on {photo.file_name}"


def _name(tx: Tx, photo: Photo, mark: PhotoMark, part_id: int) -> str:
    """Bind a mark to a part and let the photo show it; what the part is called. Raises BadEntry."""
    put_on(tx, [photo.id], Shows("part", part_id))
    tx.session.add(MarkPart(mark_id=mark.id, part_id=part_id))
    return title(tx.get(Part, part_id, "part"))


def photos_in(folder: Path) -> list[Path]:
    """The photo files of a folder and what lies in it, by name. Raises FileTrouble."""
    if not folder.is_dir():
        raise FileTrouble("is not a folder.", where=folder.name, way_out="Choose the folder with the photos.")
    return sorted(path for path in folder.rglob("*") if path.suffix.lower() in ENDINGS)


@dataclass(frozen=True, slots=True)
class Shows:
    """One thing a photo shows: its record, a key of ``SHOWN``, and its row."""

    record: str
    id: int


#: What a photo can show besides what it is sorted to, by record.
SHOWN: dict[str, type[Part | Removal | Task | Joint | Survey | Question]] = {
    "part": Part, "removal": Removal, "task": Task, "joint": Joint, "survey": Survey, "question": Question,
}  # fmt: skip


def show_on(store: Store, photo_ids: Sequence[int], record: str, row_id: int) -> int:
    """Say that photos show one thing more, in one act; returns how many did not show it before.

    Raises:
        NotThere: a photo or the thing was removed.
        BadEntry: it is of another machine.
    """
    with store.act(Act.SHOW_ON_PHOTO, "") as tx:
        new = put_on(tx, photo_ids, Shows(record, row_id))
        thing = tx.get(SHOWN[record], row_id, called(record))
        tx.subject = f"{title(thing)} on {counted(len(photo_ids), 'photo')}"
    return new


def put_on(tx: Tx, photo_ids: Sequence[int], shows: Shows) -> int:
    """Within an act: photos show one thing more; how many did not before. Raises NotThere, BadEntry."""
    column = f"{shows.record}_id"
    thing = tx.get(SHOWN[shows.record], shows.id, called(shows.record))
    new = 0
    for key in photo_ids:
        photo = tx.get(Photo, key, "photo")
        _refuse_elsewhere(tx, photo, thing)
        asked = select(PhotoSubject.id).where(
            PhotoSubject.photo_id == key, getattr(PhotoSubject, column) == shows.id
        )
        if tx.session.scalar(asked) is None and getattr(photo, column, None) != shows.id:
            tx.session.add(PhotoSubject(photo_id=key, **{column: shows.id}))
            new += 1
    return new


def take_off(store: Store, photo_ids: Sequence[int], record: str, row_id: int) -> None:
    """Say that photos do not show a thing after all, in one act. Raises NotThere."""
    column = f"{record}_id"
    with store.act(Act.SHOW_ON_PHOTO, "") as tx:
        for key in photo_ids:
            photo = tx.get(Photo, key, "photo")
            if column in ("part_id", "task_id") and getattr(photo, column) == row_id:
                setattr(photo, column, None)
            rows = tx.session.scalars(
                select(PhotoSubject).where(
                    PhotoSubject.photo_id == key, getattr(PhotoSubject, column) == row_id
                )
            )
            for row in rows.all():
                tx.session.delete(row)
        tx.subject = f"{called(record)} off {counted(len(photo_ids), 'photo')}"


def _refuse_elsewhere(tx: Tx, photo: Photo, thing: Part | Removal | Task | Joint | Survey | Question) -> None:
    machine = (
        tx.get(Attempt, thing.attempt_id, "attempt").machine_id
        if isinstance(thing, Removal)
        else thing.machine_id
    )
    if machine != photo.machine_id:
        raise BadEntry(
            "belongs to another machine.",
            where="Photo of",
            value=title(thing),
            way_out="Choose that machine first.",
        )


def set_camera(store: Store, photo_id: int, shop: dt.datetime, *, to_the_minute: bool = False) -> float:
    """Put a camera's clock right from one photo whose time is known; returns the seconds it is ahead.

    Every photo of that camera is held against the shop's clock from then on; none is changed. A time known only
    ``to_the_minute`` keeps the photo's own seconds.

    Raises:
        BadEntry: the photo carries no date.
        OutOfRange: the two times are no clock apart.
    """
    with store.act(Act.SET_CAMERA, "") as tx:
        photo = tx.get(Photo, photo_id, "photo")
        if photo.taken_at is None:
            raise BadEntry(
                "carries no date of its camera.",
                where="Photo",
                value=photo.file_name,
                way_out="Take another photo of the same camera.",
            )
        name = photo.camera or ""
        if to_the_minute:
            shop = shop.replace(second=photo.taken_at.second)
        ahead = fast_by(photo.taken_at, shop)
        row = tx.session.scalar(select(Camera).where(Camera.name == name))
        if row is None:
            row = Camera(name=name)
            tx.session.add(row)
        row.fast_s = ahead
        tx.subject = name or "camera without a name"
    return ahead
