"""Take photos in: each file read by itself, on any thread; then all of them noted in one act, filed by their tags."""

from __future__ import annotations

import io
import warnings
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from sqlalchemy import select

from rebuild.errors import BadEntry, NotThere
from rebuild.model.records.machines import Machine
from rebuild.model.records.photos import Photo, PhotoSubject
from rebuild.store.act import Act
from rebuild.store.photos import put_photo
from rebuild.store.store import Store, Tx
from rebuild.trade.labels.code import Tagged
from rebuild.trade.photos.runs import Shot, filed
from rebuild.words.photos import PhotoPhase
from rebuild.work.labels.rows import Meant, code_meant
from rebuild.work.photos.about import NOTHING, About
from rebuild.work.photos.acts import Shows, put_on
from rebuild.work.photos.codes import codes_on
from rebuild.work.photos.rules_pictures import DAMAGE, Picture, formats_of, read_picture


@dataclass(frozen=True, slots=True)
class Kept:
    """One file read and kept beside the project, not yet noted: its hash, what it is, the codes seen on it."""

    sha256: str
    picture: Picture
    codes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TakenIn:
    """What came of taking photos in: ids of new ones, ids of those that were there, sentences of refused files.

    ``said`` are sentences about photos that were taken in, but are not whole, or carry a tag that says nothing
    here. ``filed`` counts those that filed themselves by a tag.
    """

    added: tuple[int, ...]
    already: tuple[int, ...]
    refused: tuple[str, ...]
    said: tuple[str, ...] = ()
    filed: int = 0


def keep(project: Path, path: Path) -> Kept:
    """Read one file and keep its bytes beside the project. Nothing is noted: it may run on any thread.

    Raises:
        BadEntry: it is no photo.
        FileTrouble: the photo folder cannot be written.
    """
    picture = read_picture(path)
    sha256 = put_photo(project, picture.content, picture.ending)
    codes = _codes(picture.content)
    return Kept(sha256, replace(picture, content=b""), codes)  # a hundred photos must not stay in memory


def _codes(content: bytes) -> tuple[str, ...]:
    """The tags on a picture; a damaged one is a photo all the same, and has none."""
    from PIL import Image

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(io.BytesIO(content), formats=formats_of(content)) as image:
                return codes_on(image)
    except DAMAGE:
        return ()


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
    kept: list[Kept] = []
    refused: list[str] = []
    for path in paths:
        try:
            kept.append(keep(store.path, path))
        except BadEntry as trouble:
            refused.append(str(trouble))
    return note(store, machine_id, kept, about, phase, refused)


def note(
    store: Store,
    machine_id: int,
    kept: Sequence[Kept],
    about: About | None = None,
    phase: PhotoPhase = PhotoPhase.AS_FOUND,
    refused: Sequence[str] = (),
    shows: Shows | None = None,
) -> TakenIn:
    """Note photos kept before, in one act. A photo of a tag, and those after it, go to the tag's part.

    With ``shows`` each of them, also one that was there before, shows that thing.
    """
    said = [_CUT.format(one.picture.file_name) for one in kept if one.picture.cut]
    added: list[int] = []
    already: list[int] = []
    with store.act(Act.ADD_PHOTOS, "") as tx:
        tx.get(Machine, machine_id, "machine")
        shown = _by_tags(tx, machine_id, kept, said)
        rows = tx.session.execute(select(Photo.sha256, Photo.id).where(Photo.machine_id == machine_id))
        there = {row.sha256: row.id for row in rows}
        new: dict[str, tuple[Photo, tuple[int, ...]]] = {}
        twice: list[str] = []
        by_tag = 0
        for one, parts in zip(kept, shown, strict=True):
            if one.sha256 in there:
                already.append(there[one.sha256])
            elif one.sha256 in new:
                twice.append(one.sha256)
            else:
                where = about or (About(part_id=parts[0]) if parts else NOTHING)
                row = _row(machine_id, one, where, phase)
                new[one.sha256] = (row, parts[1:] if about is None else parts)
                by_tag += bool(parts)
        tx.session.add_all(row for row, _more in new.values())
        tx.session.flush()  # all at once: five hundred photos are one statement, not five hundred
        added += [row.id for row, _more in new.values()]
        already += [new[sha256][0].id for sha256 in twice]
        tx.session.add_all(
            PhotoSubject(photo_id=row.id, part_id=part) for row, more in new.values() for part in more
        )
        if shows is not None:
            put_on(tx, [*added, *already], shows)
        tx.subject = f"taken in: {len(added)}"
    return TakenIn(tuple(added), tuple(already), tuple(refused), tuple(said), by_tag)


_CUT = "Photo: “{}” is cut short; what there is of it was taken in. Copy it from the camera again."


def _row(machine_id: int, one: Kept, where: About, phase: PhotoPhase) -> Photo:
    picture = one.picture
    return Photo(
        machine_id=machine_id,
        subassembly_id=where.subassembly_id,
        part_id=where.part_id,
        task_id=where.task_id,
        sha256=one.sha256,
        ending=picture.ending,
        file_name=picture.file_name,
        width=picture.width,
        height=picture.height,
        taken_at=picture.taken_at,
        note=picture.note(),
        phase=phase,
        camera=picture.camera or None,
    )


def _by_tags(tx: Tx, machine_id: int, kept: Sequence[Kept], said: list[str]) -> list[tuple[int, ...]]:
    """The parts each photo shows by the tags on it or before it; what a tag cannot say goes to ``said``."""
    shots: list[Shot[int]] = []
    for one in kept:
        meant = [_meant(tx, code, one.picture.file_name, said) for code in one.codes]
        parts = [
            found.id
            for found in meant
            if found is not None and found.sort is Tagged.PART and found.machine_id == machine_id
        ]
        said += [
            f"Photo: “{one.picture.file_name}” has the tag of {found.called}, which is of another machine; "
            "it went to the inbox."
            for found in meant
            if found is not None and found.sort is Tagged.PART and found.machine_id != machine_id
        ]
        picture = one.picture
        shots.append(Shot(picture.camera, picture.taken_at, picture.file_name, tuple(parts)))
    return filed(shots)


def _meant(tx: Tx, code: str, file_name: str, said: list[str]) -> Meant | None:
    try:
        return code_meant(tx.session.connection(), code)
    except (BadEntry, NotThere) as trouble:
        said.append(f"Photo: “{file_name}”: {trouble}")
        return None
