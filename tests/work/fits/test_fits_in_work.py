"""What the plan is told of fits in brief is what their whole rows say, of fits of every sort.

Oracle: ``rows.of_machine``, which judges every fit whole.
"""

from __future__ import annotations

import datetime as dt
import random

import pytest
from sqlalchemy import insert

from rebuild.model.records.features import Feature, Station
from rebuild.model.records.fits import Fit
from rebuild.model.records.parts import Part
from rebuild.model.records.readings import Instrument, Reading
from rebuild.store.act import Act
from rebuild.trade.limits.judgement import Rule
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitJoint, FitKind, Side
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.fits import rows, rows_in_work
from rebuild.work.fits.rows_in_work import fits_in_work, in_work
from rebuild.work.machines import acts as identify
from tests.conftest import Shop

NOW = dt.datetime(2026, 6, 15, 20, 0)
PARTS, FEATURES, FITS = 12, 40, 120
THREADS = ("", "", "7/16-10 LH Acme", "MT3", "DP 8", "module 2", "no thread")
RANGES = ((0.0, 0.1), (0.01, 0.03), (None, 0.02), (0.02, None), (None, None), (-0.03, -0.01))


def _fill(shop: Shop, seed: int) -> int:
    chance = random.Random(seed)
    machine = identify.add_machine(shop.store, f"machine {seed}")
    with shop.store.act(Act.IMPORT, "fits of every sort") as tx:
        run = tx.connection.execute

        def put(record: type, made: list[dict[str, object]]) -> list[int]:
            return list(
                run(insert(record).returning(record.id, sort_by_parameter_order=True), made).scalars()
            )

        (coarse, fine) = put(Instrument, [
            {"name": "caliper", "resolution_mm": 0.02, "mpe_mm": 0.03},
            {"name": "micrometer", "resolution_mm": 0.001, "mpe_mm": 0.002},
        ])  # fmt: skip
        parts = put(Part, [
            {"machine_id": machine, "code": f"P-{n}" if n % 4 else "", "name": f"part {n}",
             "decision": chance.choice((*Decision, *[Decision.REUSE] * 12))}
            for n in range(PARTS)
        ])  # fmt: skip
        features = put(Feature, [
            {"part_id": chance.choice(parts), "name": f"feature {n}", "unit": chance.choice(("mm", "in")),
             "kind": chance.choice((FeatureKind.BORE, FeatureKind.OUTSIDE_DIAMETER)), "nominal_mm": 25.0,
             "thread": chance.choice(THREADS),
             "low_mm": chance.choice((None, 24.99, 25.005)), "high_mm": chance.choice((None, 25.03))}
            for n in range(FEATURES)
        ])  # fmt: skip
        stations = {
            one: put(
                Station, [{"feature_id": one, "name": name, "position": at} for at, name in enumerate("AB")]
            )
            for one in features[: FEATURES // 2]
        }
        read: list[dict[str, object]] = []
        for one in features:
            for _ in range(chance.choice((0, 1, 1, 1, 2, 5))):
                value = 25.0 + chance.randrange(-30, 60) / 1000
                read.append({
                    "feature_id": one, "station_id": chance.choice((None, *stations.get(one, ()))),
                    "stage": chance.choice((Stage.AS_FOUND, Stage.AS_FOUND, *Stage)), "typed": f"{value:.3f}",
                    "unit": "mm", "value_mm": value, "taken_at": NOW,
                    "instrument_id": chance.choice((None, coarse, fine, fine, fine, fine)),
                    "struck": chance.choice((None, None, None, "slipped")),
                })  # fmt: skip
        put(Reading, read)
        made = []
        for n in range(FITS):
            outer, inner, gap, later = chance.sample(features, 4)
            low, high = chance.choice(RANGES)
            made.append({
                "machine_id": machine, "name": chance.choice(("", f"fit {n}")), "outer_id": outer, "inner_id": inner,
                "unit": "mm", "position": n, "joint": chance.choice((FitJoint.HOLE_AND_SHAFT, *FitJoint)),
                "kind": chance.choice(list(FitKind)), "master": chance.choice((None, *Side)),
                "low_mm": low, "high_mm": high, "wanted_text": "",
                "gap_id": gap if n % 7 == 0 else None, "later_id": later if n % 3 == 0 else None,
                "outer_stage": chance.choice((*[None] * 20, *Stage)),
                "inner_stage": chance.choice((*[None] * 20, *Stage)),
                "outer_station_id": chance.choice((None, None, *stations.get(outer, ()))),
                "looked": "[]" if n % 11 == 0 else "", "looked_at": NOW if n % 11 == 0 else None,
            })  # fmt: skip
        put(Fit, made)
    return machine


@pytest.mark.parametrize("seed", range(3))
def test_in_brief_is_what_the_whole_rows_say(shop: Shop, seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    machine = _fill(shop, seed)
    judged: list[int] = []
    whole = rows.row_of

    def seen(*given: object) -> object:
        judged.append(1)
        return whole(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(rows_in_work, "row_of", seen)
    with shop.store.read() as connection:
        for rule in Rule:
            told = [in_work(row) for row in rows.of_machine(connection, machine, rule)]
            judged.clear()
            assert fits_in_work(connection, machine, rule) == told
            assert 0 < len(judged) < FITS, "some are judged, not all of them"
            assert len(told) == FITS
            assert any(one.wrong for one in told), "some do not conform"
            assert any(one.changed for one in told)
            assert any(one.promised for one in told)
            assert any(side.wait for one in told for side in one.sides)
