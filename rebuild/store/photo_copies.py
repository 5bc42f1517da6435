"""Photos carried along when a project is copied or renamed: each copy is read back and compared by its hash."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Callable, Collection, Iterator
from contextlib import AbstractContextManager, closing, contextmanager, nullcontext
from dataclasses import dataclass
from pathlib import Path

from rebuild.store.backup import Stop, copy_of, free_name, opened_for
from rebuild.store.beside import Tell, flush, part_of, unheard, written_beside
from rebuild.store.connect import read_only
from rebuild.store.photo_names import is_photo_name
from rebuild.store.photos import damaged_photos, hash_of, photo_folder, photo_path


@dataclass(frozen=True, slots=True)
class Kept:
    """A backup: where it lies, how many photos went with it, and sentences about photos that could not."""

    path: Path
    photos: int
    troubles: tuple[str, ...]


def wanted_photos(path: Path) -> tuple[tuple[str, str], ...]:
    """Hash and ending of every photo and manual a project names, each once; none in a file older than photos.

    A name that might lead out of the folder is none: ``rebuild check`` says it.
    """
    with closing(read_only(path)) as raw:
        listed = raw.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
        there = [name for name in NAME_FILES if (name,) in listed]
        raw.text_factory = lambda found: found.decode(errors="replace")  # a bad one is no photo's name
        rows = {pair for name in there for pair in raw.execute(f"SELECT DISTINCT sha256, ending FROM {name}")}
    return tuple(sorted(pair for pair in rows if is_photo_name(*pair)))


#: Tables whose rows name a file of the folder by ``sha256`` and ``ending``.
NAME_FILES = ("photo", "document_page")


def backup_with_photos(path: Path, *, to: Path | None = None, tell: Tell = unheard) -> Kept:
    """A verified copy of a project with its photos in the folder the copy would look in.

    A photo that is missing or damaged already is said and left behind; everything else is copied and read back.
    The copy gets its name last, when its photos lie there: a backup under its own name is a whole one.

    Raises:
        FileTrouble: the copy or a photo cannot be written, does not verify, or was stopped; then none is left behind.
    """
    return copy_with_photos(opened_for(path), path, to or free_name(path), tell=tell)


def copy_with_photos(
    opened: AbstractContextManager[sqlite3.Connection], photos_of: Path, target: Path, *, tell: Tell = unheard
) -> Kept:
    """As ``backup_with_photos``, of what a connection sees, with the photos that lie beside ``photos_of``.

    Raises:
        FileTrouble: as ``backup_with_photos``.
    """
    folder = photo_folder(target)
    ours = not folder.exists()
    made: list[tuple[int, set[tuple[str, str]]]] = []

    def bring_photos(part: Path) -> None:
        wanted = wanted_photos(part)
        bad = {pair for pair in wanted if damaged_photos(photos_of, [pair])}
        whole = [pair for pair in wanted if pair not in bad]
        into = _named_when_whole(folder, part) if whole and ours else nullcontext(folder)
        with into as place:
            copied = copy_photos(photos_of, place, whole, lambda share: _on(tell, share))
        made.append((copied, bad))

    try:
        copy_of(opened, target, tell=lambda share, words: tell(0.7 * share, words), before_named=bring_photos)
    except BaseException:
        if ours and not target.exists():
            shutil.rmtree(folder, ignore_errors=True)
        raise
    _unmark(folder)
    copied, bad = made[0]
    troubles = tuple(
        f"{photo_folder(photos_of).name}: the photo {sentence}; it is not in the backup."
        for pair in sorted(bad)
        for sentence in damaged_photos(photos_of, [pair])
    )
    return Kept(target, copied, troubles)


def _on(tell: Tell, share: float) -> None:
    if not tell(0.7 + 0.3 * share, "Copying photos"):
        raise Stop


@contextmanager
def _named_when_whole(folder: Path, part: Path) -> Iterator[Path]:
    """A folder that is given the name ``folder`` when all of it is copied and flushed.

    Until the database beside it has its name too, a marker of the part file's name lies in it, so that a copy
    killed between the two renames is swept as a whole.
    """
    stand_in = part_of(folder)
    stand_in.mkdir()
    try:
        (stand_in / part.name).touch()
        yield stand_in
        for inner in stand_in.iterdir():
            if inner.is_dir():
                flush(inner)
        flush(stand_in)
        stand_in.rename(folder)
        flush(folder.parent)
    finally:
        shutil.rmtree(stand_in, ignore_errors=True)


def _unmark(folder: Path) -> None:
    for marker in folder.glob("*.part"):
        marker.unlink(missing_ok=True)


def copy_photos(
    project: Path,
    folder: Path,
    wanted: Collection[tuple[str, str]],
    heard: Callable[[float], None] = lambda _share: None,
) -> int:
    """Copy a project's photos to another photo folder, each verified; returns how many are there now.

    ``heard`` is told the share done and may raise to stop.

    Raises:
        OSError: one cannot be copied, or does not read back as it was.
    """
    for number, (sha256, ending) in enumerate(wanted):
        heard(number / len(wanted))
        original = photo_path(project, sha256, ending)
        target = folder / original.parent.name / original.name
        if not target.exists():
            _copy_one(original, target)
        if hash_of(target) != sha256:
            raise OSError(f"the copy of {target.name} does not read back as it was")
    return len(wanted)


def _copy_one(source: Path, target: Path) -> None:
    """Whole or not there: written beside, flushed to disk, renamed."""
    target.parent.mkdir(parents=True, exist_ok=True)
    with written_beside(target) as part:
        shutil.copyfile(source, part)


def move_photos(project: Path, other: Path) -> None:
    """Carry the photo folder along when a project gets another name; photos already there stay.

    Raises:
        OSError: a photo cannot be moved.
    """
    source = photo_folder(project)
    if not source.is_dir():
        return
    for path in sorted(source.rglob("*")):
        if path.is_file():
            target = photo_folder(other) / path.relative_to(source)
            target.parent.mkdir(parents=True, exist_ok=True)
            path.replace(target)
    shutil.rmtree(source, ignore_errors=True)


def follow(was: Path, now: Path) -> None:
    """Photos go along with a project that was renamed; when another file took its old name, both have them.

    Raises:
        OSError: one cannot be moved or copied.
    """
    if not photo_folder(was).is_dir() or photo_folder(now).exists():
        return
    if was.exists():
        sound = [pair for pair in wanted_photos(now) if not damaged_photos(was, [pair])]
        copy_photos(was, photo_folder(now), sound)
    else:
        move_photos(was, now)
