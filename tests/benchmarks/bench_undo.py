"""Undo and redo of a removed machine by 100,000 rows, and what a stored reading takes on the disk.

The floor of a replay is the same rows deleted and put back in bulk with an image of each beside it, durable.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from rebuild.store.store import Store
from rebuild.work.editing import acts as editing
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measuring, acts_features as spec
from tests.benchmarks import clock

ROWS = 100_000
#: Put back by the floor, parents first.
_TABLES = ("machine", "subassembly", "part", "feature", "station", "task", "link", "reading")


@dataclass(frozen=True, slots=True)
class Took:
    """Seconds by 100,000 rows."""

    undo: float
    redo: float
    bare: float


def measure(path: Path) -> Took:
    """Remove the machine of a file, take it back, do it again; the middle of three. The file is used up."""
    store = Store.open(path, looked_over=False)
    editing.remove(store, "machine", [1])
    rows = sum(store.rows_touched(undo=True).values())
    undo, redo = [], []
    for _ in range(3):
        undo.append(clock.timed(store.undo))
        redo.append(clock.timed(store.redo))
    store.undo()
    store.close()
    bare = clock.timed(lambda: _bare(path))
    return Took(*(ROWS / rows * spent for spent in (clock.middle(undo), clock.middle(redo), bare)))


def _bare(path: Path) -> None:
    """The rows moved into tables without indexes and back again, an image of each kept, in one durable commit."""
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        raw.execute("PRAGMA synchronous = FULL")
        for table in _TABLES:
            raw.execute(f'CREATE TEMP TABLE kept_{table} AS SELECT * FROM "{table}"')
        for table in reversed(_TABLES):
            raw.execute(f'DELETE FROM "{table}"')
        raw.execute("BEGIN")
        for table in _TABLES:
            raw.execute(f'INSERT INTO "{table}" SELECT * FROM kept_{table}')
            raw.execute(f"CREATE TABLE image_{table} AS SELECT * FROM kept_{table}")
        raw.execute("COMMIT")


def readings_kept(path: Path, count: int) -> tuple[float, int, float]:
    """Bytes a reading adds to the file with its history, bytes of the log when idle, bytes of its row alone."""
    store = Store.create(path)
    machine = identify.add_machine(store, "Lathe")
    part = identify.add_part(store, machine, None, "spindle", "HS-01")
    feature = spec.add_feature(store, part, "front journal", spec="25 -0.020/-0.041")
    store.make_whole()
    before = path.stat().st_size
    for number in range(count):
        measuring.record_reading(store, f"24.{960 + number % 30}", measuring.Entry(feature))
    store.make_whole()
    log = path.with_name(f"{path.name}-wal")
    left = log.stat().st_size if log.exists() else 0
    grown = (path.stat().st_size - before) / count
    store.close()
    with closing(sqlite3.connect(path)) as raw:
        (rows,) = raw.execute("SELECT SUM(pgsize - unused) FROM dbstat WHERE name = 'reading'").fetchone()
    return grown, left, rows / count
