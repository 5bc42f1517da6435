"""Lifting and cutting at their edges, each from both sides."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.shop.cutting import advice, nearest_speed
from rebuild.trade.shop.lifting import angle_factor, angle_from_spread, sling


# Source: 29 CFR 1910.184, sling angles: 30° from the horizontal carries twice, and less is not in its tables.
def test_thirty_degrees_is_the_flattest_sling() -> None:
    assert angle_factor(30.0) == pytest.approx(2.0)
    with pytest.raises(OutOfRange, match="below 30° from the horizontal: do not lift so"):
        angle_factor(29.9)
    assert angle_factor(90.0) == 1.0
    with pytest.raises(OutOfRange, match="lies outside 30 to 90°"):
        angle_factor(90.1)


@pytest.mark.parametrize(("legs", "each"), [(1, 1000.0), (2, 500.0), (3, 500.0), (4, 500.0)])
def test_no_more_than_two_legs_carry(legs: int, each: float) -> None:
    worked = sling(1000.0, legs, 90.0)
    assert worked.value.leg_kg == pytest.approx(each)
    assert worked.value.counted == (1 if legs == 1 else 2)
    said = f"Of {legs} legs 2 are counted: stiff loads hang on two."
    assert (said in str(worked.working)) is (legs > 2)


@pytest.mark.parametrize(("rated", "enough"), [(499.9, False), (500.0, True), (500.1, True)])
def test_a_leg_may_carry_just_its_rating(rated: float, enough: bool) -> None:
    assert sling(1000.0, 2, 90.0, leg_rated_kg=rated).value.enough is enough


def test_legs_must_be_longer_than_half_the_spread() -> None:
    assert angle_from_spread(1000.0, 1999.0) > 0
    with pytest.raises(BadEntry, match="Legs: “1000 mm over 2000 mm” do not reach over the spread"):
        angle_from_spread(1000.0, 2000.0)
    assert angle_from_spread(1000.0, 0.0) == pytest.approx(90.0)


@pytest.mark.parametrize(("wanted", "chosen"), [(54, 55), (55, 55), (109.9, 55), (110, 110), (5000, 220)])
def test_the_speed_chosen_is_not_above_the_one_wanted(wanted: float, chosen: float) -> None:
    assert nearest_speed(wanted, [220, 55, 110]) == chosen


def drilled(diameter_in: float, operation: str = "drilling") -> tuple[float, float]:
    found = advice("mild steel", "hss", operation, diameter_in * 25.4).value
    assert found.feed_low_mm is not None
    assert found.feed_high_mm is not None
    return found.feed_low_mm / 25.4, found.feed_high_mm / 25.4


# Source: usual drill feeds, common practice: to 1/8 in 0.001-0.002, to 1/4 in 0.002-0.004 in a turn.
def test_a_drill_at_the_end_of_a_step_feeds_as_the_smaller_ones() -> None:
    assert drilled(0.125) == pytest.approx((0.001, 0.002))
    assert drilled(0.126) == pytest.approx((0.002, 0.004))


def test_a_reamer_feeds_twice_as_a_drill() -> None:
    assert drilled(0.25, "reaming") == pytest.approx(tuple(2 * feed for feed in drilled(0.25)))
