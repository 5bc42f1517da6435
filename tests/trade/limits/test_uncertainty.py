"""Budgets: each part by its own rule, their sum, temperature, and what is not known."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies as st
from uncertainties import ufloat

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.limits.t_factor import student_t
from rebuild.trade.limits.uncertainty import (
    SUM,
    Component,
    InstrumentLimit,
    combine,
    reading_budget,
    to_20C,
)

STEEL = 11.5e-6
AT_20 = {"temperature_C": 20.0, "part_alpha_per_K": STEEL, "temperature_known_within_K": 0.0}


def part(budget, name):
    return next(item for item in budget.components if item.name == name)


def test_resolution_is_full_width_over_root_12():
    # Trap: r/√12, not r/2 nor r/√3.
    budget = reading_budget(InstrumentLimit("dial", 0.01), length_mm=25, **AT_20).value
    assert part(budget, "resolution").u_mm == pytest.approx(0.01 / math.sqrt(12))
    assert budget.u_mm == pytest.approx(0.0028868, abs=1e-7)


def test_error_limit_is_rectangular_and_no_expanded_uncertainty():
    # Trap: a maker's MPE is not U.
    budget = reading_budget(InstrumentLimit("mic", 0.0, mpe_mm=0.004), length_mm=25, **AT_20).value
    assert part(budget, "mic").u_mm == pytest.approx(0.004 / math.sqrt(3))


def test_stated_uncertainty_replaces_the_error_limit():
    certified = InstrumentLimit("mic", 0.0, mpe_mm=0.004, expanded_U_mm=0.0012, k=2)
    budget = reading_budget(certified, length_mm=25, **AT_20).value
    assert part(budget, "mic").u_mm == pytest.approx(0.0006)


def test_repeats_are_divided_by_root_n_and_have_n_less_1():
    # Trap: t for n - 1, and the mean's s is divided by √n. s of 1, 2, 3, 4 µm is 1.29099 µm.
    readings = [25.001, 25.002, 25.003, 25.004]
    budget = reading_budget(None, repeats_mm=readings, length_mm=25).value
    assert budget.u_mm * 1000 == pytest.approx(1.29099 / 2, abs=1e-5)
    assert budget.dof == 3
    assert budget.k == pytest.approx(3.1824, abs=1e-4)
    assert not budget.complete


def test_one_reading_and_no_instrument_says_nothing():
    worked = reading_budget(None, repeats_mm=[25.0], length_mm=25)
    assert worked.value.u_mm == 0
    assert not worked.value.complete
    assert "No error limit of an instrument is known" in worked.working.text()


def test_k_of_two_by_convention():
    mic = InstrumentLimit("mic", 0.001, mpe_mm=0.004)
    by_t = reading_budget(mic, length_mm=25, **AT_20).value
    by_two = reading_budget(mic, length_mm=25, k=2.0, **AT_20).value
    assert by_t.k == pytest.approx(1.95996, abs=1e-5)
    assert by_two.U_mm == pytest.approx(2 * by_two.u_mm)


def test_left_out_correction_widens_the_budget():
    mic = InstrumentLimit("mic", 0.001)
    known = {"length_mm": 200, "temperature_C": 30.0, "part_alpha_per_K": 23.6e-6}
    kept = reading_budget(mic, corrected=True, **known).value
    left = reading_budget(mic, corrected=False, **known).value
    assert part(left, "not corrected to 20 °C").u_mm == pytest.approx(200 * 12.1e-6 * 10 / math.sqrt(3))
    assert left.u_mm > kept.u_mm


def test_unknown_temperature_and_material_cost_more_than_known():
    mic = InstrumentLimit("mic", 0.001)
    known = reading_budget(mic, length_mm=100, temperature_C=20, part_alpha_per_K=STEEL).value
    no_temperature = reading_budget(mic, length_mm=100, temperature_C=None, part_alpha_per_K=18e-6).value
    no_material = reading_budget(mic, length_mm=100, temperature_C=5, part_alpha_per_K=None).value
    # Both unknown: the product of two rectangular widths, L·(12.5e-6/√3)·(15/√3).
    neither = reading_budget(mic, length_mm=100, temperature_C=None, part_alpha_per_K=None).value
    assert part(neither, "expansion figures").u_mm == pytest.approx(100 * 12.5e-6 * 15 / 3)
    assert known.u_mm < no_temperature.u_mm
    assert known.u_mm < no_material.u_mm


def test_correction_of_a_warm_aluminium_part():
    worked = to_20C(100, 25, 23.6e-6, STEEL)
    assert worked.value == pytest.approx(99.99395)
    assert "99.993950" in worked.working.text()


def test_expansion_given_per_million_is_refused():
    with pytest.raises(BadEntry, match="per kelvin"):
        to_20C(100, 25, 23.6, 11.5)


@pytest.mark.parametrize("degrees", [-90.0, 121.0, 300.0])
def test_far_from_room_temperature_is_refused(degrees):
    with pytest.raises(OutOfRange, match="-80 to 120"):
        to_20C(100, degrees, STEEL, STEEL)
    with pytest.raises(OutOfRange, match="-80 to 120"):
        reading_budget(InstrumentLimit("mic", 0.001), length_mm=100, temperature_C=degrees)


@pytest.mark.parametrize(
    "wrong",
    [
        {"instrument": InstrumentLimit("mic", -0.001)},
        {"instrument": InstrumentLimit("mic", 0.001, mpe_mm=-0.004)},
        {"instrument": InstrumentLimit("mic", 0.001, expanded_U_mm=0.001, k=0)},
        {"length_mm": -1.0},
        {"temperature_known_within_K": -1.0},
    ],
)
def test_negative_limits_are_refused(wrong):
    given_values = {"instrument": InstrumentLimit("mic", 0.001), "length_mm": 25.0} | wrong
    with pytest.raises(BadEntry):
        reading_budget(given_values.pop("instrument"), **given_values)


@pytest.mark.parametrize(("coverage", "dof"), [(0.0, 5), (1.0, 5), (0.95, 0), (-1, 3)])
def test_t_refuses_what_it_cannot_give(coverage, dof):
    with pytest.raises(OutOfRange):
        student_t(coverage, dof)


us = st.lists(st.floats(1e-7, 0.1), min_size=1, max_size=6)


@given(us=us)
def test_sum_agrees_with_an_independent_library(us):
    total = sum((ufloat(0.0, u) for u in us[1:]), ufloat(0.0, us[0]))
    got = combine([Component(str(i), u, math.inf, "", SUM) for i, u in enumerate(us)]).value
    assert got.u_mm == pytest.approx(total.std_dev, rel=1e-12)


@given(us=us, dofs=st.lists(st.integers(1, 50), min_size=6, max_size=6))
def test_effective_freedom_lies_between_the_smallest_and_the_sum(us, dofs):
    parts = [Component(str(i), u, dof, "", SUM) for i, (u, dof) in enumerate(zip(us, dofs, strict=False))]
    used = [part.dof for part in parts]
    budget = combine(parts).value
    assert min(used) - 1e-9 <= budget.dof <= sum(used) + 1e-6


@given(us=us, factor=st.floats(1e-2, 1e3))
def test_budget_does_not_depend_on_the_unit(us, factor):
    def of(scale):
        return combine([Component(str(i), u * scale, 4, "", SUM) for i, u in enumerate(us)]).value

    assert of(factor).U_mm == pytest.approx(of(1.0).U_mm * factor, rel=1e-9)


@given(
    length=st.floats(1, 1000),
    part_C=st.floats(-20, 60),
    alpha=st.floats(1e-6, 30e-6),
    scale=st.floats(1e-6, 30e-6),
)
def test_correction_round_trip_and_sign(length, part_C, alpha, scale):
    back = to_20C(length, part_C, alpha, scale).value
    assert back == pytest.approx(length * (1 - (alpha - scale) * (part_C - 20)), rel=1e-12)
    assert to_20C(length, part_C, alpha, alpha).value == pytest.approx(length, rel=1e-12)
    assert to_20C(length, 20, alpha, scale).value == length


@given(dof=st.floats(1, 1e6), coverages=st.lists(st.floats(0.01, 0.9999), min_size=2, max_size=2))
def test_t_grows_with_coverage_and_falls_with_freedom(dof, coverages):
    low, high = sorted(coverages)
    assert student_t(low, dof) <= student_t(high, dof) * (1 + 1e-12)
    assert student_t(high, dof + 1) <= student_t(high, dof) * (1 + 1e-9)
