"""``rebuild repair``: a new, sound file from a damaged one, and the list of what was lost or mended on the way.

The new file is made by this program, so nothing of a stranger's comes along: only rows are copied, as values.
Each row comes from the file if it can be read there, else from the journal, else from the newest backup that has it.
"""

from __future__ import annotations

import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.store import schema
from rebuild.store.beside import flush, put_in_place
from rebuild.store.check import MOST, named, shortened
from rebuild.store.file_tables import columns_of
from rebuild.store.photo_copies import copy_photos, wanted_photos
from rebuild.store.photos import damaged_photos, photo_folder
from rebuild.store.repair import mend
from rebuild.store.repair.salvage import Salvaged, Value, overlap, salvage
from rebuild.store.repair.sources import Opened, Source, revision_in, sources_of
from rebuild.store.sqlite_words import explained, trouble_words


@dataclass(frozen=True, slots=True)
class Repaired:
    """The new file, how many rows and photos it holds, and sentences about what could not be saved as it was."""

    path: Path
    rows: int
    photos: int
    said: tuple[str, ...]


#: How every SQLite file begins.
MAGIC = b"SQLite format 3\x00"


def repair(path: Path, to: Path | None = None) -> Repaired:
    """Make a sound file from what can be read of ``path``, its ``-wal`` and its backups. ``path`` is only read.

    Raises:
        FileTrouble: nothing to read, a file of the new name is there, or it cannot be written.
    """
    target = to or _free_name(path)
    if target.exists():
        raise FileTrouble(
            "a file of that name is already there.", where=target.name, way_out="Choose another name."
        )
    part = target.with_name(f"{target.name}.part")
    part.unlink(missing_ok=True)
    try:
        with tempfile.TemporaryDirectory(prefix="rebuild-") as folder, explained(target):
            sources = sources_of(path, Path(folder))
            schema.create(part, revision_in(sources))
            said = _filled(part, sources)
            schema.upgrade_in_place(part)
        rows = _count(part)
        if not rows and not path.read_bytes()[: len(MAGIC)] == MAGIC:
            raise FileTrouble(
                "nothing of it could be read; it seems never to have been a Rebuild project.",
                where=path.name,
                way_out="Nothing was written. Choose another file, or a backup.",
            )
        _named(part, target)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    photos, lost = _photos(path, target)
    return Repaired(target, rows, photos, (*said, *lost))


def _named(part: Path, target: Path) -> None:
    """Give the whole file its name, on the disk for good."""
    try:
        flush(part)
        put_in_place(part, target)
    except OSError as trouble:
        raise FileTrouble(
            f"cannot be written ({trouble.strerror}).",
            where=target.name,
            way_out="Give it another name or folder with --to.",
        ) from trouble


def _free_name(path: Path) -> Path:
    names = (path.with_name(f"{path.stem} repaired{again}.rebuild") for again in _again())
    return next(name for name in names if not name.exists())


def _again() -> Iterator[str]:
    yield ""
    for number in range(2, 1000):
        yield f" {number}"


def _filled(part: Path, sources: list[Source]) -> list[str]:
    said: list[str] = []
    with closing(sqlite3.connect(part, isolation_level=None)) as raw, Opened() as opened:
        raw.execute("PRAGMA foreign_keys = OFF")
        raw.execute("BEGIN IMMEDIATE")
        for table in _tables(raw):
            said += shortened(_poured(raw, table, tuple(columns_of(raw, table)), sources, opened))
        for mended in _MENDING:
            said += shortened(mended(raw))
        raw.execute("COMMIT")
    return said


_MENDING: tuple[Callable[[sqlite3.Connection], Iterator[str]], ...] = (
    mend.from_journal, mend.bad_cells, mend.sound_journal,
)  # fmt: skip


def _poured(
    raw: sqlite3.Connection, table: str, columns: tuple[str, ...], sources: list[Source], opened: Opened
) -> Iterator[str]:
    """Rows of a table from the best source, and only what that one cannot read from the others.

    A backup holds an earlier state of the same file, numbers and journal alike; but what a readable source
    lacks was removed since, and must not come back.
    """
    gaps: tuple[tuple[int, int], ...] | None = None  # not known: no source could be read yet
    for source in sources:
        found = salvage(opened.of(source), table, columns)
        if not found.columns or found.gaps:
            opened.anew(source)
        if not found.columns:
            continue
        for row, values in found.rows.items():
            if gaps is None or any(start <= row <= end for start, end in gaps):
                yield from _put(raw, found, row, values)
                if gaps is not None and not table.startswith("j_"):
                    yield f"{named(table, row)} comes from {source.words}."
        gaps = found.gaps if gaps is None else overlap(gaps, found.gaps)
        if not gaps:
            return
    yield from _gaps(table, gaps)


def _tables(raw: sqlite3.Connection) -> list[str]:
    rows = raw.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' "
        "AND name <> 'alembic_version' AND name NOT LIKE 'find!_%' ESCAPE '!' "  # made anew from the rows
        "ORDER BY name LIKE 'j!_%' ESCAPE '!', name"
    )
    return [name for (name,) in rows]


def _put(raw: sqlite3.Connection, found: Salvaged, row: int, values: tuple[Value, ...]) -> Iterator[str]:
    """Store one row; text that is none any more is kept as far as it can be read, and said."""
    readable = tuple(
        value.decode(errors="replace") if isinstance(value, bytes) else value for value in values
    )
    names = ", ".join(f'"{name}"' for name in found.columns)
    marks = ", ".join("?" * len(found.columns))
    try:
        raw.execute(f'INSERT INTO "{found.table}" ({names}) VALUES ({marks})', readable)
    except (sqlite3.Error, OverflowError) as trouble:
        yield f"{named(found.table, row)} could not be stored as it lies there: {trouble_words(trouble)}."
        return
    if readable != values and not found.table.startswith("j_"):
        yield f"{named(found.table, row)}: a text in it is damaged; what is left of it was kept."


def _gaps(table: str, gaps: tuple[tuple[int, int], ...] | None) -> Iterator[str]:
    called = table.replace("_", " ").capitalize()
    if gaps is None:
        yield f"{called}: nothing of this list can be read."
    for start, end in gaps or ():
        rows = f"no. {start}" if start == end else f"nos. {start} to {end}"
        yield f"{called} {rows}: the file cannot be read there, and no backup has it."


def _count(part: Path) -> int:
    with closing(sqlite3.connect(part)) as raw:
        tables = [name for name in _tables(raw) if f"j_{name}" in _tables(raw)]
        return sum(raw.execute(f'SELECT COUNT(*) FROM "{name}"').fetchone()[0] for name in tables)


def _photos(path: Path, target: Path) -> tuple[int, list[str]]:
    """Photos that are what their name says go along; of the others the first are named."""
    lost: list[str] = []
    good: list[tuple[str, str]] = []
    for pair in wanted_photos(target):
        trouble = damaged_photos(path, [pair])
        lost += [f"{photo_folder(path).name}: the photo {sentence}." for sentence in trouble]
        good += [] if trouble else [pair]
    try:
        return copy_photos(path, target, good), lost[: MOST * 5]
    except OSError as trouble:
        return 0, [
            *lost,
            f"{photo_folder(target).name}: the photos could not be copied ({trouble_words(trouble)}).",
        ]
