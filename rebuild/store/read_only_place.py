"""A project in a place that may only be read: what only reads it (check, summary, export, book) works all the same.

SQLite cannot open a file in WAL mode where it may not write beside it, and an older file is brought up to date
before it is read. So the file is copied to a folder of the system's for temporary files, with what still lies in
its ``-wal``, and a link leads to its photos.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.store.photos import photo_folder
from rebuild.store.recognise import recognise


@contextmanager
def readable(path: Path) -> Iterator[Path]:
    """The project itself where it may be written, else a passing copy of the same name.

    Raises:
        FileTrouble: no project, or there is no room for the copy.
    """
    recognise(path)
    if is_writable(path):
        yield path
        return
    with tempfile.TemporaryDirectory(prefix="rebuild-") as folder:
        yield _copied(path, Path(folder))


def is_writable(path: Path) -> bool:
    """Whether a project can be written: the file, and beside it."""
    at = path.resolve()
    effective = os.access in os.supports_effective_ids
    return all(os.access(place, os.W_OK, effective_ids=effective) for place in (at, at.parent))


def _copied(path: Path, folder: Path) -> Path:
    copy = folder / path.name
    wal = path.resolve().with_name(path.resolve().name + "-wal")
    try:
        shutil.copyfile(path, copy)
        if wal.is_file():
            shutil.copyfile(wal, copy.with_name(copy.name + "-wal"))
        photo_folder(copy).symlink_to(photo_folder(path).resolve(), target_is_directory=True)
    except OSError as trouble:
        raise FileTrouble(
            f"may not be written where it lies, and could not be copied to be read ({trouble.strerror}).",
            where=path.name,
            way_out="Copy it to a folder of your own.",
        ) from trouble
    return copy
