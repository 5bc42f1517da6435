"""What tests share besides fixtures."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from functools import cache
from pathlib import Path

import pytest
from sqlalchemy import Connection, func, select

from rebuild.errors import BadEntry, RebuildError
from rebuild.model.shadows import journaled
from rebuild.model.tables.every import whole
from rebuild.model.tables.making import MakingDimensions
from rebuild.model.tables.readings import Readings
from rebuild.store.store import Store
from rebuild.trade.threads.series import standards
from rebuild.words.readings import Stage
from rebuild.work.making.acts_steps import tick_step
from rebuild.work.making.rows_sheet import sheet_page
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.readings.rows_grid import ReadingRow
from rebuild.work.records.fields import RECORDS

Contents = dict[str, list[tuple[object, ...]]]


def read_contents(path: Path) -> Contents:
    """Every journaled table's rows by id, floats as they are stored."""
    with closing(sqlite3.connect(path)) as raw:
        return contents_of(raw)


def contents_of(raw: sqlite3.Connection) -> Contents:
    """The same through a connection that is open: SQLite reads a file's long table of contents anew on each."""
    return {
        name: raw.execute(f'SELECT * FROM "{name}" ORDER BY id').fetchall() for name in _journaled_names()
    }


@cache
def _journaled_names() -> tuple[str, ...]:
    return tuple(table.name for table in journaled(whole()))


def acts_in(path: Path) -> int:
    """How many acts the journal of a file holds."""
    with closing(sqlite3.connect(path)) as raw:
        return _acts_of(raw)


def _acts_of(raw: sqlite3.Connection) -> int:
    return int(raw.execute("SELECT COUNT(*) FROM act").fetchone()[0])


@contextmanager
def refuses(
    store: Store, said: str, error: type[RebuildError] = BadEntry
) -> Iterator[pytest.ExceptionInfo[RebuildError]]:
    """The block is refused with a sentence that matches ``said``, and neither a row nor the journal has changed."""
    with unchanged(store.path), pytest.raises(error, match=said) as refusal:
        yield refusal


@contextmanager
def unchanged(path: Path) -> Iterator[None]:
    """Neither a row nor the journal of a file is changed by the block.

    Where SQLite says that nobody has committed anything (``data_version``), nothing needs to be read again.
    """
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        before, lies = (contents_of(raw), _acts_of(raw)), _lies(path)
        version = raw.execute("PRAGMA data_version").fetchone()
        yield
        if _lies(path) != lies:  # another file lies there now, which this connection does not see
            assert (read_contents(path), acts_in(path)) == before
        elif raw.execute("PRAGMA data_version").fetchone() != version:
            assert (contents_of(raw), _acts_of(raw)) == before


def _lies(path: Path) -> tuple[int, int]:
    there = path.stat()
    return there.st_dev, there.st_ino


def counts(store: Store) -> dict[str, int]:
    """How many rows of every record a user can fill, by table name."""
    with store.read() as connection:
        return {
            name: int(connection.execute(select(func.count()).select_from(record)).scalar_one())
            for name, record in RECORDS.items()
        }


def readings_of(
    connection: Connection, key: tuple[int, int]
) -> list[tuple[ReadingRow, str, str, str | None]]:
    """Every reading of one row, newest first: the reading, when it was taken, its note, why it was struck."""
    feature_id, station_id = key
    found = connection.execute(
        select(
            Readings.id,
            Readings.stage,
            Readings.typed,
            Readings.unit,
            Readings.value_mm,
            Readings.repeats,
            Readings.instrument_id,
            Readings.temperature_c,
            Readings.taken_at,
            Readings.note,
            Readings.struck,
        )
        .where(Readings.feature_id == feature_id, func.coalesce(Readings.station_id, 0) == station_id)
        .order_by(Readings.id.desc())
    )
    return [
        (ReadingRow(*tuple(row)[:8]), row.taken_at.strftime("%Y-%m-%d %H:%M"), row.note, row.struck)
        for row in found
    ]


def enter_as_made(store: Store, dimension_id: int, typed: str, instrument_id: int) -> None:
    """Store an as-made value of one size at 20 °C, entered twice where the instrument is not made for it."""
    with store.read() as connection:
        feature_id = connection.execute(
            select(MakingDimensions.feature_id).where(MakingDimensions.id == dimension_id)
        ).scalar_one()
    record_reading(
        store, typed, Entry(feature_id, None, Stage.AS_MADE, instrument_id, "20 C"), confirmed=True
    )


def tick_steps(store: Store, sheet_id: int) -> None:
    """Tick every operation of a sheet: what nothing measures, a chamfer, is proved by it."""
    with store.read() as connection:
        steps = [step.id for step in sheet_page(connection, sheet_id).steps if step.done_at is None]
    for step in steps:
        tick_step(store, step)


def sheet_of_keys() -> str:
    """The sheet of keys as lines of text."""
    from rebuild.window.commands.key_table import sections

    lines: list[str] = []
    for title, rows in sections():
        lines += [title, *(f"  {keys:<30} {what}" for keys, what in rows), ""]
    return "\n".join(lines)


def trapezoidal_pitches() -> dict[float, tuple[float, ...]]:
    """Pitches [mm] by diameter [mm] of the trapezoidal series, in the table's order."""
    found: dict[float, tuple[float, ...]] = {}
    for row in standards():
        if row.series == "Tr":
            found[row.major_mm] = (*found.get(row.major_mm, ()), row.pitch_mm)
    return found
