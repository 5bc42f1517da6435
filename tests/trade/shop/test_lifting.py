"""Weights, sling angles and their refusal below 30°."""

from __future__ import annotations

from math import cos, radians

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.shop.lifting import angle_factor, angle_from_spread, centre_of_mass_mm, sling, weight_kg
from rebuild.trade.shop.materials import material

STEEL = material("steel")
angles = st.floats(30.0, 90.0)


@given(angles, angles)
def test_flatter_slings_carry_more(one: float, two: float) -> None:
    low, high = sorted((one, two))
    assert angle_factor(low) >= angle_factor(high) >= 1.0 - 1e-12


@given(st.floats(1.0, 5000.0), angles)
def test_two_legs_hold_the_load_up(load: float, angle: float) -> None:
    leg = sling(load, 2, angle).value.leg_kg
    assert 2 * leg * cos(radians(90.0 - angle)) == pytest.approx(load)


@given(st.floats(0.0, 29.99))
def test_below_30_degrees_is_refused(angle: float) -> None:
    with pytest.raises(OutOfRange, match=r"below 30° from the horizontal: do not lift.*1910\.184"):
        sling(500.0, 2, angle)


def test_trap_g_the_angle_is_from_the_horizontal() -> None:
    text = sling(1000.0, 2, 60.0).working.text()
    assert "60° from the horizontal" in text
    assert angle_factor(60.0) == pytest.approx(1.1547, abs=1e-4)
    with pytest.raises(OutOfRange, match="30 to 90"):
        angle_factor(120.0)


def test_the_cautions_are_on_every_lift() -> None:
    cautions = " ".join(sling(100.0, 2, 60.0).working.cautions())
    assert "rigger" in cautions
    assert "Below 30° do not lift" in cautions


def test_of_four_legs_two_are_counted() -> None:
    assert sling(1000.0, 4, 60.0).value.leg_kg == sling(1000.0, 2, 60.0).value.leg_kg
    assert sling(1000.0, 1, 90.0).value.leg_kg == pytest.approx(1000.0)


def test_the_rating_is_compared() -> None:
    assert sling(1000.0, 2, 45.0, leg_rated_kg=800.0).value.enough is True
    over = sling(1000.0, 2, 35.0, leg_rated_kg=800.0)
    assert over.value.enough is False
    assert "over its rating: do not lift" in over.working.text()
    assert sling(1000.0, 2, 45.0).value.enough is None


@given(st.floats(100.0, 3000.0), st.floats(0.0, 0.99))
def test_angle_from_hooks(leg: float, part: float) -> None:
    angle = angle_from_spread(leg, 2 * leg * part)
    assert leg * cos(radians(angle)) == pytest.approx(leg * part, abs=1e-6)


@given(st.floats(5.0, 200.0), st.floats(5.0, 2000.0), st.integers(1, 20))
def test_a_tube_and_its_core_make_the_round(outside: float, length: float, pieces: int) -> None:
    core = outside * 0.4
    whole = weight_kg("round", (outside, length), STEEL, pieces).value
    tube = weight_kg("tube", (outside, core, length), STEEL, pieces).value
    assert tube + weight_kg("round", (core, length), STEEL, pieces).value == pytest.approx(whole)


def test_a_handbook_bar() -> None:
    # Source: handbook: 1 in round steel weighs 2.67 lb per foot (0.2833 lb/in³).
    pounds = weight_kg("round", (25.4, 304.8), STEEL).value / 0.45359237
    assert pounds == pytest.approx(2.67, abs=0.01)
    hexagon = weight_kg("hexagon", (25.4, 304.8), STEEL).value / 0.45359237
    assert hexagon == pytest.approx(2.94, abs=0.01)


def test_heavy_pieces_carry_the_lifting_caution() -> None:
    assert weight_kg("flat", (300.0, 300.0, 50.0), STEEL).working.cautions()
    assert not weight_kg("flat", (30.0, 30.0, 50.0), STEEL).working.cautions()


@given(st.floats(1.0, 2000.0), st.floats(1.0, 2000.0), st.floats(100.0, 4000.0))
def test_the_centre_lies_nearer_the_heavy_end(first: float, second: float, between: float) -> None:
    place = centre_of_mass_mm(first, second, between).value
    assert 0 < place < between
    assert (place < between / 2) == (second < first) or first == pytest.approx(second)


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(BadEntry, match="Load"):
        sling(0.0, 2, 60.0)
    with pytest.raises(BadEntry, match="1 to 4 legs"):
        sling(10.0, 7, 60.0)
    with pytest.raises(BadEntry, match="do not reach"):
        angle_from_spread(100.0, 300.0)
    with pytest.raises(BadEntry, match="Shapes: round"):
        weight_kg("blob", (1.0, 2.0), STEEL)
    with pytest.raises(BadEntry, match="2 sizes of a round"):
        weight_kg("round", (1.0,), STEEL)
    with pytest.raises(BadEntry, match="less than one"):
        weight_kg("round", (1.0, 2.0), STEEL, 0)
    with pytest.raises(BadEntry, match="two weighings"):
        centre_of_mass_mm(0.0, 0.0, 100.0)
