"""A stored reading against a bare durable insert, and one large machine in a file of one and of fifty.

Run with everything else by ``python -m tests.benchmarks``. Both sides of a ratio are measured in turns in
one run on one disk, so that what else the machine does falls on both alike.
"""

from __future__ import annotations

import sqlite3
import statistics
from collections.abc import Callable
from pathlib import Path

from rebuild.store.store import Store
from rebuild.trade.limits.verdict import Rule
from rebuild.work.machines import acts as identify, rows_tree as tree
from rebuild.work.readings import acts as measure, acts_features as spec, rows_grid as grid
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.steps import rows as tasks
from tests.benchmarks import clock
from tests.benchmarks.table import Line

READINGS = 300
PAGE = 128
RULE = Rule.CONFORMANCE_95


def lines(folder: Path, one: Path, many: Path) -> list[Line]:
    """Every line of this module."""
    return [*recording(folder), opening(one, many)]


# A reading


def recording(folder: Path) -> list[Line]:
    """p95 of the whole act, and of the part that waits for the disk, each beside a bare durable insert."""
    store = Store.create(folder / "readings.rebuild")
    machine = identify.add_machine(store, "Lathe")
    part = identify.add_part(store, machine, None, "spindle", "HS-01")
    feature = spec.add_feature(store, part, "front journal", spec="25 -0.020/-0.041")
    bare = _bare(folder / "bare.sqlite")
    acts, inserts = [], []
    for number in range(READINGS):
        typed = f"24.{960 + number % 30}"
        acts.append(_timed(lambda typed=typed: measure.record_reading(store, typed, measure.Entry(feature))))  # type: ignore[misc]
        inserts.append(_timed(lambda: bare.execute("INSERT INTO reading (value) VALUES (24.985)")))
    store.close()
    bare.close()
    act, insert = _p95(acts), _p95(inserts)
    middle, bare_middle = statistics.median(acts), statistics.median(inserts)
    return [
        Line("a reading stored, p95", act, 16.0 / 1000, "most 16 ms", act * 1000 <= 16.0),
        Line("  the same against a bare durable insert, p95", act, insert, "most 6 x", act <= 6 * insert),
        Line("  and by the median", middle, bare_middle, "most 6 x", middle <= 6 * bare_middle),
    ]


def _bare(path: Path) -> sqlite3.Connection:
    raw = sqlite3.connect(path, isolation_level=None)
    raw.execute("PRAGMA journal_mode = WAL")
    raw.execute("PRAGMA synchronous = FULL")
    raw.execute("CREATE TABLE reading (id INTEGER PRIMARY KEY, value REAL)")
    return raw


def _timed(work: Callable[[], object]) -> float:
    start = clock.now()
    work()
    return clock.now() - start


def _p95(spent: list[float]) -> float:
    return statistics.quantiles(spent, n=20)[-1]


# One machine in a file of fifty


def opening(one: Path, many: Path) -> Line:
    """Open the file, list the machines, the tree, every key of the grid, its first page and the steps."""
    alone, among = [], []
    for _ in range(7):
        alone.append(_timed(lambda: open_machine(one, 1)))
        among.append(_timed(lambda: open_machine(many, 1)))
    here, there = min(among), min(alone)
    return Line("one machine opened among many, alone", here, there, "most 1.3 x", here <= 1.3 * there)


def open_machine(path: Path, machine: int) -> int:
    """What the window reads when a machine is chosen; returns how many rows the grid has.

    As in the window a file that may be large is looked over for bad cells beside it, not before.
    """
    store = Store.open(path, looked_over=False)
    with store.read() as connection:
        tree.machines(connection)
        tree.subassemblies(connection, machine)
        tree.parts(connection, machine)
        limits = instrument_limits(connection)
        keys = grid.keys(connection, grid.Asked(machine), RULE, limits)
        grid.rows(connection, keys[:PAGE], RULE, limits)
        tasks.tasks(connection, machine)
    store.close()
    return len(keys)
