"""Photos: take in, sort to a part, subassembly or step, mark."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from sqlalchemy import select

from rebuild.errors import BadEntry, FileTrouble
from rebuild.model.records.machines import Machine, Subassembly
from rebuild.model.records.parts import Part
from rebuild.model.records.photos import Photo, PhotoMark
from rebuild.model.records.steps import Task
from rebuild.store.act import Act
from rebuild.store.photos import put_photo
from rebuild.store.store import Store, Tx
from rebuild.words.photos import MarkKind, PhotoPhase
from rebuild.work.photos.rules_pictures import Picture, read_picture
from rebuild.work.records.columns import title

ENDINGS = (".jpg", ".jpeg", ".png", ".webp", ".tif", ".tiff", ".bmp")


@dataclass(frozen=True, slots=True)
class About:
    """What a photo is of; all empty puts it into the inbox."""

    subassembly_id: int | None = None
    part_id: int | None = None
    task_id: int | None = None


@dataclass(frozen=True, slots=True)
class TakenIn:
    """What came of taking photos in: ids of new ones, ids of those that were there, sentences of refused files.

    ``said`` are sentences about photos that were taken in, but are not whole.
    """

    added: tuple[int, ...]
    already: tuple[int, ...]
    refused: tuple[str, ...]
    said: tuple[str, ...] = ()


def take_in(
    store: Store,
    machine_id: int,
    paths: Sequence[Path],
    about: About | None = None,
    phase: PhotoPhase = PhotoPhase.AS_FOUND,
) -> TakenIn:
    """Copy photos into the project and note them, in one act. A file that is no photo is refused with a sentence.

    Raises:
        FileTrouble: the photo folder cannot be written; nothing is noted.
    """
    pictures: list[tuple[str, Picture]] = []
    refused, said = [], []
    for path in paths:
        try:
            picture = read_picture(path)
        except BadEntry as trouble:
            refused.append(str(trouble))
            continue
        pictures.append((put_photo(store.path, picture.content, picture.ending), _light(picture)))
        if picture.cut:
            said.append(_CUT.format(picture.file_name))
    added, already = [], []
    where = about or About()
    with store.act(Act.ADD_PHOTOS, "") as tx:
        tx.get(Machine, machine_id, "machine")
        for sha256, picture in pictures:
            there = tx.session.scalar(
                select(Photo.id).where(Photo.machine_id == machine_id, Photo.sha256 == sha256)
            )
            if there is not None:
                already.append(there)
                continue
            row = Photo(
                machine_id=machine_id,
                subassembly_id=where.subassembly_id,
                part_id=where.part_id,
                task_id=where.task_id,
                sha256=sha256,
                ending=picture.ending,
                file_name=picture.file_name,
                width=picture.width,
                height=picture.height,
                taken_at=picture.taken_at,
                note=picture.note(),
                phase=phase,
            )
            tx.session.add(row)
            tx.session.flush()
            added.append(row.id)
        tx.subject = f"{len(added)} taken in"
    return TakenIn(tuple(added), tuple(already), tuple(refused), tuple(said))


_CUT = "Photo: “{}” is cut short; what there is of it was taken in. Copy it from the camera again."


def _light(picture: Picture) -> Picture:
    """The same without its bytes: a drop of a hundred photos must not stay in memory."""
    return replace(picture, content=b"")


def sort_photos(store: Store, photo_ids: Sequence[int], about: About) -> None:
    """Say what photos are of (nothing: back to the inbox), in one act. Raises NotThere, BadEntry."""
    with store.act(Act.ATTACH_PHOTO, "") as tx:
        rows = [tx.get(Photo, key, "photo") for key in photo_ids]
        words = _refuse_other_machine(tx, rows, about)
        for row in rows:
            row.subassembly_id, row.part_id, row.task_id = about.subassembly_id, about.part_id, about.task_id
        tx.subject = f"{len(rows)} to {words}"


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
) -> int:
    """Draw a mark on a photo, places as shares of its width and height; returns its id.

    Raises:
        BadEntry: off the picture, or a label without words.
    """
    if not all(0 <= value <= 1 for value in (*start, *end)):
        raise BadEntry("lies off the picture.", where="Mark", way_out="Draw it on the picture.")
    if kind in (MarkKind.LABEL, MarkKind.MATCH_MARK) and not text.strip():
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
        tx.subject = " ".join(filter(None, (kind.value, text.strip(), "on", photo.file_name)))
        return row.id


def photos_in(folder: Path) -> list[Path]:
    """The photo files of a folder and what lies in it, by name. Raises FileTrouble."""
    if not folder.is_dir():
        raise FileTrouble("is not a folder.", where=folder.name, way_out="Choose the folder with the photos.")
    return sorted(path for path in folder.rglob("*") if path.suffix.lower() in ENDINGS)
