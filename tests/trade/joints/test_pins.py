"""Taper pins and dowels: ends, drills, which side, the next pin, and the remedy for a worn hole."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.dowels import OVERSIZE, STANDARD, dowel, dowels, for_hole
from rebuild.trade.joints.taper_pin import INCH, METRIC, TaperPin, ends, pin, pins
from rebuild.trade.joints.taper_pin_choice import choose_pin
from rebuild.trade.joints.taper_pin_hole import after_reaming, big_side, hole, identify_pin
from rebuild.trade.shop.drills import drills, largest_not_above

IN = 25.4
EVERY = (*pins(INCH), *pins(METRIC))


def test_an_inch_pin_is_sized_by_its_big_end_a_metric_one_by_its_small_end() -> None:
    four = ends(pin("4"), 50.8).value
    assert four.big_mm == pytest.approx(0.250 * IN)
    assert four.small_mm == pytest.approx((0.250 - 2 / 48) * IN)
    # Source: ISO 2339: nominal d at the small end, taper 1:50.
    five = ends(pin("5", METRIC), 50.0).value
    assert five.small_mm == 5.0
    assert five.big_mm == pytest.approx(6.0)


@pytest.mark.parametrize("typed", ["4", "#4", "No. 4", "no 4"])
def test_pin_names(typed: str) -> None:
    assert pin(typed).size == "4"


def test_sizes_that_do_not_exist_are_listed() -> None:
    with pytest.raises(OutOfRange, match="7/0, 6/0"):
        pin("15")
    with pytest.raises(OutOfRange, match=r"ISO 2339 has 0\.6"):
        pin("7", METRIC)
    with pytest.raises(BadEntry):
        pins("imperial")


@given(st.sampled_from(EVERY), st.floats(0.0, 1.0), st.floats(0.05, 1.0))
def test_every_depth_lies_between_the_ends(one: object, share: float, length_share: float) -> None:
    length = one.lengths_mm[1] * length_share  # type: ignore[attr-defined]
    if one.small_mm(length) <= 0:  # type: ignore[attr-defined]
        return
    found = ends(one, length, share * length).value  # type: ignore[arg-type]
    assert found.small_mm - 1e-9 <= found.at_depth_mm <= found.big_mm + 1e-9


@given(st.sampled_from(EVERY), st.floats(0.1, 1.0))
def test_no_drill_is_larger_than_the_hole_where_it_ends(one: object, share: float) -> None:
    length = one.lengths_mm[1] * share  # type: ignore[attr-defined]
    if one.small_mm(length) < 0.6:  # type: ignore[attr-defined]
        return
    made = hole(one, length).value  # type: ignore[arg-type]
    assert made.steps[0].depth_mm == pytest.approx(length)
    for step in made.steps:
        there = made.big_mm - step.depth_mm * one.rate  # type: ignore[attr-defined]
        assert step.drill.mm <= there + 0.0031
    depths = [step.depth_mm for step in made.steps]
    assert depths == sorted(depths, reverse=True)


def test_drill_for_a_no_4_pin_one_and_a_quarter_long() -> None:
    # 0.250 - 1.25/48 = 0.22396: No. 2 is 0.2210, No. 1 is 0.2280.
    assert hole(pin("4"), 1.25 * IN).value.steps[0].drill.name == "No. 2"


def test_drills_stay_in_their_table() -> None:
    sizes = [one.mm for one in drills("metric")]
    assert sizes == sorted(set(sizes))
    with pytest.raises(OutOfRange, match=r"No\. 80"):
        largest_not_above(0.2)
    with pytest.raises(OutOfRange):
        largest_not_above(60.0)


def test_the_next_pin_after_reaming() -> None:
    old = pin("4")
    found = after_reaming(INCH, 0.258 * IN, 1.25 * IN, old).value
    assert found.pin.size == "5"
    assert found.steps_up == 1
    assert found.proud_mm == pytest.approx((0.289 - 0.258) * 48 * IN)
    assert found.cut_from_mm == pytest.approx(found.proud_mm + 1.25 * IN)


@given(st.sampled_from(pins(INCH)), st.floats(0.3, 1.0))
def test_a_hole_of_exactly_a_pin_gets_that_pin(one: object, share: float) -> None:
    length = one.lengths_mm[0] * share  # type: ignore[attr-defined]
    found = after_reaming(INCH, one.big_mm(length), length).value  # type: ignore[attr-defined]
    assert found.pin == one
    assert found.proud_mm == pytest.approx(0.0, abs=1e-9)


def test_a_hole_beyond_the_largest_pin_is_refused() -> None:
    with pytest.raises(OutOfRange, match="Bush the hole"):
        after_reaming(INCH, 1.6 * IN, 3 * IN)
    with pytest.raises(BadEntry):
        after_reaming(INCH, 1.0, 500.0)


def test_which_side_takes_the_big_end() -> None:
    # Source: the trade notes' example row: no. 4, hole 0.252/0.207 in.
    assert big_side(0.252 * IN, 0.207 * IN, 2 * IN).value.side == "A"
    assert big_side(0.207 * IN, 0.252 * IN, 2 * IN).value.side == "B"
    undecided = big_side(6.350, 6.340, 10.0)
    assert undecided.value.side == "undecided"
    assert "straight pin" in undecided.working.text()
    mushroomed = big_side(7.5, 6.0, 25.0)
    assert "mushroomed" in mushroomed.working.text()
    assert "goes deeper from the big side" in mushroomed.working.text()
    with pytest.raises(BadEntry):
        big_side(0, 1, 10)


@given(st.sampled_from(EVERY))
def test_a_measured_pin_is_found_again(one: object) -> None:
    length = one.lengths_mm[0]  # type: ignore[attr-defined]
    found = identify_pin(one.big_mm(length), one.small_mm(length), length)  # type: ignore[attr-defined]
    assert found.value[0].nominal_mm == pytest.approx(one.nominal_mm, rel=0.05)  # type: ignore[attr-defined]


def test_driving_a_pin_carries_its_caution() -> None:
    assert any("hardened steel" in line for line in hole(pin("4"), 30).working.cautions())


def test_an_oversize_dowel_is_the_remedy_for_a_hole_that_lost_its_grip() -> None:
    found = for_hole(0.2504 * IN).value
    assert found[0].series == OVERSIZE
    assert found[0].nominal_mm == pytest.approx(0.25 * IN)
    fresh = for_hole(0.2499 * IN).value
    assert fresh[0].series == STANDARD


@given(st.floats(1.6, 25.0))
def test_every_dowel_offered_grips_or_needs_reaming(hole_mm: float) -> None:
    found = for_hole(hole_mm)
    for one in found.value:
        assert one.low_mm >= hole_mm - 1e-9
    if "Nothing grips" not in found.working.text():
        assert all(one.high_mm - hole_mm <= 0.0255 for one in found.value)


def test_dowels_refuse_what_is_not_made() -> None:
    with pytest.raises(OutOfRange, match=r"0\.0625"):
        dowel(7.0)
    with pytest.raises(OutOfRange):
        for_hole(80.0)
    with pytest.raises(BadEntry):
        dowels("ISO 9999")


def test_metric_dowel_limits() -> None:
    eight = dowel(8, "ISO 8734").value
    assert (eight.low_mm, eight.high_mm) == pytest.approx((8.006, 8.015))
    assert eight.hole_mm == pytest.approx((8.0, 8.015))
    soft = dowel(8, "ISO 2338 h8").value
    assert (soft.low_mm, soft.high_mm) == pytest.approx((7.978, 8.0))


@pytest.mark.parametrize(
    ("which", "length"), [(pin("5", METRIC), 30.0), (pin("14"), 13 * IN), (pin("4"), 1.25 * IN)]
)
def test_every_drill_leaves_stock_for_the_reamer(which: TaperPin, length: float) -> None:
    """Seen: metric 5 was drilled 5.0 and a No. 14 of 13 in 1-1/4: exactly their small ends, nothing left to ream.

    By hand: 5 mm small end; 1.521 - 13/48 = 1.2502 in.
    """
    made = hole(which, length).value
    for step in made.steps:
        there = made.big_mm - step.depth_mm * which.rate
        assert there - step.drill.mm >= 0.05 - 0.0031
    assert made.steps[0].drill.mm < made.small_mm


def test_a_pin_is_chosen_by_shaft_and_hub() -> None:
    """By hand: shaft 0.750, hub 1.250. No. 4 is 0.2500 - 0.625/48 = 0.2370 in the middle, 0.316 of the shaft; No. 3
    is 0.2190 - 0.0130 = 0.2060, 0.275. Three tenths, 0.2250, is nearer to No. 4."""
    found = choose_pin(INCH, 0.75 * IN, 1.25 * IN).value
    assert (found.pin.size, found.middle_mm) == ("4", pytest.approx(0.23698 * IN, abs=0.001))
    assert found.filed_mm == 1.25 * IN
    assert found.cut_mm == pytest.approx(1.25 * IN + 3.0)
    assert (found.big_mm, found.small_mm) == (
        pytest.approx(0.25 * IN),
        pytest.approx((0.25 - 1.25 / 48) * IN),
    )
    metric = choose_pin(METRIC, 20.0, 40.0).value
    assert metric.pin.size == "6"  # middle 6.4, 0.32; the 5 has 5.4, 0.27: 0.30 is nearer 0.32 by a hair
    working = choose_pin(INCH, 0.75 * IN, 1.25 * IN).working.text()
    assert "centre-punch dot" in working
    with pytest.raises(BadEntry, match="not larger than its shaft"):
        choose_pin(INCH, 20.0, 20.0)
    with pytest.raises(OutOfRange, match="made long enough"):
        choose_pin(METRIC, 5.0, 80.0)
