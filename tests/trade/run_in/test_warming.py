"""Running in and cut tests: heat, tapers against the wear geometry, facing, plans."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry
from rebuild.trade.geometry.wear_effect import front_way_drop
from rebuild.trade.results.cautions import caution
from rebuild.trade.run_in.checks import usual_looks
from rebuild.trade.run_in.cut_tests import FacingBy, facing, two_collars
from rebuild.trade.run_in.warming import Heat, heated, plan_run


@pytest.mark.parametrize(("minutes", "warm", "heat"), [
    ([], [], Heat.NOT_READ), ([0, 10, 20], [20, 40, 61], Heat.OVER), ([0, 4, 8], [20, 30, 45], Heat.FAST),
    ([0, 20, 40, 60], [20, 34, 38, 38.5], Heat.STEADY), ([0, 20, 40], [20, 28, 33], Heat.RISING),
])  # fmt: skip
def test_what_a_bearing_says(minutes: list[float], warm: list[float], heat: Heat) -> None:
    found = heated(minutes, warm, 60.0)
    assert found.value.heat is heat
    assert found.working.cautions()


@given(st.floats(30, 75), st.floats(5, 25))
def test_it_says_where_it_is_heading(end: float, tau: float) -> None:
    minutes = [0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0]
    warm = [end - (end - 15.0) * math.exp(-minute / tau) for minute in minutes]
    found = heated(minutes, warm, 90.0).value
    assert found.end_C is not None
    assert found.end_C == pytest.approx(end, abs=0.6)
    if found.heat is Heat.RISING and end > 62:
        assert (
            "over the limit of 60" in heated(minutes, [min(one, 59.9) for one in warm], 60.0).value.text
            or max(warm) > 60
        )


def test_minutes_run_forward() -> None:
    with pytest.raises(BadEntry, match="Temperature reading 3"):
        heated([0, 10, 5], [1, 2, 3], None)


def test_the_twist_that_makes_a_taper_is_the_one_wear_makes() -> None:
    """Source: the wear geometry, 2 w H / B: the lift of the front foot that mends a taper is the drop that made it."""
    height, spacing, apart = 115.0, 160.0, 200.0
    lift_over_apart = 0.05
    made = front_way_drop(lift_over_apart, height, spacing, 40.0).value.diameter_error_mm
    found = two_collars(
        40.0, 40.0 + made, apart, centre_height_mm=height, feet_apart_mm=spacing, bed_length_mm=apart
    )
    assert any("raise the front foot" in words and "0.050 mm" in words for words in found.value.adjust)


def test_which_way_to_turn() -> None:
    large = two_collars(40.0, 40.02, 200).value
    small = two_collars(40.0, 39.98, 200).value
    assert "larger at the free end" in large.text
    assert any("moves toward the tool by 0.015 mm over 300 mm" in words for words in large.adjust)
    assert any("moves away from the tool" in words for words in small.adjust)
    assert two_collars(40.0, 40.0, 200).value.adjust == ()


def test_collars_of_two_jobs_or_two_units_are_refused() -> None:
    with pytest.raises(BadEntry, match="Collar at the free end"):
        two_collars(40.0, 1.575, 200)
    with pytest.raises(BadEntry, match="Length between"):
        two_collars(40.0, 40.0, 0)


def test_facing_is_hollow_only() -> None:
    assert facing(0.015, 160).value.text == "hollow by 0.015 mm over 160 mm"
    assert "may be hollow only" in facing(-0.001, 160).value.text
    assert facing(0.0, 160).value.text == "flat"
    by_indicator = facing(0.03, 160, by=FacingBy.INDICATOR).value
    assert by_indicator.error_mm == pytest.approx(0.015)
    with pytest.raises(BadEntry, match="too deep"):
        facing(10.0, 160)


def test_a_plan_rises_to_the_top_speed() -> None:
    speeds = [step.speed_rpm for step in plan_run(30, 1200)]
    assert speeds == sorted(speeds)
    assert speeds[-1] == 1200
    assert all(step.origin for step in plan_run(None, None))
    with pytest.raises(BadEntry, match="above the top speed"):
        plan_run(500, 100)


@pytest.mark.parametrize("kind", ["lathe", "shaper", "surface grinder", "other"])
def test_looks_defer_electrics_and_name_real_cautions(kind: str) -> None:
    looks = usual_looks(kind)
    assert any(look.licensed for look in looks)
    for topic in {"lockout", "capacitor", "mains", "guards"}:
        assert any(look.topic == topic for look in looks), topic
    for look in looks:
        if look.topic:
            assert caution(look.topic).defer_to
