"""Helical and bevel gears derived again: a ball let down on a helicoid, cones on one line, printed formulas."""

from __future__ import annotations

from math import atan, cos, degrees, hypot, pi, radians, sin, tan

import numpy as np
import pytest
from scipy.optimize import brentq, least_squares

from rebuild.trade.gears.bevel import bevel_pair
from rebuild.trade.gears.helical import helical_gear, helix_for_centres
from rebuild.trade.gears.pins import over_pins_mm
from rebuild.trade.gears.pitches import read_pitch
from rebuild.trade.gears.spur import SpurGear
from tests.published.conftest import Checker


def _least_distance(radius: float, base: float, lead_per_rad: float, start: float) -> float:
    """From a point at (radius, 0, 0) to the involute helicoid that starts at angle ``start`` in the plane z = 0."""

    def off(at: np.ndarray) -> np.ndarray:
        roll, z = at
        turn = start + z / lead_per_rad
        x = base * (cos(turn + roll) + roll * sin(turn + roll))
        y = base * (sin(turn + roll) - roll * cos(turn + roll))
        return np.array([x - radius, y, z])

    begin = np.array([max((radius / base) ** 2 - 1, 0.01) ** 0.5, 0.0])
    found = least_squares(off, begin, method="lm", xtol=1e-14, ftol=1e-14, gtol=1e-14)
    return float((2 * found.cost) ** 0.5)


@pytest.mark.parametrize(
    ("teeth", "helix", "pressure", "shift"),
    [(20, 30.0, 20.0, 0.0), (17, 15.0, 20.0, 0.2), (24, 45.0, 14.5, 0.0), (32, 8.0, 20.0, -0.1)],
)
def test_balls_let_down_on_a_helicoid(
    teeth: int, helix: float, pressure: float, shift: float, published: Checker
) -> None:
    m = 2.0
    found = helical_gear(teeth, read_pitch("module 2"), helix, pressure, shift).value
    beta, alpha_n = radians(helix), radians(pressure)
    d = teeth * m / cos(beta)
    alpha_t = atan(tan(alpha_n) / cos(beta))
    base = d / 2 * cos(alpha_t)
    # Half the space at the pitch circle, in transverse section, and where the flank's involute then starts.
    space = (pi / 2 - 2 * shift * tan(alpha_n)) * m / cos(beta)
    start = space / d - (tan(alpha_t) - alpha_t)
    per_rad = d / 2 / tan(beta)
    radius = brentq(
        lambda r: _least_distance(r, base, per_rad, start) - found.ball_mm / 2,
        d / 2 - m,
        d / 2 + 2 * m,
        xtol=1e-9,
    )
    odd = cos(pi / (2 * teeth)) if teeth % 2 else 1.0
    want = 2 * float(radius) * odd + found.ball_mm
    published.number(
        "Helical gear over balls, ball on a helicoid",
        f"{teeth} teeth {helix:g}°",
        found.over_balls_mm,
        want,
        last_digit=1e-4,
    )


def test_a_vanishing_helix_is_a_spur_gear(published: Checker) -> None:
    for teeth in (16, 25, 40):
        near = helical_gear(teeth, read_pitch("module 2"), 0.1, 20.0).value
        spur = SpurGear(teeth, 2.0, 20.0)
        published.number(
            "Helical gear without helix",
            f"{teeth} over",
            near.over_balls_mm,
            over_pins_mm(spur, 3.456),
            last_digit=0.001,
        )
        published.number(
            "Helical gear without helix",
            f"{teeth} outside",
            near.outside_mm,
            spur.outside_mm,
            last_digit=0.001,
        )


def test_lead_and_centres_by_unrolling(published: Checker) -> None:
    """One turn of the pitch cylinder unrolled is a triangle of its circumference and the lead."""
    for teeth, helix in ((20, 30.0), (30, 20.0), (50, 12.5)):
        found = helical_gear(teeth, read_pitch("module 3"), helix, 20.0).value
        normal = 3.0 * pi * teeth  # all normal pitches, laid along the triangle's height
        along = hypot(found.lead_mm, pi * found.pitch_diameter_mm)
        height = found.lead_mm * pi * found.pitch_diameter_mm / along
        published.number(
            "Helical gear, cylinder unrolled", f"{teeth} {helix:g}°", height, normal, last_digit=1e-6
        )
        mate = helical_gear(2 * teeth, read_pitch("module 3"), helix, 20.0).value
        centres = (found.pitch_diameter_mm + mate.pitch_diameter_mm) / 2
        got = helix_for_centres(teeth, 2 * teeth, read_pitch("module 3"), centres).value
        published.number("Helical gear, cylinder unrolled", f"{teeth} back", got, helix, last_digit=1e-6)


@pytest.mark.parametrize(
    ("z1", "z2", "shaft"), [(20, 40, 90.0), (16, 16, 90.0), (15, 45, 75.0), (24, 30, 110.0)]
)
def test_bevel_cones_share_a_line(z1: int, z2: int, shaft: float, published: Checker) -> None:
    """Independent: a point of the pitch line lies at both gears' radii from their axes."""
    pair = bevel_pair(z1, z2, read_pitch("module 3"), shaft).value
    point = np.array(
        [
            pair.cone_mm * cos(radians(pair.pinion.pitch_cone_deg)),
            pair.cone_mm * sin(radians(pair.pinion.pitch_cone_deg)),
        ]
    )
    other = np.array([cos(radians(shaft)), sin(radians(shaft))])
    from_other = abs(float(point[0] * other[1] - point[1] * other[0]))
    name = f"{z1} {z2} {shaft:g}°"
    published.number(
        "Bevel gears, cones on one line", f"{name} pinion", float(point[1]), 3.0 * z1 / 2, last_digit=1e-9
    )
    published.number(
        "Bevel gears, cones on one line", f"{name} gear", from_other, 3.0 * z2 / 2, last_digit=1e-9
    )


def test_a_printed_set_of_bevel_formulas(published: Checker) -> None:
    # Source: a gear forum's list for straight bevels at 90°: PitA = atan(Np/Ng), OCD = Np / DP / 2 / sin PitA,
    # OD = N/DP + 2 Add cos PitA, DedA = atan(Ded/OCD), RA = PitA - DedA; with Ded = 1.157/DP.
    for teeth, mate, dp in ((20, 30, 8.0), (18, 54, 10.0), (25, 25, 12.0)):
        pair = bevel_pair(teeth, mate, read_pitch(f"DP {dp:g}"), 90.0, 1.157).value
        pitch = atan(teeth / mate)
        cone = teeth / dp / 2 / sin(pitch)
        for label, got, want in (
            ("cone", pair.cone_mm / 25.4, cone),
            ("pinion outside", pair.pinion.outside_mm / 25.4, teeth / dp + 2 / dp * cos(pitch)),
            ("gear outside", pair.gear.outside_mm / 25.4, mate / dp + 2 / dp * cos(pi / 2 - pitch)),
            ("pinion root", pair.pinion.root_cone_deg, degrees(pitch - atan(1.157 / dp / cone))),
            ("gear root", pair.gear.root_cone_deg, degrees(pi / 2 - pitch - atan(1.157 / dp / cone))),
        ):
            published.number(
                "Bevel gears, a forum's formulas", f"{teeth}/{mate} {label}", got, want, last_digit=1e-9
            )
