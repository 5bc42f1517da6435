"""The order of making: what waits for what."""

from __future__ import annotations

import pytest

from rebuild.words.decisions import Decision
from rebuild.words.fits import FitKind, Side
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.fits import acts as fits
from rebuild.work.fits.acts import FitEntry
from rebuild.work.making.rows_order import MakingOrder, NeedKind, making_order
from rebuild.work.readings import acts_features as spec
from tests.work.teardown.apron import Apron


@pytest.fixture
def apron(small_apron: Apron) -> Apron:
    return small_apron


def made(shop: Apron) -> MakingOrder:
    with shop.store.read() as connection:
        return making_order(connection, shop.machine)


def test_the_shaft_comes_before_its_bush_and_the_bush_waits_for_it_as_made(apron: Apron) -> None:
    apron.read("journal A", "0.6211")
    parts = apron.parts
    decide.decide(apron.store, [parts["AP-11"], parts["AP-12"]], Decision.REMAKE, reason="worn")
    found = made(apron)
    assert [row.title for row in found.rows] == ["AP-11 pinion shaft", "AP-12 apron bush"]
    assert [row.tonight for row in found.rows] == [True, False]
    (need,) = found.rows[1].needs
    assert (need.kind, need.stage) == (NeedKind.MAKE, Stage.AS_MADE)
    assert found.rows[0].frees == ("AP-12 apron bush",)
    (measurement,) = found.measurements
    assert (measurement.feature_id, measurement.now) == (apron.features["journal A"], False)
    apron.read("journal A", "0.6247", Stage.AS_MADE)
    found = made(apron)
    assert [row.title for row in found.tonight] == ["AP-12 apron bush"]
    assert not found.measurements


def test_a_master_not_measured_is_a_measurement_to_take_now(apron: Apron) -> None:
    decide.decide(apron.store, [apron.parts["XS-04"]], Decision.REMAKE, reason="stripped")
    found = made(apron)
    (measurement,) = found.measurements
    assert measurement.now
    assert measurement.title == "XS-03 cross screw, screw thread"
    assert measurement.waiting == ("XS-04 cross nut",)


def test_a_loop_is_named_and_nothing_in_it_may_be_started(apron: Apron) -> None:
    store, f = apron.store, apron.features
    width = [spec.add_feature(store, apron.parts[code], "shoulder", FeatureKind.WIDTH, unit="in")
             for code in ("AP-11", "AP-12")]  # fmt: skip
    fits.add_fit(store, FitEntry(width[0], width[1], FitKind.SLIDING, master=Side.INNER, name="shoulder"))
    decide.decide(store, [apron.parts["AP-11"], apron.parts["AP-12"]], Decision.REMAKE, reason="worn")
    found = made(apron)
    assert found.loops == (
        ("AP-11 pinion shaft", "AP-12 apron bush", "AP-11 pinion shaft"),
    ) or found.loops == (("AP-12 apron bush", "AP-11 pinion shaft", "AP-12 apron bush"),)
    assert found.tonight == ()
    assert f["bore"]


def test_a_fit_without_a_master_asks_for_one(apron: Apron) -> None:
    fits.change_fit(apron.store, apron.running, {"master": ""})
    decide.decide(apron.store, [apron.parts["AP-11"]], Decision.REMAKE, reason="worn")
    (need,) = made(apron).rows[0].needs
    assert need.kind is NeedKind.CHOOSE
