"""Between two balls in a nut: against the ball laid in the groove in space, a series by hand, and the way back."""

from __future__ import annotations

from math import atan, cos, pi, radians, sin, tan

import numpy as np
import pytest
from scipy.optimize import brentq, minimize

from rebuild.trade.threads.balls import between_balls, pitch_diameter_between
from rebuild.trade.threads.designation import parse_designation

INCH = 25.4


def laid_in_space(E: float, P: float, w: float, half_deg: float, starts: int) -> float:
    """The gap by distance alone: the ball's centre goes out until the flank, straight through the axis, touches it."""
    slope, lead = tan(radians(half_deg)), P * starts

    def reach(centre: float) -> float:
        def squared(point: np.ndarray) -> float:
            r, turn = point
            z = lead * turn / (2 * pi) + P / 4 - (r - E / 2) * slope
            return float((r * cos(turn) - centre) ** 2 + (r * sin(turn)) ** 2 + z * z)

        found = minimize(
            squared, [E / 2, 0.0], method="Nelder-Mead", options={"xatol": 1e-11, "fatol": 1e-17}
        )
        return float(np.sqrt(found.fun)) - w / 2

    centre: float = brentq(reach, E / 2 - P, E / 2 + P / 4, xtol=1e-8)
    return 2 * centre - w


@pytest.mark.parametrize(
    ("thread", "E", "P", "w"),
    [("5/8-8 ACME", 0.5549, 0.125, 0.0645), ("7/16-10 LH ACME", 0.3826, 0.1, 0.0516)],
)
def test_the_gap_is_that_of_a_ball_laid_in_the_groove(thread: str, E: float, P: float, w: float) -> None:
    """Source: distance from a point to a helicoid straight through the axis, minimised by scipy; no formula shared."""
    found = between_balls(E * INCH, w * INCH, parse_designation(thread))
    assert found.gap_mm / INCH == pytest.approx(laid_in_space(E, P, w, 14.5, 1), abs=2e-6)
    assert found.corrected


def test_the_lead_angle_by_hand() -> None:
    """5/8-8 Acme at E 0.5549: 0.5549 + 0.0625 x 3.86671 - 0.0645 x 4.99393 = 0.47446 without the lead angle.

    Second-order term (w/2) tan² s cos a cot a, s = atan(0.125 / (pi 0.5549)): 0.03225 x 0.005142 x 0.96815 x 3.86671
    = 0.00062 (the series for wires, from memory; on the hollow side it is taken off): 0.47446 - 0.00062 = 0.4738.
    """
    found = between_balls(0.5549 * INCH, 0.0645 * INCH, parse_designation("5/8-8 ACME"))
    s = atan(0.125 / (pi * 0.5549))
    term = 0.03225 * tan(s) ** 2 * cos(radians(14.5)) / tan(radians(14.5))
    assert term == pytest.approx(0.00062, abs=0.00001)
    assert found.gap_mm / INCH == pytest.approx(0.47446 - term, abs=0.00003)
    assert found.lead_correction_mm / INCH == pytest.approx(term, abs=0.00003)


def test_a_fine_vee_leaves_the_lead_angle_out_and_says_so() -> None:
    thread = parse_designation("M20x2.5")
    found = between_balls(18.376, 1.443, thread)
    assert found.rule == "without the lead angle"
    # Source: G = E + (P/2) cot 30 - w (1 + cosec 30) = 18.376 + 2.16506 - 4.329.
    assert found.gap_mm == pytest.approx(16.2121, abs=0.0001)
    worked = pitch_diameter_between(found.gap_mm, 1.443, thread)
    assert worked.value.pitch_diameter_mm == pytest.approx(18.376, abs=1e-9)
    assert "left out" in " ".join(step.text for step in worked.working.steps)
