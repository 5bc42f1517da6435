"""The part of ``rebuild check`` that looks beside the file: every photo must be there and be what its name says."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from pathlib import Path

from rebuild.store.check import named, tables_of
from rebuild.store.photos import damaged_photos, photo_folder


def photos(raw: sqlite3.Connection, path: Path) -> Iterator[str]:
    """Photos that are missing from the folder beside the file, or no longer read as they did."""
    if "photo" not in tables_of(raw):
        return
    rows = raw.execute("SELECT id, sha256, ending, file_name FROM photo ORDER BY id")
    for row, sha256, ending, file_name in rows:
        for sentence in damaged_photos(path, [(str(sha256), str(ending))]):
            yield (
                f"{named('photo', row)} “{file_name}”: {sentence} in “{photo_folder(path).name}”. "
                "Copy that folder back from a backup, or take the photo in again."
            )
