"""Dovetails, gibs, belts and spindle drives: printed examples, and each derived again another way."""

from __future__ import annotations

from math import cos, radians, sin, tan

import numpy as np
import pytest
from scipy.spatial import ConvexHull

from rebuild.trade.drives.belts import belt_length, centres_for
from rebuild.trade.drives.spindle_speeds import Pair, spindle_speeds
from rebuild.trade.geometry.dovetail import over_rollers, scraping, taper_gib, width_from_rollers
from tests.published.conftest import Checker


def test_printed_dovetails(published: Checker) -> None:
    # Source: two public pages with a worked example each: 60°, 40 mm base, 10 mm pins; 60°, 1.0 in, 0.25 in pins.
    got = over_rollers("external", 40.0, 20.0, 60.0, 10.0).value.rollers_mm
    published.number("Dovetail over pins, printed example", "40 mm, 10 mm", got, 67.3205, last_digit=1e-4)
    got = over_rollers("external", 25.4, 15.0, 60.0, 6.35).value.rollers_mm / 25.4
    published.number("Dovetail over pins, printed example", "1 in, 1/4 in", got, 1.6830, last_digit=1e-4)
    # Source: a forum's worked triangle: 4 mm high, 60°, 20 mm wide at the narrow side is 24.6188 mm wide.
    got = over_rollers("external", 20.0, 4.0, 60.0, 3.0).value.wide_mm
    published.number("Dovetail over pins, printed example", "4 mm high", got, 24.6188, last_digit=1e-4)


def _centre(angle_deg: float, roller: float) -> tuple[float, float]:
    """A circle's centre at equal distance from base and flank, by solving both distances at once."""
    alpha = radians(angle_deg)
    lines = np.array([[0.0, 1.0], [sin(alpha), -cos(alpha)]])
    x, y = np.linalg.solve(lines, np.array([roller / 2, roller / 2]))
    return float(x), float(y)


@pytest.mark.parametrize("angle", [45.0, 50.0, 55.0, 60.0, 70.0])
def test_dovetails_by_solving_two_distances(angle: float, published: Checker) -> None:
    source = "Dovetail, circle against two lines"
    for roller in (5.0, 8.0, 12.7):
        x, _ = _centre(angle, roller)
        for kind in ("external", "internal"):
            for at in ("narrow", "wide"):
                found = over_rollers(kind, 80.0, 18.0, angle, roller, at).value
                base = found.narrow_mm if kind == "external" else found.wide_mm
                want = base + 2 * x + roller if kind == "external" else base - 2 * x - roller
                published.number(
                    source, f"{kind} {angle:g}° {roller:g} {at}", found.rollers_mm, want, last_digit=1e-9
                )
                again = width_from_rollers(kind, want, 18.0, angle, roller).value
                published.number(
                    source,
                    f"back {kind} {angle:g}° {roller:g} {at}",
                    again.narrow_mm,
                    found.narrow_mm,
                    last_digit=1e-9,
                )


@pytest.mark.parametrize("angle", [50.0, 60.0])
def test_scraping_by_moving_the_lines(angle: float, published: Checker) -> None:
    """The flank moved square to itself by s, the base by t: where the circle's centre then is."""
    alpha, roller, s = radians(angle), 10.0, 0.05
    before = np.array(_centre(angle, roller))
    lines = np.array([[0.0, 1.0], [sin(alpha), -cos(alpha)]])
    flank = np.linalg.solve(lines, np.array([roller / 2, roller / 2 - s]))
    moved = 2 * (before[0] - float(flank[0]))
    source = "Scraped dovetail, lines moved"
    published.number(
        source,
        f"flanks {angle:g}°",
        scraping("external", moved, 0.0, angle).value.each_flank_mm,
        s,
        last_digit=1e-9,
    )
    base = np.linalg.solve(lines, np.array([roller / 2 - s, roller / 2]))
    moved = 2 * (before[0] - float(base[0]))
    published.number(
        source, f"flat {angle:g}°", scraping("external", moved, 0.0, angle).value.base_mm, s, last_digit=1e-9
    )
    # A gib's play: the slide moved sideways until its flank is t nearer, and the wedge that fills t.
    gib = taper_gib(0.2, 60.0, 300.0, 6.0, angle).value
    nearer = float(np.array([sin(alpha), -cos(alpha)]) @ np.array([0.2, 0.0]))
    published.number(source, f"gib {angle:g}°", gib.shim_mm, nearer, last_digit=1e-9)
    published.number(
        source, f"wedge {angle:g}°", gib.advance_mm * (gib.thick_mm - 6.0) / 300.0, nearer, last_digit=1e-9
    )


def test_printed_belts(published: Checker) -> None:
    # Source: a question of a public school site: 1600 and 500 mm pulleys, 12 m apart, open: 27.32 m.
    published.number(
        "Belt, printed example",
        "1.6 m",
        belt_length(500.0, 1600.0, 12000.0).value.length_mm / 1000,
        27.32,
        last_digit=0.01,
    )
    # Source: a public mathematics site: 105 and 393 mm, 697 mm apart: 2.2 m; each straight 681.96 mm.
    published.number(
        "Belt, printed example",
        "105 mm",
        belt_length(105.0, 393.0, 697.0).value.length_mm / 1000,
        2.2,
        last_digit=0.1,
    )


@pytest.mark.parametrize(
    ("first", "second", "centres"), [(100, 100, 400), (60, 180, 350), (105, 393, 697), (80, 250, 200)]
)
def test_belts_by_a_polygon_and_by_another_formula(
    first: float, second: float, centres: float, published: Checker
) -> None:
    """An open belt is the hull round two circles; a machinist's page has 2 R (π - a + tan a) + 2 r (a - tan a)."""
    turn = np.linspace(0, 2 * np.pi, 20001)
    circles = [
        np.column_stack((at + d / 2 * np.cos(turn), d / 2 * np.sin(turn)))
        for at, d in ((0.0, first), (centres, second))
    ]
    hull = ConvexHull(np.vstack(circles)).area  # in the plane, its perimeter
    got = belt_length(first, second, centres).value
    name = f"{first} {second} {centres}"
    published.number("Open belt, hull of two circles", name, got.length_mm, hull, last_digit=0.001)
    large, small = max(first, second) / 2, min(first, second) / 2
    a = float(np.arccos((large - small) / centres))
    other = (
        2 * large * (np.pi - a + tan(a)) + 2 * small * (a - tan(a))
        if large > small
        else 2 * np.pi * large + 2 * centres
    )
    published.number("Open belt, a machinist's formula", name, got.length_mm, float(other), last_digit=1e-6)
    back = centres_for(first, second, got.length_mm).value.centres_mm
    published.number("Open belt, and back", name, back, centres, last_digit=1e-6)
    crossed = belt_length(first, second, centres, "crossed").value if centres > (first + second) / 2 else None
    if crossed is not None:
        beta = float(np.arcsin((first + second) / 2 / centres))
        want = 2 * centres * cos(beta) + (first + second) / 2 * (np.pi + 2 * beta)
        published.number("Crossed belt, by its angle", name, crossed.length_mm, want, last_digit=1e-9)


def test_a_drive_turn_by_turn(published: Checker) -> None:
    """Rim speeds instead of ratios: what leaves one pulley arrives at the next."""
    cone = ((140.0, 60.0), (100.0, 100.0), (60.0, 140.0))
    found = spindle_speeds(
        1440.0, (Pair(60, 180),), tuple(Pair(*one) for one in cone), (Pair(22, 66), Pair(20, 68))
    ).value
    counter = 1440.0 * np.pi * 60 / (np.pi * 180)
    for driver, driven in cone:
        direct = counter * np.pi * driver / (np.pi * driven)
        teeth = direct * 22 / 66 * 20 / 68
        for back, want in ((False, direct), (True, teeth)):
            got = next(one.rpm for one in found if one.back_gear is back and one.step.driver == driver)
            published.number(
                "Drive, rim by rim", f"{driver:g}/{driven:g} {back}", got, float(want), last_digit=1e-9
            )
