"""Photos carried along when a project is copied or renamed: each copy is read back and compared by its hash."""

from __future__ import annotations

import hashlib
import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.store.backup import backup
from rebuild.store.connect import read_only
from rebuild.store.photo_names import is_photo_name
from rebuild.store.photos import damaged_photos, photo_folder, photo_path


@dataclass(frozen=True, slots=True)
class Kept:
    """A backup: where it lies, how many photos went with it, and sentences about photos that could not."""

    path: Path
    photos: int
    troubles: tuple[str, ...]


def wanted_photos(path: Path) -> tuple[tuple[str, str], ...]:
    """Hash and ending of every photo a project names, each once; none in a file older than photos.

    A name that might lead out of the folder is none: ``rebuild check`` says it.
    """
    with closing(read_only(path)) as raw:
        there = raw.execute("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'photo'").fetchone()
        if there is None:
            return ()
        raw.text_factory = lambda found: found.decode(errors="replace")  # a bad one is no photo's name
        rows = raw.execute("SELECT DISTINCT sha256, ending FROM photo ORDER BY sha256, ending").fetchall()
    return tuple(pair for pair in rows if is_photo_name(*pair))


def backup_with_photos(path: Path, *, to: Path | None = None) -> Kept:
    """A verified copy of a project with its photos in the folder the copy would look in.

    A photo that is missing or damaged already is said and left behind; everything else is copied and read back.

    Raises:
        FileTrouble: the copy or a photo cannot be written or does not verify; then none is left behind.
    """
    target = backup(path, to=to)
    folder = photo_folder(target)
    ours = not folder.exists()
    try:
        wanted = wanted_photos(target)
        bad = {pair for pair in wanted if damaged_photos(path, [pair])}
        copied = copy_photos(path, target, [pair for pair in wanted if pair not in bad])
    except (OSError, sqlite3.Error) as trouble:
        target.unlink(missing_ok=True)
        if ours:
            shutil.rmtree(folder, ignore_errors=True)
        raise FileTrouble(
            f"the photos could not be copied ({trouble}); nothing was kept.",
            where=folder.name,
            way_out="Free some space or choose another folder.",
        ) from trouble
    troubles = tuple(
        f"{photo_folder(path).name}: the photo {sentence}; it is not in the backup."
        for pair in sorted(bad)
        for sentence in damaged_photos(path, [pair])
    )
    return Kept(target, copied, troubles)


def copy_photos(project: Path, other: Path, wanted: Iterable[tuple[str, str]]) -> int:
    """Copy photos from one project's folder to another's, each verified; returns how many are there now.

    Raises:
        OSError: one cannot be copied, or does not read back as it was.
    """
    count = 0
    for sha256, ending in wanted:
        target = photo_path(other, sha256, ending)
        if not target.exists():
            _copy_one(photo_path(project, sha256, ending), target)
        if hashlib.sha256(target.read_bytes()).hexdigest() != sha256:
            raise OSError(f"the copy of {target.name} does not read back as it was")
        count += 1
    return count


def _copy_one(source: Path, target: Path) -> None:
    """Whole or not there: written beside, flushed to disk, renamed."""
    target.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=target.parent, suffix=".part")
    try:
        with os.fdopen(handle, "wb") as copy, source.open("rb") as original:
            shutil.copyfileobj(original, copy)
            copy.flush()
            os.fsync(copy.fileno())
        Path(name).replace(target)
    except OSError:
        Path(name).unlink(missing_ok=True)
        raise


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
