"""A value is held when it is ten or 25.4 times off, and never when it may well be so."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import Implausible
from rebuild.work.readings.rules_plausible import SHARE, TIMES, Expected, refuse_implausible


def held(
    value: float,
    nominal: float | None = None,
    low: float | None = None,
    high: float | None = None,
    last: float | None = None,
) -> bool:
    try:
        refuse_implausible(value, Expected("journal", nominal, low, high, last), f"{value:g}", "mm")
    except Implausible:
        return True
    return False


@pytest.mark.parametrize(
    ("value", "expected", "is_held"),
    [
        (25.4, {"nominal": 1.0}, True),
        (1.0, {"nominal": 25.4}, True),
        (10.0, {"nominal": 1.0}, True),
        (1.1, {"nominal": 1.0}, False),
        (1.3, {"nominal": 1.0}, True),
        (0.02, {"low": 0.01, "high": 0.03}, False),
        (0.002, {"low": 0.01, "high": 0.03}, False),
        (0.4, {"low": 0.01, "high": 0.03}, True),
        (60.1, {"low": 59.97, "high": 59.99}, False),
        (6.01, {"low": 59.97, "high": 59.99}, True),
        (0.0001, {"high": 0.01}, False),
        (0.0, {"high": 0.01}, False),
        (0.2, {"high": 0.01}, True),
        (0.035, {"high": 0.004, "last": 0.0035}, True),
        (0.0035, {"high": 0.004, "last": 0.035}, False),
        (0.001, {"high": 0.003, "last": 0.0001}, False),
        (5.0, {}, False),
        (5.0, {"last": 0.5}, True),
        (0.05, {"last": 0.5}, False),
        (0.0, {"last": 0.0}, False),
        (-0.01, {"low": -0.02, "high": 0.02}, False),
    ],
)
def test_cases(value: float, expected: dict[str, float], is_held: bool) -> None:
    assert held(value, **expected) is is_held


SIZES = st.floats(0.5, 2000)


@given(SIZES, st.sampled_from([25.4, 1 / 25.4, 10.0, 0.1, 100.0, 0.01, -1.0]))
def test_a_slip_of_unit_point_or_sign_against_a_nominal_is_always_held(nominal: float, slip: float) -> None:
    assert held(nominal * slip, nominal=nominal)


@given(SIZES, st.floats(-SHARE * 0.99, SHARE * 0.99))
def test_wear_is_never_held(nominal: float, share: float) -> None:
    assert not held(nominal * (1 + share), nominal=nominal)


@given(st.floats(1e-4, 1), st.floats(0, TIMES * 0.99))
def test_a_small_runout_is_never_held(high: float, times: float) -> None:
    assert not held(high * times, high=high)


@pytest.mark.parametrize(
    ("value", "hint"),
    [(1524.0, "millimetres typed for inches"), (2.362, "inches typed for millimetres"), (600.0, "ten times"),
     (6.0, "a tenth"), (6000.0, "a hundred times"), (0.6, "a hundredth"), (-60.0, "other sign"), (80.0, "a fifth off")],
)  # fmt: skip
def test_the_hint_says_what_it_may_be(value: float, hint: str) -> None:
    with pytest.raises(Implausible, match=hint) as question:
        refuse_implausible(value, Expected("journal", 60.0, None, None, None), f"{value:g}", "mm")
    assert "Press Enter again" in question.value.way_out
