"""Spur gears: spans, pins, chords and meshes there and back, and what is refused."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi

import pytest
from hypothesis import assume, given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.gears.backlash import recommended, thinning_each_mm
from rebuild.trade.gears.blank import cutter_number, gear_blank, index_text
from rebuild.trade.gears.chordal import chord, thickness_at_mm
from rebuild.trade.gears.involute import inv, inverse_inv
from rebuild.trade.gears.mesh import mesh, tight_centre_mm
from rebuild.trade.gears.pins import over_pins_mm, pin_target, shift_from_pins, thickness_from_pins
from rebuild.trade.gears.pitches import read_pitch, standard_pitches
from rebuild.trade.gears.rack import identify_rack, rack
from rebuild.trade.gears.span import shift_from_span, span_mm, span_target, teeth_to_span, thickness_from_span
from rebuild.trade.gears.spur import SpurGear, system_names, tooth_system
from rebuild.trade.gears.worm import worm

gears = st.builds(
    SpurGear,
    st.integers(17, 150),
    st.floats(0.5, 8.0),
    st.sampled_from((14.5, 20.0, 25.0)),
    st.floats(-0.2, 0.5),
)


@given(st.floats(0.01, 1.4))
def test_involute_there_and_back(angle: float) -> None:
    assert inverse_inv(inv(angle)) == pytest.approx(angle, rel=1e-9)


@given(gears)
def test_span_there_and_back(gear: SpurGear) -> None:
    k = teeth_to_span(gear)
    W = span_mm(gear, k)
    assert shift_from_span(gear, k, W) == pytest.approx(gear.shift, abs=1e-9)
    assert thickness_from_span(gear, k, W) == pytest.approx(gear.thickness_mm, rel=1e-9)


@given(gears)
def test_spans_differ_by_the_base_pitch(gear: SpurGear) -> None:
    k = teeth_to_span(gear)
    try:
        more = span_mm(gear, k + 1)
    except OutOfRange:
        assume(False)
    assert more - span_mm(gear, k) == pytest.approx(gear.base_pitch_mm)


@given(gears, st.floats(1.6, 1.9))
def test_pins_there_and_back(gear: SpurGear, size: float) -> None:
    pin = size * gear.module_mm
    try:
        M = over_pins_mm(gear, pin)
    except OutOfRange:
        assume(False)
    assert shift_from_pins(gear, pin, M) == pytest.approx(gear.shift, abs=1e-8)


@given(st.integers(30, 150), st.floats(0.5, 8.0), st.sampled_from((14.5, 20.0)))
def test_between_pins_there_and_back(teeth: int, module: float, angle: float) -> None:
    gear = SpurGear(teeth, module, angle)
    pin = 1.44 * module
    M = over_pins_mm(gear, pin, internal=True)
    assert thickness_from_pins(gear, pin, M, internal=True) == pytest.approx(gear.thickness_mm, rel=1e-8)


@given(gears, st.floats(0.01, 0.2))
def test_thinner_teeth_measure_smaller_outside_and_larger_inside(gear: SpurGear, thin: float) -> None:
    k = teeth_to_span(gear)
    s = gear.thickness_mm - thin * gear.module_mm
    assert span_mm(gear, k, s) < span_mm(gear, k)
    pin = 1.728 * gear.module_mm
    try:
        assert over_pins_mm(gear, pin, thickness_mm=s) < over_pins_mm(gear, pin)
    except OutOfRange:
        assume(False)


@given(gears, st.floats(0.3, 4.0))
def test_everything_scales_with_the_module(gear: SpurGear, factor: float) -> None:
    assume(0.06 < gear.module_mm * factor < 90)
    big = replace(gear, module_mm=gear.module_mm * factor)
    k = teeth_to_span(gear)
    assert teeth_to_span(big) == k
    assert span_mm(big, k) == pytest.approx(span_mm(gear, k) * factor)
    assert big.outside_mm == pytest.approx(gear.outside_mm * factor)


@given(gears)
def test_the_chord_is_a_little_less_than_the_arc(gear: SpurGear) -> None:
    found = chord(gear).value
    assert found.thickness_mm < found.arc_mm
    assert found.addendum_mm > gear.module_mm * (1 + gear.shift)
    assert thickness_at_mm(gear, gear.pitch_diameter_mm) == pytest.approx(gear.thickness_mm)


@given(gears, st.integers(17, 120), st.floats(-0.2, 0.5))
def test_tight_centres_have_no_backlash(gear: SpurGear, teeth: int, shift: float) -> None:
    other = SpurGear(teeth, gear.module_mm, gear.pressure_angle_deg, shift)
    at = mesh(gear, other).value
    assert at.backlash_mm == pytest.approx(0.0, abs=1e-9 * gear.pitch_diameter_mm + 1e-9)
    apart = mesh(gear, other, at.tight_centre_mm + 0.02 * gear.module_mm).value
    assert apart.backlash_mm > 0
    assert apart.contact_ratio < at.contact_ratio


def test_plain_gears_stand_at_half_the_sum() -> None:
    assert tight_centre_mm(SpurGear(40, 2.0, 20.0), SpurGear(20, 2.0, 20.0)) == pytest.approx(60.0)


def test_gears_of_different_base_pitch_cannot_run() -> None:
    with pytest.raises(BadEntry, match="cannot run together"):
        mesh(SpurGear(40, 2.0, 20.0), SpurGear(20, 2.0, 14.5))
    with pytest.raises(OutOfRange, match="lose each other"):
        mesh(SpurGear(40, 2.0, 20.0), SpurGear(20, 2.0, 20.0), 66.0)
    with pytest.raises(OutOfRange, match="base circles"):
        mesh(SpurGear(40, 2.0, 20.0), SpurGear(20, 2.0, 20.0), 50.0)


def test_targets_leave_the_wanted_backlash() -> None:
    gear, mate = SpurGear(40, 2.0, 20.0), SpurGear(20, 2.0, 20.0)
    target = span_target(gear, thin_low_mm=0.05, thin_high_mm=0.08).value
    assert target.nominal_mm - target.high_mm == pytest.approx(0.05 * cos(gear.angle))
    thinned = gear.shifted(gear.shift_of_thickness(thickness_from_span(gear, target.over, target.high_mm)))
    assert mesh(thinned, mate, 60.0).value.backlash_mm == pytest.approx(0.05, abs=2e-5)
    pins = pin_target(gear, thin_low_mm=0.05, thin_high_mm=0.08).value
    assert pins.low_mm < pins.high_mm < pins.nominal_mm


@pytest.mark.parametrize(
    "bad",
    [
        (4, 2.0, 20.0, 0.0),
        (20, 0.0, 20.0, 0.0),
        (20, 2.0, 45.0, 0.0),
        (20, 2.0, 20.0, 3.0),
        (2000, 2.0, 20.0, 0.0),
    ],
)
def test_gears_that_cannot_be_are_refused(bad: tuple[int, float, float, float]) -> None:
    with pytest.raises(OutOfRange, match="lies outside"):
        SpurGear(*bad)


def test_jaws_and_pins_that_miss_the_flank_are_refused() -> None:
    gear = SpurGear(20, 2.0, 20.0)
    with pytest.raises(OutOfRange, match="beyond the tips"):
        span_mm(gear, 6)
    with pytest.raises(OutOfRange, match="Take a pin near"):
        over_pins_mm(gear, 12.0)
    with pytest.raises(OutOfRange, match="base circle"):
        thickness_from_pins(gear, 3.5, 30.0)
    with pytest.raises(BadEntry, match="positive"):
        over_pins_mm(gear, -1.0)


def test_trap_backlash_blank_cells_are_refused_with_the_range() -> None:
    with pytest.raises(OutOfRange, match="0 to 120 in"):
        recommended(3 * 25.4, 25.4 / 4)
    with pytest.raises(OutOfRange):
        recommended(200 * 25.4, 25.4)
    assert thinning_each_mm(recommended(4 * 25.4, 2.0).value)[0] == pytest.approx(0.0635)


def test_blanks_and_cutters() -> None:
    blank = gear_blank(40, read_pitch("module 2"), tooth_system("iso-20")).value
    assert blank.outside_high_mm == pytest.approx(84.0)
    assert blank.whole_depth_mm == pytest.approx(4.5)
    assert blank.cutter == 6
    assert [cutter_number(n, "dp") for n in (12, 14, 17, 21, 26, 35, 55, 135)] == [8, 7, 6, 5, 4, 3, 2, 1]
    with pytest.raises(OutOfRange):
        cutter_number(11, "dp")
    assert "undercuts" in gear_blank(14, read_pitch("DP 10"), tooth_system("full-14.5")).working.text()


def test_index_turns() -> None:
    from fractions import Fraction

    assert index_text(Fraction(40, 127)) == "40/127"
    assert index_text(Fraction(40, 20)) == "2"


def test_every_tooth_system_has_clearance() -> None:
    for name in system_names():
        assert tooth_system(name).dedendum > tooth_system(name).addendum
    with pytest.raises(BadEntry, match="Systems: iso-20"):
        tooth_system("square")


@pytest.mark.parametrize(
    ("text", "module"),
    [
        ("module 2", 2.0),
        ("M1.75", 1.75),
        ("2.5 mod", 2.5),
        ("DP 10", 2.54),
        ("14 dp", 25.4 / 14),
        ("CP 1/4 in", 6.35 / pi),
    ],
)
def test_pitches_as_typed(text: str, module: float) -> None:
    assert read_pitch(text).module_mm == pytest.approx(module)


@pytest.mark.parametrize("text", ["", "10", "DP", "DP 0", "module x", "CP 1/0"])
def test_pitches_that_cannot_be_read(text: str) -> None:
    with pytest.raises(BadEntry):
        read_pitch(text)


def test_pitches_out_of_range() -> None:
    with pytest.raises(OutOfRange):
        read_pitch("module 80")


def test_modules_and_diametral_pitches_are_ordered_by_how_common() -> None:
    assert {pitch.commonness for pitch in standard_pitches()} == {1, 2, 3}


@given(st.sampled_from([p for p in standard_pitches() if p.commonness == 1]), st.integers(20, 60))
def test_a_rack_is_found_from_its_run(pitch: object, run: int) -> None:
    from rebuild.trade.gears.pitches import Pitch

    assert isinstance(pitch, Pitch)
    found = identify_rack(pitch.circular_pitch_mm * run, run).value
    assert abs(found[0].pitch.module_mm / pitch.module_mm - 1) < 1e-9


def test_racks_refuse_nonsense() -> None:
    with pytest.raises(BadEntry):
        identify_rack(-3, 5)
    with pytest.raises(OutOfRange, match="no standard pitch"):
        identify_rack(282.0, 50)
    with pytest.raises(OutOfRange):
        rack(read_pitch("module 2"), 3)


def test_worm_of_two_starts() -> None:
    found = worm(read_pitch("module 2"), 2, 24.0, 40).value
    assert found.lead_mm == pytest.approx(4 * pi)
    assert found.ratio == 20.0
    with pytest.raises(OutOfRange, match="too thin"):
        worm(read_pitch("module 4"), 1, 15.0, 40)
    with pytest.raises(OutOfRange):
        worm(read_pitch("module 2"), 0, 24.0, 40)
    assert "bronze" in worm(read_pitch("module 2"), 1, 24.0, 40).working.cautions()[0]
