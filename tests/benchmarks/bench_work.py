"""The work graph of 4,000 steps, 12,000 links, 2,500 parts and 480 fits: read and laid, after one change, unchanged.

Run: ``pytest -s tests/benchmarks/bench_work.py``. The floor reads the same steps, links and parts raw.
"""

from __future__ import annotations

import datetime as dt
import random
import statistics
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from sqlalchemy import insert

from rebuild.model.records.features import Feature
from rebuild.model.records.fits import Fit
from rebuild.model.records.parts import Part
from rebuild.model.records.readings import Reading
from rebuild.model.records.steps import Link, Task
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.trade.schedule.plan import make_plan
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitJoint, FitKind, Side
from rebuild.words.readings import FeatureKind, Stage
from rebuild.words.steps import TaskKind
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.plan.rows_input import plan_input
from rebuild.work.plan.rows_what_next import next_of
from tests.benchmarks.table import Line

STEPS, LINKS, PARTS, FITS = 4000, 12_000, 2500, 480
NOW = dt.datetime(2026, 6, 15, 20, 0)
#: Most of the floor each may take; the raw reading alone is measured in the same run.
MOST_GRAPH, MOST_WHOLE, MOST_UNCHANGED = 8.0, 25.0, 0.2


def filled(folder: Path) -> tuple[Store, int]:
    """A large machine: a fifth of its parts to be made, its links all run forward."""
    store = Store.create(folder / "large.rebuild")
    machine = identify.add_machine(store, "Large machine")
    chance = random.Random(7)
    decisions = (Decision.REMAKE, Decision.REUSE, Decision.REUSE, Decision.REUSE, Decision.OPEN)
    kinds = tuple(TaskKind)
    links: set[tuple[int, int]] = set()
    while len(links) < LINKS:
        after = chance.randrange(2, STEPS + 1)
        links.add((max(1, after - chance.randrange(1, 80)), after))
    with store.act(Act.IMPORT, "large machine") as tx:
        run = tx.connection.execute
        run(insert(Part), [
            {"id": n, "machine_id": machine, "code": f"P-{n}", "name": f"part {n}", "position": n,
             "decision": decisions[n % 5]}
            for n in range(1, PARTS + 1)
        ])  # fmt: skip
        run(insert(Task), [
            {"id": n, "machine_id": machine, "title": f"step {n}", "position": n, "kind": kinds[n % len(kinds)],
             "part_id": n % PARTS + 1, "likely_min": 20.0 + n % 50}
            for n in range(1, STEPS + 1)
        ])  # fmt: skip
        run(insert(Link), [{"before_id": before, "after_id": after} for before, after in sorted(links)])
        run(insert(Feature), [
            {"id": n, "part_id": n, "name": "bore" if n % 2 else "journal", "unit": "mm", "nominal_mm": 25.0,
             "kind": FeatureKind.BORE if n % 2 else FeatureKind.OUTSIDE_DIAMETER}
            for n in range(1, 2 * FITS + 1)
        ])  # fmt: skip
        run(insert(Reading), [
            {"feature_id": n, "stage": Stage.AS_FOUND, "typed": "25.00", "unit": "mm",
             "value_mm": 25.02 if n % 2 else 25.0, "taken_at": NOW}
            for n in range(1, 2 * FITS + 1)
        ])  # fmt: skip
        run(insert(Fit), [
            {"id": n, "machine_id": machine, "outer_id": 2 * n - 1, "inner_id": 2 * n, "unit": "mm", "position": n,
             "joint": FitJoint.HOLE_AND_SHAFT, "kind": FitKind.RUNNING, "master": Side.INNER, "low_mm": 0.01,
             "high_mm": 0.03, "low_text": "0.01", "low_unit": "mm", "high_text": "0.03", "high_unit": "mm",
             "wanted_text": "0.01-0.03"}
            for n in range(1, FITS + 1)
        ])  # fmt: skip
    return store, machine


def median_s(work: Callable[[], object], turns: int = 5) -> float:
    times = []
    for _ in range(turns):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def lines(store: Store, machine: int) -> list[Line]:
    """Graph, ranking and dates of the large machine against a raw reading of its steps, links and parts."""
    asked = [
        f"SELECT * FROM task WHERE machine_id = {machine}",
        "SELECT * FROM link",
        f"SELECT * FROM part WHERE machine_id = {machine}",
    ]

    def raw() -> None:
        with store.read() as connection:
            for sql in asked:
                connection.exec_driver_sql(sql).all()

    def whole() -> None:
        with store.read() as connection:
            next_of(work_graph(connection, machine, NOW))
            given = plan_input(connection, machine, NOW)
        make_plan(given, NOW)

    def graph() -> None:
        with store.read() as connection:
            work_graph(connection, machine, NOW)

    def changed(work: Callable[[], None]) -> float:
        times = []
        for turn in range(5):
            edit.edit(store, "task", [17], {"likely_min": f"{30 + turn}"})
            start = time.perf_counter()
            work()
            times.append(time.perf_counter() - start)
        return statistics.median(times)

    least = median_s(raw)
    after_one, all_after_one = changed(graph), changed(whole)
    unchanged = median_s(graph)
    return [
        Line(
            "work graph after one change",
            after_one,
            least,
            f"most {MOST_GRAPH:g} x",
            after_one < MOST_GRAPH * least,
        ),
        Line(
            "graph, ranking and dates after one change",
            all_after_one,
            least,
            f"most {MOST_WHOLE:g} x",
            all_after_one < MOST_WHOLE * least,
        ),
        Line(
            "work graph unchanged",
            unchanged,
            least,
            f"most {MOST_UNCHANGED:g} x",
            unchanged < MOST_UNCHANGED * least,
        ),
    ]


@pytest.fixture
def large(tmp_path: Path) -> Iterator[tuple[Store, int]]:
    store, machine = filled(tmp_path)
    yield store, machine
    store.close()


def test_work(large: tuple[Store, int], capsys: pytest.CaptureFixture[str]) -> None:
    found = lines(*large)
    with capsys.disabled():
        for line in found:
            print(f"\n{line.what}: {line.ours * 1e3:.1f} ms, raw reading {line.theirs * 1e3:.1f} ms")
    assert all(line.kept for line in found)
