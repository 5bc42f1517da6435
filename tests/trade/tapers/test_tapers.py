"""Tapers: naming, identification from worn or rough readings, gauging, and angle settings."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.tapers.angles import (
    ScaleZero,
    angle_of_stack,
    parse_angle,
    sine_bar,
    tailstock_offset,
    taper_setting,
    thread_setting,
)
from rebuild.trade.tapers.gauging import over_rollers, stand_off, two_balls
from rebuild.trade.tapers.identify import identify, identify_angle, identify_size
from rebuild.trade.tapers.machine_tapers import all_tapers, dimensions, parse_taper, rate_from, taper

IN = 25.4


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("MT3", "Morse 3"),
        ("#3 MT", "Morse 3"),
        ("3MT", "Morse 3"),
        ("Morse 4-1/2", "Morse 4-1/2"),
        ("MT 4.5", "Morse 4-1/2"),
        ("Morse taper No. 2", "Morse 2"),
        ("B&S 7", "Brown & Sharpe 7"),
        ("Jarno 10", "Jarno 10"),
        ("JT 33", "Jacobs 33"),
        ("JT 2 short", "Jacobs 2 short"),
        ("7:24 40", "Steep 7:24 40"),
        ("ISO 40", "Steep 7:24 40"),
    ],
)
def test_tapers_as_people_write_them(typed: str, name: str) -> None:
    assert parse_taper(typed).name == name


def test_a_number_that_does_not_exist_lists_those_that_do() -> None:
    with pytest.raises(OutOfRange, match=r"4-1/2.*public|4-1/2.*Self-holding"):
        taper("Morse", "9")
    with pytest.raises(BadEntry, match="Type it as MT3"):
        parse_taper("number 3")
    with pytest.raises(BadEntry, match="Systems: Morse"):
        taper("Whatever", "3")


@given(st.sampled_from(all_tapers()), st.floats(0.0, 1.0))
def test_diameter_falls_with_depth_and_stays_between_the_ends(one: object, share: float) -> None:
    assert hasattr(one, "diameter_at")
    depth = share * one.length_mm  # type: ignore[attr-defined]
    at = one.diameter_at(depth)  # type: ignore[attr-defined]
    # Brown & Sharpe lengths are rounded to 0.01 in in the public table: 0.5/12 x 0.01 in = 0.01 mm.
    assert one.small_mm - 0.02 <= at <= one.large_mm + 1e-9  # type: ignore[attr-defined]


def test_depth_off_the_plug_is_refused() -> None:
    with pytest.raises(OutOfRange, match="lies off the taper"):
        dimensions(taper("Morse", "2"), 200.0)


DISTINCT = [one for one in all_tapers() if one.system in ("Morse", "Brown & Sharpe", "Jacobs")]


@given(st.sampled_from(DISTINCT), st.floats(-0.004, 0.004), st.floats(-0.004, 0.004))
def test_identify_finds_a_taper_through_reading_errors(one: object, first: float, second: float) -> None:
    large, small = one.large_mm + first, one.small_mm + second  # type: ignore[attr-defined]
    length = (one.large_mm - one.small_mm) / one.rate  # type: ignore[attr-defined]
    found = identify(large, small, length).value[0]
    assert found.taper == one
    assert found.agrees


def test_identify_from_the_middle_of_a_worn_socket() -> None:
    one = taper("Morse", "3")
    found = identify(one.diameter_at(12.0), one.diameter_at(62.0), 50.0, reading_mm=0.005).value
    assert found[0].taper == one
    assert found[0].gauge_line_mm == pytest.approx(12.0, abs=0.01)


def test_identify_says_when_it_cannot_tell() -> None:
    one = taper("Morse", "2")
    found = identify(one.large_mm, one.small_mm, one.length_mm, reading_mm=0.05)
    assert "cannot tell" in found.working.text()
    special = identify(40.0, 30.0, 50.0)
    assert not special.value[0].agrees
    assert "No taper of the table agrees" in special.working.text()


def test_identify_by_angle_and_by_size() -> None:
    steep = identify_angle(2 * 8.2971).value[0]
    assert steep.taper.system == "Steep 7:24"
    assert identify_size(1.231 * IN, 4.06 * IN).value[0].taper.name == "Morse 4"
    with pytest.raises(BadEntry):
        identify_angle(120)


@pytest.mark.parametrize(("large", "small", "apart"), [(10, 10, 5), (9, 10, 5), (10, 9, 0), (10, -1, 5)])
def test_readings_that_do_not_taper_are_refused(large: float, small: float, apart: float) -> None:
    with pytest.raises(BadEntry):
        rate_from(large, small, apart)


@given(st.floats(5, 60), st.floats(0.02, 0.5), st.floats(10, 80), st.floats(3, 12))
def test_rollers_give_back_the_cone(small: float, rate: float, height: float, roller: float) -> None:
    half = math.atan(rate / 2)
    low = small + roller * (1 + 1 / math.cos(half) + math.tan(half))
    found = over_rollers(low, low + 2 * height * math.tan(half), height, roller).value
    assert found.rate == pytest.approx(rate, rel=1e-6)
    assert found.end_mm == pytest.approx(small, abs=1e-6)


@given(st.floats(20, 60), st.floats(0.03, 0.3))
def test_balls_give_back_the_bore(face: float, rate: float) -> None:
    half = math.atan(rate / 2)

    def top(radius: float) -> float:
        return (face / 2 - radius / math.cos(half)) / math.tan(half) - radius

    big, little = 0.48 * face, 0.40 * face
    found = two_balls(2 * little, top(little), 2 * big, top(big)).value
    assert found.rate == pytest.approx(rate, rel=1e-6)
    assert found.end_mm == pytest.approx(face, rel=1e-6)


def test_gauging_that_cannot_be_is_refused() -> None:
    with pytest.raises(BadEntry):
        over_rollers(33, 31, 40, 6)
    with pytest.raises(BadEntry):
        two_balls(10, 5, 20, 5)
    with pytest.raises(BadEntry):
        stand_off(0.01, 0.0)


@given(st.floats(20, 500), st.floats(0.0, 60.0))
def test_sine_bar_round_trip_and_monotone(length: float, angle: float) -> None:
    stack = sine_bar(length, angle).value.height_mm
    assert angle_of_stack(length, stack).value == pytest.approx(angle, abs=1e-6)
    if angle < 59:
        assert sine_bar(length, angle + 1).value.height_mm > stack


def test_sine_bar_refuses_steep_angles_and_long_stacks() -> None:
    with pytest.raises(OutOfRange, match="complement, 25°"):
        sine_bar(100, 65)
    with pytest.raises(OutOfRange):
        angle_of_stack(100, 101)
    with pytest.raises(BadEntry):
        sine_bar(0, 10)


@given(st.floats(0.5, 45))
def test_trap_compound_zero_gives_the_complement(half: float) -> None:
    bed = taper_setting(half, ScaleZero.ALONG_BED).value
    cross = taper_setting(half, ScaleZero.ALONG_CROSS).value
    assert bed.dial_deg == pytest.approx(half)
    assert cross.dial_deg == pytest.approx(90 - half)
    assert bed.other_dial_deg == pytest.approx(cross.dial_deg)
    assert "Trap" in taper_setting(half, ScaleZero.ALONG_BED).working.text()


def test_thread_settings_of_the_trade() -> None:
    assert thread_setting(60, ScaleZero.ALONG_CROSS).value.dial_deg == 29.5
    # Source: issue 2 of the task: Acme compound at 14.5 degrees.
    assert thread_setting(29, ScaleZero.ALONG_CROSS, 0.0).value.dial_deg == 14.5
    assert thread_setting(29, ScaleZero.ALONG_BED, 0.0).value.dial_deg == 75.5


def test_tailstock_counts_the_whole_length() -> None:
    assert tailstock_offset(0.05, 300).value == pytest.approx(7.5)
    with pytest.raises(BadEntry):
        tailstock_offset(0.7, 300)


@pytest.mark.parametrize(
    ("typed", "degrees"),
    [("14.5", 14.5), ("14,5°", 14.5), ("1° 26' 16\"", 1 + 26 / 60 + 16 / 3600), ("29 30", 29.5)],
)
def test_angles_as_typed(typed: str, degrees: float) -> None:
    assert parse_angle(typed) == pytest.approx(degrees)


@pytest.mark.parametrize("typed", ["", "steep", "14° 75'", "-3"])
def test_angles_that_are_none(typed: str) -> None:
    with pytest.raises(BadEntry):
        parse_angle(typed)
