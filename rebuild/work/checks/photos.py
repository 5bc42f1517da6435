"""The part of ``rebuild check`` that looks beside the file: every photo must be there and be what its name says."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from pathlib import Path

from rebuild.store.check import named
from rebuild.store.file_tables import tables_of
from rebuild.store.photos import damaged_photos, photo_folder


def photos(raw: sqlite3.Connection, path: Path) -> Iterator[str]:
    """Photos and manuals that are missing from the folder beside the file, or no longer read as they did."""
    there = tables_of(raw)
    if "photo" in there:
        yield from _of_photos(raw, path)
    if "document_page" in there:
        yield from _of_manuals(raw, path)


def _of_manuals(raw: sqlite3.Connection, path: Path) -> Iterator[str]:
    rows = raw.execute(
        "SELECT d.id, p.sha256, p.ending, d.name, MIN(p.number) FROM document_page AS p "
        "JOIN document AS d ON d.id = p.document_id GROUP BY d.id, p.sha256, p.ending ORDER BY d.id, 5"
    ).fetchall()
    for row, sha256, ending, name, number in rows:
        for sentence in damaged_photos(path, [(str(sha256), str(ending))]):
            yield (
                f"{named('document', row)} “{name}”, page {number}: {sentence} in “{photo_folder(path).name}”. "
                "Copy that folder back from a backup, or take the manual in again."
            )


def _of_photos(raw: sqlite3.Connection, path: Path) -> Iterator[str]:
    rows = raw.execute("SELECT id, sha256, ending, file_name FROM photo ORDER BY id")
    for row, sha256, ending, file_name in rows:
        for sentence in damaged_photos(path, [(str(sha256), str(ending))]):
            yield (
                f"{named('photo', row)} “{file_name}”: {sentence} in “{photo_folder(path).name}”. "
                "Copy that folder back from a backup, or take the photo in again."
            )
