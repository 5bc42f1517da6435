"""A reading on each guard line, and a tolerance just four times the uncertainty.

Source: ISO 14253-1:2013, 5: conformity is proven up to the limit less U, and disproven beyond the limit plus U.
"""

from __future__ import annotations

import math

import pytest

from rebuild.trade.limits.uncertainty import SUM, Budget, Component, combine
from rebuild.trade.limits.verdict import Rule, Verdict, judge, too_coarse

CONFORMS, UNDECIDED, NOT = Verdict.CONFORMS, Verdict.UNDECIDED, Verdict.DOES_NOT


def budget(u_mm: float) -> Budget:
    return combine([Component("u", u_mm, math.inf, "", SUM)], k=2).value


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        (24.9979, NOT), (24.998, UNDECIDED), (25.0019, UNDECIDED), (25.002, CONFORMS),
        (25.018, CONFORMS), (25.0181, UNDECIDED), (25.022, UNDECIDED), (25.0221, NOT),
    ],
)  # fmt: skip
def test_both_guard_lines_of_both_limits(value: float, verdict: Verdict) -> None:
    assert judge(value, 25.0, 25.02, budget(0.001), Rule.GUARD_U).value.verdict is verdict


@pytest.mark.parametrize(
    ("value", "verdict"), [(24.9999, NOT), (25.0, CONFORMS), (25.02, CONFORMS), (25.0201, NOT)]
)
def test_simple_acceptance_takes_the_limits_themselves(value: float, verdict: Verdict) -> None:
    assert judge(value, 25.0, 25.02, None, Rule.SIMPLE).value.verdict is verdict


@pytest.mark.parametrize(("U_mm", "coarse"), [(0.0049, False), (0.005, False), (0.0051, True)])
def test_a_quarter_of_the_tolerance_is_fine_enough(U_mm: float, coarse: bool) -> None:
    assert too_coarse(U_mm, 25.0, 25.02) is coarse
    assert too_coarse(U_mm, None, 0.02) is coarse
    assert too_coarse(U_mm, 25.0, None) is False
