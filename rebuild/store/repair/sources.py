"""Where rows can come from: the damaged file with its ``-wal``, the file alone, and the backups beside it.

Every source is a copy in a passing folder: what is damaged is never written to, not even by SQLite's own recovery.
"""

from __future__ import annotations

import shutil
import sqlite3
import struct
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Self

from rebuild.errors import FileTrouble, RebuildError
from rebuild.store import schema
from rebuild.store.recognise import APPLICATION_ID, recognise
from rebuild.store.repair.salvage import tolerant

_PAGE = 4096


@dataclass(frozen=True, slots=True)
class Source:
    """A copy to read from and what it is a copy of, in words."""

    copy: Path
    words: str


def sources_of(path: Path, folder: Path) -> list[Source]:
    """Copies of all that may hold something, best first. Raises FileTrouble when there is nothing to copy."""
    if not path.is_file():
        raise FileTrouble(
            "there is no such file.", where=path.name, way_out="Choose the damaged file itself."
        )
    at = path.resolve()
    wal = at.with_name(at.name + "-wal")
    made: list[Source] = []
    try:
        if wal.is_file() and wal.stat().st_size:
            made.append(_copied(at, folder / "with wal.rebuild", "the file with its -wal"))
            shutil.copyfile(wal, folder / "with wal.rebuild-wal")
        made.append(_copied(at, folder / "alone.rebuild", "the file"))
        for number, backup in enumerate(_backups(at)):
            made.append(_copied(backup, folder / f"backup {number}.rebuild", f"“{backup.name}”"))
    except OSError as trouble:
        raise FileTrouble(
            f"cannot be copied to be read ({trouble.strerror}).",
            where=path.name,
            way_out="Copy what can be copied to another disk first.",
        ) from trouble
    return made


def _backups(path: Path) -> list[Path]:
    """The backups beside a file, newest first."""
    found = [each for each in path.parent.glob("*.rebuild") if each.name.startswith(f"{path.stem} backup ")]
    return sorted(found, key=lambda each: each.stat().st_mtime, reverse=True)


def _copied(path: Path, copy: Path, words: str) -> Source:
    shutil.copyfile(path, copy)
    try:
        recognise(path)
    except RebuildError:
        _give_header(copy)
        words += ", its first hundred bytes put right"
    return Source(copy, words)


def _give_header(copy: Path) -> None:
    """The first 100 bytes of a file say what it is; when they are damaged they can be said again."""
    content = bytearray(copy.read_bytes())
    if len(content) < _PAGE:
        return
    pages = len(content) // _PAGE
    head = b"".join(
        (
            struct.pack(">16sHBBBBBB", b"SQLite format 3\0", _PAGE, 1, 1, 0, 64, 32, 32),
            struct.pack(">4I", 1, pages, 0, 0),  # change counter, pages, no free list
            struct.pack(">4I", 1, 4, 0, 0),  # schema cookie and format, cache size, no vacuum
            struct.pack(">4I", 1, 0, 0, APPLICATION_ID),  # UTF-8, user version, no incremental vacuum
            bytes(20),
            struct.pack(
                ">2I", 1, 3_040_001
            ),  # the change counter the page count is valid for, SQLite's version
        )
    )
    content[:100] = head
    copy.write_bytes(bytes(content[: pages * _PAGE]))


def opened(source: Source) -> sqlite3.Connection:
    """A connection to a source that reads as far as it can: odd schemas and odd texts do not stop it."""
    raw = sqlite3.connect(source.copy, isolation_level=None)
    raw.execute("PRAGMA trusted_schema = OFF")
    raw.execute(
        "PRAGMA writable_schema = ON"
    )  # SQLite then reads files cut short and schemas that do not parse
    tolerant(raw)
    return raw


class Opened:
    """One connection to each source, as long as all it was asked could be read: SQLite reads the table of contents
    of a file anew on each, which takes longer than most tables do.
    """

    def __init__(self) -> None:
        self._held: dict[Source, sqlite3.Connection] = {}

    def of(self, source: Source) -> sqlite3.Connection:
        """The connection to a source."""
        if source not in self._held:
            self._held[source] = opened(source)
        return self._held[source]

    def anew(self, source: Source) -> None:
        """What stumbled over something is not asked for the next table."""
        self._held.pop(source).close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_error: object) -> None:
        while self._held:
            self._held.popitem()[1].close()


def revision_in(sources: list[Source]) -> str:
    """The schema revision of the first source that says one this program knows; the newest when none does."""
    return next(_revisions(sources), schema.HEAD)


def _revisions(sources: list[Source]) -> Iterator[str]:
    for source in sources:
        with closing(opened(source)) as raw:
            try:
                row = raw.execute("SELECT version_num FROM alembic_version").fetchone()
            except (sqlite3.Error, UnicodeDecodeError):
                continue
        if row is not None and row[0] in schema.known_revisions():
            yield str(row[0])
