"""Fits of a machine with 2,000 of them: what one reading touches, and the whole machine once.

Run: ``pytest tests/benchmarks/bench_fits.py``. The floor reads one fit's row and its readings raw.
"""

from __future__ import annotations

import datetime as dt
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import insert

from rebuild.model.records.features import Feature, Station
from rebuild.model.records.fits import Fit
from rebuild.model.records.parts import Part
from rebuild.model.records.readings import Reading
from rebuild.store.act import Act
from rebuild.store.changed import Changed
from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitJoint, FitKind, Side
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.fits import acts as fits, rows as lookup
from rebuild.work.fits.rows_touched import touched
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.readings.acts import Entry

COUNT = 2000


@pytest.fixture(scope="module")
def machine(tmp_path_factory: pytest.TempPathFactory) -> Any:
    store = Store.create(Path(tmp_path_factory.mktemp("fits")) / "fits.rebuild")
    key = identify.add_machine(store, "Machine of 2,000 fits")
    micrometer = spec.add_instrument(store, "Micrometer", {"kind": "outside micrometer", "mpe": "0.004"})
    fill(store, key, micrometer)
    yield store, key, micrometer
    store.close()


def fill(store: Store, machine: int, micrometer: int) -> None:
    """2,000 shafts with three stations in 2,000 bores, all read as found."""
    when = dt.datetime(2026, 3, 14, 19, 30)
    both = range(1, 2 * COUNT + 1)
    with store.act(Act.IMPORT, "fits") as tx:
        tx.connection.execute(
            insert(Part),
            [
                {
                    "id": n,
                    "machine_id": machine,
                    "name": f"part {n}",
                    "code": f"P-{n}",
                    "material": "steel",
                    "decision": Decision.REUSE,
                    "position": n,
                }
                for n in both
            ],
        )
        tx.connection.execute(
            insert(Feature),
            [
                {
                    "id": n,
                    "part_id": n,
                    "name": "bore" if n % 2 else "journal",
                    "unit": "mm",
                    "kind": FeatureKind.BORE if n % 2 else FeatureKind.OUTSIDE_DIAMETER,
                    "nominal_mm": 25.0,
                }
                for n in both
            ],
        )
        tx.connection.execute(
            insert(Station),
            [
                {"feature_id": n, "name": name, "position": place}
                for n in both
                if n % 2 == 0
                for place, name in enumerate(("near", "mid", "far"))
            ],
        )
        stations = [*tx.connection.exec_driver_sql("SELECT feature_id, id FROM station")]
        places = [(n, None) for n in both if n % 2] + [tuple(row) for row in stations]
        tx.connection.execute(
            insert(Reading),
            [
                {
                    "feature_id": n,
                    "station_id": station,
                    "stage": Stage.AS_FOUND,
                    "typed": "25.00",
                    "unit": "mm",
                    "value_mm": 25.02 if n % 2 else 25.0,
                    "instrument_id": micrometer,
                    "temperature_c": 20.0,
                    "temperature_text": "20 C",
                    "taken_at": when,
                }
                for n, station in places
            ],
        )
        tx.connection.execute(
            insert(Fit),
            [
                {
                    "id": n,
                    "machine_id": machine,
                    "outer_id": 2 * n - 1,
                    "inner_id": 2 * n,
                    "unit": "mm",
                    "joint": FitJoint.HOLE_AND_SHAFT,
                    "kind": FitKind.RUNNING,
                    "master": Side.INNER,
                    "position": n,
                    "low_text": "0.01",
                    "low_unit": "mm",
                    "low_mm": 0.01,
                    "high_text": "0.03",
                    "high_unit": "mm",
                    "high_mm": 0.03,
                    "wanted_text": "0.01-0.03",
                }
                for n in range(1, COUNT + 1)
            ],
        )
    fits.look(store, range(1, COUNT + 1))


def best(work: Callable[[], object], rounds: int = 7) -> float:
    spent = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        spent.append(time.perf_counter() - start)
    return min(spent) * 1000


def test_one_reading_touches_its_own_fits_only_and_in_under_ten_milliseconds(machine: Any) -> None:
    store, _, micrometer = machine
    heard: list[Changed] = []
    stop = store.observe(heard.append)
    measure.record_reading(
        store, "24.99", Entry(246, stage=Stage.CLEANED, instrument_id=micrometer), confirmed=True
    )
    stop()

    def again() -> list[lookup.FitRow]:
        with store.read() as connection:
            ids = touched(connection, heard[-1])
            assert ids is not None
            return lookup.rows(connection, sorted(ids))

    def floor() -> None:
        with store.read() as connection:
            connection.exec_driver_sql("SELECT * FROM fit WHERE id = 123").fetchall()
            connection.exec_driver_sql("SELECT * FROM reading WHERE feature_id IN (245, 246)").fetchall()

    (row,) = again()
    assert row.id == 123
    assert row.stale
    one, least = best(again), best(floor)
    print(
        f"\nafter one reading: 1 of {COUNT} fits, {one:.2f} ms = {one / least:.1f} x a raw read of its rows"
    )
    assert one < 10


def test_the_whole_machine_once(machine: Any) -> None:
    store, key, _ = machine

    def whole() -> int:
        with store.read() as connection:
            return len(lookup.rows(connection, lookup.fit_ids(connection, key)))

    assert whole() == COUNT
    print(f"\nall {COUNT} fits of the machine: {best(whole, 3):.0f} ms")
