"""Settling of a bed and its twist, against scipy and by properties."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from scipy.optimize import curve_fit

from rebuild.errors import BadEntry
from rebuild.trade.charts.settling import Rest, fit_creep, settling, slope_text, twist_of_ends

DAYS = [0.0, 1.0, 2.0, 4.0, 7.0, 11.0, 16.0]


def creep(t: float, end: float, start: float, tau: float) -> float:
    return end + start * math.exp(-t / tau)


@settings(max_examples=40, deadline=None)
@given(st.floats(-100, 100), st.floats(20, 200), st.floats(1.0, 12.0))
def test_an_exact_creep_is_found_again(end: float, start: float, tau: float) -> None:
    curve = fit_creep(DAYS, [creep(day, end, start, tau) for day in DAYS])
    assert curve is not None
    assert curve.tau_days == pytest.approx(tau, rel=0.01)
    assert curve.end == pytest.approx(end, abs=0.02 * start)


def test_with_noise_it_is_scipys_least_squares() -> None:
    """Source: scipy.optimize.curve_fit on the same readings; both are least squares, so they agree closely."""
    rng = np.random.default_rng(7)
    values = [creep(day, 12.0, 80.0, 4.0) + rng.normal(0, 1.5) for day in DAYS]
    fitted, _ = curve_fit(
        lambda t, c, a, tau: c + a * np.exp(-t / tau), np.array(DAYS), np.array(values), p0=(10.0, 70.0, 3.0)
    )
    curve = fit_creep(DAYS, values)
    assert curve is not None
    assert (curve.end, curve.start, curve.tau_days) == pytest.approx(tuple(fitted), rel=1e-3)


def test_noise_alone_is_no_creep() -> None:
    assert fit_creep(DAYS, [20, 21, 19, 20, 21, 19, 20]) is None
    assert fit_creep(DAYS[:3], [50, 20, 10]) is None
    assert fit_creep(DAYS, [20.0] * 7) is None


def test_the_sentence_says_how_far_and_in_which_days() -> None:
    found = settling([0, 2, 5], [60, 40, 20]).value
    assert found.rest is Rest.MOVING
    assert found.text == "not settled yet: moved 0.02 mm/m in the last 3 days"
    assert settling([0, 2, 5], [60, 40, 20], unit="in").value.text.startswith(
        "not settled yet: moved 0.00024 in/ft"
    )


def test_still_readings_settle_and_few_say_nothing() -> None:
    assert settling(DAYS, [22, 21, 20, 20, 20, 20, 20]).value.rest is Rest.SETTLED
    assert settling([0.0, 1.0], [60, 60]).value.rest is Rest.TOO_FEW
    assert settling([], []).value.text.startswith("too few readings")


def test_a_slow_creep_is_not_settled_though_little_moved_lately() -> None:
    """5 µm/m in three days, but the curve has more than a division still to go."""
    values = [creep(day, 0.0, 60.0, 18.0) for day in DAYS]
    found = settling(DAYS, values, still_um_per_m=12.0).value
    assert abs(found.moved) < 12.0
    assert found.rest is Rest.MOVING
    assert found.still_to_come is not None
    assert found.still_to_come < -12.0


def test_readings_out_of_order_are_named() -> None:
    with pytest.raises(BadEntry, match="Level reading 3"):
        settling([0, 5, 3], [1, 2, 3])


def test_twist_wants_both_ends_and_divides_by_the_length() -> None:
    with pytest.raises(BadEntry, match="Only headstock end is read"):
        twist_of_ends([("headstock end", 0.0, 10.0)])
    found = twist_of_ends([("tailstock end", 1500.0, -10.0), ("headstock end", 0.0, 20.0)]).value
    assert (found.first, found.twist_um_per_m) == ("headstock end", -30.0)
    assert found.per_m_um_per_m == pytest.approx(-20.0)
    assert twist_of_ends([("one", None, 10.0), ("other", None, 30.0)]).value.per_m_um_per_m is None


def test_slopes_in_both_units() -> None:
    """0.0005 in/ft = 41.667 µm/m (unit conversions)."""
    assert slope_text(1e6 / 24_000, "in") == "0.0005 in/ft"
    assert slope_text(-20.0, sign=True) == "-0.02 mm/m"
