"""Identifying gears from readings a caliper takes on worn teeth."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.gears.identify import GearReadings, identify_gear
from rebuild.trade.gears.pins import over_pins_mm
from rebuild.trade.gears.pitches import Pitch, standard_pitches
from rebuild.trade.gears.span import span_mm, teeth_to_span
from rebuild.trade.gears.spur import SpurGear

COMMON = [pitch for pitch in standard_pitches() if pitch.commonness == 1 and 1.0 <= pitch.module_mm <= 6.5]
noise = st.floats(-0.02, 0.02)


@given(
    st.sampled_from(COMMON), st.sampled_from((14.5, 20.0)), st.integers(14, 100), st.floats(0, 0.1), st.floats(0, 0.1),
    noise, noise,
)  # fmt: skip
def test_worn_gears_of_the_first_series_are_found(
    pitch: Pitch, angle: float, teeth: int, thin: float, short: float, one: float, two: float
) -> None:
    gear = SpurGear(teeth, pitch.module_mm, angle)
    k = teeth_to_span(gear)
    try:
        spans = ((k, span_mm(gear, k) - thin + one), (k + 1, span_mm(gear, k + 1) - thin + two))
    except OutOfRange:
        assume(False)
    found = identify_gear(GearReadings(teeth, gear.outside_mm - short, spans)).value[:2]
    assert any(
        guess.pitch.module_mm == pytest.approx(pitch.module_mm, rel=1e-9)
        and guess.pressure_angle_deg == angle
        for guess in found
    )


@given(st.sampled_from((2.0, 2.5, 3.0, 4.0)), st.integers(12, 40), st.floats(0.2, 0.5))
def test_profile_shift_is_found_where_no_plain_gear_fits(module: float, teeth: int, shift: float) -> None:
    gear = SpurGear(teeth, module, 20.0, shift)
    k = teeth_to_span(gear)
    try:
        spans = ((k, span_mm(gear, k)), (k + 1, span_mm(gear, k + 1)))
    except OutOfRange:
        assume(False)
    found = identify_gear(GearReadings(teeth, gear.outside_mm, spans)).value
    assert any(
        guess.pitch.module_mm == module
        and guess.pressure_angle_deg == 20.0
        and guess.shift == pytest.approx(shift, abs=0.01)
        for guess in found
    )


def test_over_pins_alone_give_the_pitch() -> None:
    gear = SpurGear(24, 25.4 / 12, 14.5)
    reading = (3.6576, over_pins_mm(gear, 3.6576) - 0.05)
    found = identify_gear(GearReadings(24, pins=(reading,))).value
    assert found[0].pitch.name == "DP 12"


def test_stub_teeth_are_told_from_full_depth() -> None:
    gear = SpurGear(30, 25.4 / 8, 20.0, addendum=0.8)
    k = teeth_to_span(gear)
    spans = ((k, span_mm(gear, k)), (k + 1, span_mm(gear, k + 1)))
    best = identify_gear(GearReadings(30, gear.outside_mm, spans)).value[0]
    assert best.addendum == 0.8
    assert best.name == "DP 8, 20°, stub teeth"


def test_the_outside_alone_does_not_claim_the_pressure_angle() -> None:
    worked = identify_gear(GearReadings(32, outside_mm=59.5))
    assert {guess.pressure_angle_deg for guess in worked.value[:2]} == {14.5, 20.0}
    assert "does not tell the pressure angle" in worked.working.text()


def test_each_reading_is_shown_against_each_guess() -> None:
    guess = identify_gear(GearReadings(32, outside_mm=59.4)).value[0]
    assert guess.offs[0].off_mm == pytest.approx(-0.1)
    assert guess.gear(32).outside_mm == pytest.approx(59.5)


def test_what_cannot_be_worked_is_refused() -> None:
    with pytest.raises(BadEntry, match="needs an outside diameter"):
        identify_gear(GearReadings(20))
    with pytest.raises(BadEntry, match="positive size"):
        identify_gear(GearReadings(20, outside_mm=-4.0))
    with pytest.raises(OutOfRange, match="Teeth"):
        identify_gear(GearReadings(2, outside_mm=40.0))
    with pytest.raises(OutOfRange, match="no standard module"):
        identify_gear(GearReadings(20, outside_mm=5000.0))


def test_a_shift_is_said_to_be_one() -> None:
    gear = SpurGear(17, 2.5, 20.0, 0.3)
    k = teeth_to_span(gear)
    spans = ((k, span_mm(gear, k)), (k + 1, span_mm(gear, k + 1)))
    worked = identify_gear(GearReadings(17, gear.outside_mm, spans))
    assert worked.value[0].name == "module 2.5, 20°, profile shift +0.300"
    assert "No standard gear without profile shift fits" in worked.working.text()
