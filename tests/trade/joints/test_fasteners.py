"""Bolts, thread engagement and set screws."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.bolts import bolt_thread, grades, proof, stress_area_mm2, tighten
from rebuild.trade.joints.engagement import engagement
from rebuild.trade.joints.set_screws import PAIRS, POINTS, hold, set_screw, set_screws
from rebuild.trade.shop.materials import material


@pytest.mark.parametrize(
    ("typed", "name", "d_mm"),
    [
        ("M10", "M10x1.5", 10.0),
        ("m10x1.25", "M10x1.25", 10.0),
        ("M8 × 1", "M8x1", 8.0),
        ("3/8-16", "3/8-16", 9.525),
        ("3/8", "3/8-16", 9.525),
        ("1/4-28 UNF", "1/4-28", 6.35),
        ("1/4 UNF", "1/4-28", 6.35),
        ("#10-32", "#10-32", 4.826),
        ("10-32", "#10-32", 4.826),
        ("1-1/8-7", "1-1/8-7", 28.575),
    ],
)
def test_bolts_as_written(typed: str, name: str, d_mm: float) -> None:
    found = bolt_thread(typed)
    assert found.name == name
    assert found.d_mm == pytest.approx(d_mm)


@pytest.mark.parametrize("typed", ["", "big", "M", "3/8-"])
def test_not_a_bolt(typed: str) -> None:
    with pytest.raises(BadEntry, match=r"M10x1\.25"):
        bolt_thread(typed)


def test_sizes_without_a_table_are_refused() -> None:
    with pytest.raises(OutOfRange, match="Type its pitch"):
        bolt_thread("M11")
    assert bolt_thread("M11x1").d_mm == 11.0
    with pytest.raises(OutOfRange):
        bolt_thread("5/7-10")
    with pytest.raises(BadEntry, match="does not belong"):
        bolt_thread("M6x4")


@pytest.mark.parametrize(
    ("typed", "area_in2"), [("1/4-20", 0.0318), ("3/8-16", 0.0775), ("1/2-13", 0.1419), ("1/4-28", 0.0364)]
)
def test_inch_stress_areas(typed: str, area_in2: float) -> None:
    # Source: ASME B1.1 stress areas, handbook values (from memory), four places.
    assert bolt_thread(typed).area_mm2 / 645.16 == pytest.approx(area_in2, abs=6e-5)


def test_trap_class_8_8_changes_at_sixteen_millimetres() -> None:
    # Trap F: ISO 898-1 gives 580 MPa for d <= 16 mm and 600 above; a public example used 600 for M10.
    assert proof("8.8", 16.0).proof_MPa == 580
    assert proof("8.8", 16.01).proof_MPa == 600
    m10 = tighten(bolt_thread("M10"), proof("8.8", 10)).value
    assert m10.torque_Nm == pytest.approx(50.46, abs=0.005)


def test_sae_grade_5_changes_above_an_inch() -> None:
    assert proof("grade 5", 25.4).proof_MPa == pytest.approx(85 * 6.894757, abs=0.1)
    assert proof("grade 5", 28.6).proof_MPa == pytest.approx(74 * 6.894757, abs=0.1)


def test_unknown_grades_and_sizes() -> None:
    with pytest.raises(OutOfRange, match=r"Classes: 4\.6"):
        proof("7.7", 10)
    with pytest.raises(OutOfRange, match="1 to 39 mm"):
        proof("10.9", 60)
    assert "grade 8" in grades()


@given(st.sampled_from(["M6", "M10", "M20", "3/8", "1/2-20"]), st.floats(0.1, 0.9), st.floats(0.08, 0.3))
def test_torque_is_proportional_and_consistent(bolt: str, share: float, k: float) -> None:
    thread = bolt_thread(bolt)
    strength = proof("8.8" if bolt.startswith("M") else "grade 5", thread.d_mm)
    found = tighten(thread, strength, k, share).value
    assert found.torque_Nm == pytest.approx(k * found.preload_kN * thread.d_mm)
    half = tighten(thread, strength, k, share / 2).value
    assert half.torque_Nm == pytest.approx(found.torque_Nm / 2)
    assert found.torque_range_Nm[0] < found.torque_Nm < found.torque_range_Nm[1]


@pytest.mark.parametrize(("k", "share"), [(0.2, 0.0), (0.2, 1.2), (0.0, 0.75), (2.0, 0.75)])
def test_impossible_tightening(k: float, share: float) -> None:
    with pytest.raises(BadEntry):
        tighten(bolt_thread("M10"), proof("8.8", 10), k, share)


@given(st.floats(3, 60), st.floats(0.05, 0.2))
def test_stress_area_lies_under_the_shank(d: float, share: float) -> None:
    shank = 3.14159265 / 4 * d * d
    assert 0 < stress_area_mm2(d, d * share) < shank


def test_cast_iron_wants_one_and_a_half_diameters_or_more() -> None:
    iron, aluminium = material("grey cast iron EN-GJL-250"), material("aluminium 6061")
    thread = bolt_thread("1/2-13")
    found = engagement(thread, 30.0, iron).value
    assert found.practice_mm == pytest.approx(1.5 * 12.7)
    assert found.wanted_mm >= found.practice_mm
    assert engagement(thread, 30.0, aluminium).value.practice_mm == pytest.approx(2 * 12.7)
    assert engagement(thread, 30.0, material("steel 1045 / C45")).value.practice_mm == pytest.approx(12.7)


def test_a_thread_that_would_strip_is_refused() -> None:
    iron = material("grey cast iron")
    with pytest.raises(OutOfRange, match="would strip"):
        engagement(bolt_thread("M10"), 40.0, iron, 8.0)
    with pytest.raises(BadEntry):
        engagement(bolt_thread("M10"), 0.0, iron)
    with pytest.raises(OutOfRange, match="no strength"):
        engagement(bolt_thread("M10"), 10.0, material("gauge-block steel"))


@given(st.floats(6, 30), st.sampled_from(sorted(POINTS)), st.sampled_from(sorted(PAIRS)))
def test_hold_grows_with_the_shaft(shaft: float, point: str, pair: str) -> None:
    screw = set_screw("#10")
    here = hold(screw, shaft, point, pair).value
    assert here.torque_Nm == pytest.approx(here.axial_N * shaft / 2000)
    assert hold(screw, shaft * 1.5, point, pair).value.axial_N == pytest.approx(here.axial_N)
    assert hold(screw, shaft, point, pair, hard_shaft=True).value.axial_N < here.axial_N


def test_two_screws_opposite_do_not_hold_twice() -> None:
    screw = set_screw("5/16")
    one = hold(screw, 16).value.axial_N
    assert hold(screw, 16, pair="two at 180 degrees").value.axial_N == pytest.approx(1.3 * one)
    assert hold(screw, 16, pair="two in line along the shaft").value.axial_N == pytest.approx(2 * one)


def test_the_second_screw_on_top_locks_and_hides() -> None:
    stacked = hold(set_screw("5/16"), 16, pair="one on top of the other")
    assert stacked.value.axial_N == hold(set_screw("5/16"), 16).value.axial_N
    assert "removal log" in stacked.working.text()
    assert "second screw under the first" in hold(set_screw("5/16"), 16).working.text()


def test_metric_screws_say_where_their_hold_comes_from() -> None:
    found = hold(set_screw("M6"), 12.0)
    assert "1/4 screw" in found.working.text()
    assert found.value.seating_Nm == 7.2
    larger = [one.seating_Nm for one in set_screws() if one.size.startswith("M")]
    assert larger == sorted(larger)


def test_set_screw_refusals() -> None:
    with pytest.raises(OutOfRange, match="Sizes: #0"):
        set_screw("2 in")
    with pytest.raises(OutOfRange, match="half the shaft"):
        hold(set_screw("1/2"), 10.0)
    with pytest.raises(BadEntry, match="cup"):
        hold(set_screw("1/4"), 20.0, point="sharp")
