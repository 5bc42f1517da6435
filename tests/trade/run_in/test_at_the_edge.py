"""The first run at its edges: limits, the hottest moment, slow speeds, collars of one setting, licensed hands."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.run_in.checks import usual_looks
from rebuild.trade.run_in.cut_tests import FacingBy, facing, two_collars
from rebuild.trade.run_in.warming import Heat, heated, plan_run


@pytest.mark.parametrize(("highest", "over"), [(59.9, False), (60.0, False), (60.1, True)])
def test_a_bearing_may_reach_its_limit(highest: float, over: bool) -> None:
    found = heated([0, 60, 120], [50.0, highest, highest], 60.0).value
    assert (found.heat is Heat.OVER) is over


def test_a_bearing_that_was_too_hot_stays_so_when_it_has_cooled() -> None:
    found = heated([0, 30, 60, 90], [20, 65, 50, 45], 60.0).value
    assert (found.heat, found.highest_C, found.last_C) == (Heat.OVER, 65, 45)


@pytest.mark.parametrize(("rise", "heat"), [(15.0, Heat.RISING), (15.1, Heat.FAST)])
def test_a_rise_of_more_than_one_and_a_half_a_minute_is_fast(rise: float, heat: Heat) -> None:
    assert heated([0, 10], [20.0, 20.0 + rise], None).value.heat is heat


@pytest.mark.parametrize(("rise", "heat"), [(1.0, Heat.STEADY), (1.1, Heat.RISING)])
def test_a_kelvin_in_a_quarter_of_an_hour_is_steady(rise: float, heat: Heat) -> None:
    assert heated([0, 15], [40.0, 40.0 + rise], 60.0).value.heat is heat


def test_no_step_is_slower_than_the_slowest_speed() -> None:
    assert [step.speed_rpm for step in plan_run(400, 1000)] == [400, 400, 500.0, 750.0, 1000.0]
    assert [step.speed_rpm for step in plan_run(1000, 1000)] == [1000] * 5
    with pytest.raises(BadEntry, match="Slowest speed: “1001” is above the top speed of 1000"):
        plan_run(1001, 1000)


def test_collars_of_one_setting_differ_by_a_fiftieth_at_most() -> None:
    assert two_collars(50.0, 51.0, 200).value.error_mm == pytest.approx(1.0)
    for far in (51.01, 48.99):
        with pytest.raises(BadEntry, match="is more than a fiftieth off the other collar of 50 mm"):
            two_collars(50.0, far, 200)


@pytest.mark.parametrize(("far", "foot", "way"), [(40.02, "raise", "toward"), (39.98, "lower", "away from")])
def test_which_way_the_front_foot_and_the_headstock_go(far: float, foot: str, way: str) -> None:
    found = two_collars(40.0, far, 200, centre_height_mm=115, feet_apart_mm=160, bed_length_mm=900).value
    words = " ".join(found.adjust)
    assert f"{foot} the front foot at the tailstock end" in words
    assert f"moves {way} the tool" in words


def test_an_indicator_reads_a_hollow_twice() -> None:
    by_edge, by_indicator = (facing(0.02, 160, by=by).value.error_mm for by in FacingBy)
    assert (by_edge, by_indicator) == (0.02, 0.01)


# Common practice, no source: what touches the mains is for licensed hands, the rest is the owner's to look at.
def test_what_is_left_to_licensed_hands() -> None:
    licensed = [look.text for look in usual_looks("lathe") if look.licensed]
    assert all(look.topic for look in usual_looks("lathe") if look.licensed)
    for words in ("Motor plate", "Insulation of motor", "Capacitors", "Drive: no switch", "Current in each"):
        assert any(text.startswith(words) for text in licensed), words
    assert any(text.startswith("Emergency stop") for text in licensed)
    assert not any(text.startswith(("Guards on", "Spindle turns", "Oil at every")) for text in licensed)
