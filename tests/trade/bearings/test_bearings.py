"""Bearings from worn readings, designations as stamped, seats by load."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.bearings.identify import (
    FAMILIES,
    Bearing,
    bearing,
    bearings,
    bore_of_code,
    identify_bearing,
)
from rebuild.trade.bearings.seats import CONDITIONS, housing_seat, ring_lower_um, shaft_seat

wear = st.floats(-0.06, 0.06)


@given(st.sampled_from(bearings()), wear, wear, wear)
def test_every_bearing_is_found_from_worn_readings(
    item: Bearing, bore: float, outside: float, width: float
) -> None:
    found = identify_bearing(item.bore_mm + bore, item.outside_mm + outside, item.width_mm + width).value
    same = [guess for guess in found if guess.bearing.designation == item.designation]
    assert same
    assert same[0].fits


@given(st.sampled_from(bearings()))
def test_a_clean_reading_comes_first_in_its_family(item: Bearing) -> None:
    found = identify_bearing(item.bore_mm, item.outside_mm, item.width_mm, family=item.family).value
    assert found[0].bearing.size_text() == item.size_text()
    assert found[0].misfit == pytest.approx(0.0)


@given(st.sampled_from(bearings()), st.floats(-1.0, 1.0), st.floats(-1.0, 1.0))
def test_ranked_best_first(item: Bearing, one: float, two: float) -> None:
    found = identify_bearing(item.bore_mm + one, item.outside_mm + two, None, family=item.family).value
    misfits = [guess.misfit for guess in found]
    assert misfits == sorted(misfits)


def test_a_cone_alone_finds_its_bearing() -> None:
    found = identify_bearing(25.0, None, 15.0, family="tapered roller").value
    assert "30205" in [guess.bearing.designation for guess in found]
    assert ("cone width", 0.0) in next(g for g in found if g.bearing.designation == "30205").offs_mm


def test_the_envelope_is_said_to_serve_several_kinds() -> None:
    text = identify_bearing(17.0, 40.0, 12.0).working.text()
    assert "7203 (angular contact" in text
    assert "C3" in text


def test_tapered_bearings_carry_the_preload_caution() -> None:
    cautions = bearing("30205").working.cautions()
    assert any("preload" in caution.lower() for caution in cautions)


def test_inch_is_said() -> None:
    worked = identify_bearing(25.4, 57.15, 15.875)
    assert worked.value[0].bearing.series == "BS 292 light"
    assert "An inch bearing" in worked.working.text()


@pytest.mark.parametrize(
    ("typed", "size"),
    [
        ("6203", "17 x 40 x 12 mm"),
        ("6203-2RS C3", "17 x 40 x 12 mm"),
        ("* 6204", "20 x 47 x 14 mm"),
        ("7203 B", "17 x 40 x 12 mm"),
        ("NU 204", "20 x 47 x 14 mm"),
        ("1203", "17 x 40 x 12 mm"),
        ("NU 1005", "25 x 47 x 12 mm"),
        ("32005", "25 x 47 x 15 mm"),
        ("r8", "12.7 x 28.575 x 6.35 mm"),
    ],
)
def test_designations_as_stamped(typed: str, size: str) -> None:
    assert bearing(typed).value.size_text() == size


def test_unknown_designations() -> None:
    with pytest.raises(OutOfRange, match="bore code stands for 60 mm"):
        bearing("6512")
    with pytest.raises(BadEntry, match="Type it as 6203"):
        bearing("banana")


def test_bore_codes_agree_with_the_table() -> None:
    for item in bearings():
        if (
            item.family in ("deep groove", "tapered roller", "thrust ball")
            and len(item.designation.rstrip("X")) >= 4
        ):
            code = item.designation.rstrip("X")[-2:]
            if code.isdigit() and "/" not in item.designation:
                assert bore_of_code(code) == item.bore_mm, item.designation
    with pytest.raises(BadEntry):
        bore_of_code("9")


def test_sizes_grow_along_a_series() -> None:
    for series in {(item.family, item.series) for item in bearings() if "inch" not in item.family}:
        rows = sorted(
            (item for item in bearings() if (item.family, item.series) == series),
            key=lambda item: item.bore_mm,
        )
        for small, large in pairwise(rows):
            assert small.outside_mm < large.outside_mm, (small, large)
            assert small.width_mm <= large.width_mm, (small, large)
            assert small.bore_mm < small.outside_mm


@pytest.mark.parametrize(
    ("sizes", "match"),
    [
        ((None, None, 12.0), "at least two"),
        ((17.0, -40.0, 12.0), "positive"),
        ((40.0, 17.0, 12.0), "not smaller than its outside"),
        ((float("nan"), 40.0, 12.0), "Bore .*not a finite number"),
    ],
)
def test_readings_that_cannot_be(sizes: tuple[float | None, float | None, float | None], match: str) -> None:
    with pytest.raises(BadEntry, match=match):
        identify_bearing(*sizes)


def test_nothing_near_is_a_sentence_with_the_range() -> None:
    with pytest.raises(OutOfRange, match="3 to 150 mm bore"):
        identify_bearing(300.0, 420.0, 56.0)
    with pytest.raises(BadEntry, match="Families: deep groove"):
        identify_bearing(17.0, 40.0, 12.0, family="square")


@given(st.floats(10.0, 180.0), st.sampled_from(CONDITIONS))
def test_a_turning_ring_is_held_and_a_still_one_slides(size: float, condition: str) -> None:
    try:
        shaft, housing = shaft_seat(size, condition).value, housing_seat(size, condition).value
    except OutOfRange:
        assert size > 120.0
        return
    assert shaft.low_mm < shaft.high_mm
    assert shaft.least_interference_mm < shaft.most_interference_mm
    if condition == "inner-turns" and size > 17.0:
        assert shaft.least_interference_mm > 0
        assert housing.most_interference_mm <= 0
    if condition == "inner-still":
        assert housing.most_interference_mm > 0


def test_the_seat_of_a_common_bearing() -> None:
    # Source: ISO 286 k5 at 25 mm is +2/+11 µm; ISO 492 Normal bore 0/-10 µm: interference 2 to 21 µm.
    seat = shaft_seat(25.0, "inner-turns").value
    assert (seat.least_interference_mm, seat.most_interference_mm) == pytest.approx((0.002, 0.021))


def test_interference_brings_the_press_caution() -> None:
    assert any("Pressing" in line for line in shaft_seat(25.0, "inner-turns").working.cautions())
    assert housing_seat(52.0, "inner-turns").working.cautions() == ()
    assert any("preload" in line for line in shaft_seat(40.0, "spindle").working.cautions())


def test_seats_refuse() -> None:
    with pytest.raises(BadEntry, match="Conditions: inner-turns"):
        shaft_seat(25.0, "wobbling")
    with pytest.raises(OutOfRange, match="0 to 200 mm"):
        shaft_seat(300.0, "inner-turns")
    with pytest.raises(OutOfRange, match=r"2\.5 to 250 mm"):
        ring_lower_um("outside", 1.0)


def test_families_are_those_of_the_table() -> None:
    assert {item.family for item in bearings()} == set(FAMILIES)
