"""Photos and manuals beside the project file, by content: add-only, named by their SHA-256, so a name never lies.

``engine.rebuild`` keeps its photos in ``engine photos/ab/abcd….jpg``; both are plain files.
"""

from __future__ import annotations

import hashlib
import shutil
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.store.beside import written_beside
from rebuild.store.photo_names import is_photo_name
from rebuild.store.quoting import shown


def photo_folder(project: Path) -> Path:
    """The folder of a project's photos: beside the file itself, when its name is a link to it."""
    at = project.resolve() if project.is_symlink() else project
    return at.with_name(f"{at.stem} photos")


def photo_path(project: Path, sha256: str, ending: str) -> Path:
    """Where one photo lies.

    Raises:
        FileTrouble: the name is none that photos are kept under, and might lead out of the folder.
    """
    if not is_photo_name(sha256, ending):
        raise FileTrouble(
            "is no name a photo is kept under; nothing was read there.",
            where=photo_folder(project).name,
            value=shown(f"{sha256}{ending}"),
            way_out="Run “rebuild check” on the file.",
        )
    return photo_folder(project) / sha256[:2] / f"{sha256}{ending}"


def put_photo(project: Path, content: bytes, ending: str) -> str:
    """Keep a photo's bytes and return their SHA-256; one already there is left, unless it no longer is what it was.

    The file is whole or not there: written beside, flushed to disk, then renamed.

    Raises:
        FileTrouble: the folder cannot be written.
    """
    sha256 = hashlib.sha256(content).hexdigest()
    target = photo_path(project, sha256, ending)
    try:
        if _is_whole(target, sha256):
            return sha256
        target.parent.mkdir(parents=True, exist_ok=True)
        with written_beside(target, over=True) as part:
            part.write_bytes(content)
    except OSError as trouble:
        raise FileTrouble(
            f"the photo cannot be kept ({trouble.strerror}).",
            where=photo_folder(project).name,
            way_out="Free some space or see that the folder may be written; nothing was stored.",
        ) from trouble
    return sha256


def put_file(project: Path, source: Path, ending: str) -> str:
    """Keep a large file as ``put_photo`` keeps bytes, copied without being held in memory; returns its SHA-256.

    Raises:
        FileTrouble: it cannot be read, the folder cannot be written, or the file changed while it was copied.
    """
    try:
        sha256 = hash_of(source)
        target = photo_path(project, sha256, ending)
        if not _is_whole(target, sha256):
            target.parent.mkdir(parents=True, exist_ok=True)
            with written_beside(target, over=True) as part:
                shutil.copyfile(source, part)
                if hash_of(part) != sha256:
                    raise OSError(0, "it changed while it was copied")
    except OSError as trouble:
        raise FileTrouble(
            f"cannot be kept ({trouble.strerror}).",
            where=photo_folder(project).name,
            value=shown(source.name),
            way_out="See that the file can be read and the folder written, and that there is room; nothing was stored.",
        ) from trouble
    return sha256


def hash_of(path: Path) -> str:
    """The SHA-256 of a file, read piece by piece. Raises OSError."""
    if not path.is_file():  # a pipe would be waited for
        raise OSError(0, "it is no ordinary file")
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _is_whole(target: Path, sha256: str) -> bool:
    """Whether the photo lies there as its name says. Raises OSError."""
    return target.is_file() and hash_of(target) == sha256


def damaged_photos(project: Path, wanted: list[tuple[str, str]]) -> list[str]:
    """Which of ``(sha256, ending)`` are missing or no longer what their name says."""
    found = []
    for sha256, ending in wanted:
        if not is_photo_name(sha256, ending):
            found.append(f"{shown(f'{sha256}{ending}')} is no name a photo is kept under")
            continue
        path = photo_path(project, sha256, ending)
        if not path.is_file():
            found.append(f"{path.name} is missing")
        elif hash_of(path) != sha256:
            found.append(f"{path.name} has changed")
    return found
