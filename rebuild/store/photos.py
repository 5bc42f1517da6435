"""Photos beside the project file, by content: add-only, named by their SHA-256, so a name never lies.

``engine.rebuild`` keeps its photos in ``engine photos/ab/abcd….jpg``; both are plain files.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.store.beside import written_beside


def photo_folder(project: Path) -> Path:
    """The folder of a project's photos."""
    return project.with_name(f"{project.stem} photos")


def photo_path(project: Path, sha256: str, ending: str) -> Path:
    """Where one photo lies."""
    return photo_folder(project) / sha256[:2] / f"{sha256}{ending}"


def put_photo(project: Path, content: bytes, ending: str) -> str:
    """Keep a photo's bytes and return their SHA-256; a photo already there is left as it is.

    The file is whole or not there: written beside, flushed to disk, then renamed.

    Raises:
        FileTrouble: the folder cannot be written.
    """
    sha256 = hashlib.sha256(content).hexdigest()
    target = photo_path(project, sha256, ending)
    if target.exists():
        return sha256
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        with written_beside(target) as part:
            part.write_bytes(content)
    except FileExistsError:  # another window was quicker
        return sha256
    except OSError as trouble:
        raise FileTrouble(
            f"the photo cannot be kept ({trouble.strerror}).",
            where=photo_folder(project).name,
            way_out="Free some space or see that the folder may be written; nothing was stored.",
        ) from trouble
    return sha256


def damaged_photos(project: Path, wanted: list[tuple[str, str]]) -> list[str]:
    """Which of ``(sha256, ending)`` are missing or no longer what their name says."""
    found = []
    for sha256, ending in wanted:
        path = photo_path(project, sha256, ending)
        if not path.exists():
            found.append(f"{path.name} is missing")
        elif hashlib.sha256(path.read_bytes()).hexdigest() != sha256:
            found.append(f"{path.name} has changed")
    return found
