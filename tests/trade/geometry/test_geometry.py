"""Geometry of ways and plates: by property, against linear programming, and with its traps."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, strategies as st
from scipy.optimize import linprog

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.geometry.contact import contact
from rebuild.trade.geometry.flatness import CENTRES, DIAGONALS, EDGES, plate_flatness
from rebuild.trade.geometry.lost_motion import split
from rebuild.trade.geometry.roundness import from_v_block, v_block_factor
from rebuild.trade.geometry.squareness import by_reversal
from rebuild.trade.geometry.steps import (
    Heights,
    SlopeUnit,
    heights_of,
    slope_um_per_m,
    there_and_back,
    with_uncertainty,
)
from rebuild.trade.geometry.straightness import Reference, Shape, straightness, twist_mm_per_m

profiles = st.lists(st.integers(-2000, 2000), min_size=3, max_size=24)


def line(um: list[int], step: float = 100.0) -> Heights:
    return Heights(tuple(step * at for at in range(len(um))), tuple(value / 1000 for value in um))


@given(profiles)
def test_minimum_zone_agrees_with_linear_programming(um: list[int]) -> None:
    # Source: scipy.optimize.linprog: least w with |h - a - b·x| <= w/2 at every station.
    heights = line(um)
    x, y = np.array(heights.at_mm) / 100, np.array(heights.height_mm)
    one = np.ones_like(x)
    rows = np.vstack([np.column_stack([-x, -one, -one / 2]), np.column_stack([x, one, -one / 2])])
    solved = linprog(
        [0, 0, 1], A_ub=rows, b_ub=np.concatenate([-y, y]), bounds=[(None, None)] * 2 + [(0, None)]
    )
    found = straightness(heights, Reference.MINIMUM_ZONE).value
    assert found.deviation_mm == pytest.approx(solved.x[2], abs=1e-9)


@given(profiles)
def test_the_minimum_zone_is_the_narrowest_and_removal_is_never_negative(um: list[int]) -> None:
    heights = line(um)
    spans = {which: straightness(heights, which).value for which in Reference}
    least = spans[Reference.MINIMUM_ZONE].deviation_mm
    assert all(found.deviation_mm >= least - 1e-12 for found in spans.values())
    for found in spans.values():
        assert min(found.to_remove_mm) == 0
        assert max(found.to_remove_mm) == pytest.approx(found.deviation_mm)


@given(profiles, st.integers(-500, 500), st.integers(-50, 50))
def test_shift_and_tilt_change_nothing_but_the_line(um: list[int], shift: int, tilt: int) -> None:
    moved = line([value + shift + tilt * at for at, value in enumerate(um)])
    for which in Reference:
        assert straightness(moved, which).value.residual_mm == pytest.approx(
            straightness(line(um), which).value.residual_mm, abs=1e-9
        )


def test_shape_tells_convex_from_concave() -> None:
    # Trap D: tests often allow one of the two only.
    assert straightness(line([0, 5, 0])).value.shape is Shape.CONVEX
    assert straightness(line([0, -5, 0])).value.shape is Shape.CONCAVE
    assert straightness(line([0, 5, -5, 0])).value.shape is Shape.WAVY
    assert straightness(line([0, 5, 10])).value.shape is Shape.STRAIGHT


def test_steps_give_one_more_height_than_readings() -> None:
    # Trap D: n readings, n + 1 heights.
    assert len(heights_of([1.0] * 7, 250).value.height_mm) == 8


@given(st.lists(st.floats(-500, 500), min_size=1, max_size=30))
def test_heights_and_slopes_turn_into_each_other(slopes: list[float]) -> None:
    heights = heights_of(slopes, 125.0).value.height_mm
    back = [(b - a) / 125.0 * 1e6 for a, b in itertools.pairwise(heights)]
    assert back == pytest.approx(slopes, abs=1e-5)


def test_a_way_back_that_does_not_close_names_the_step() -> None:
    with pytest.raises(BadEntry, match=r"step 3: 5 against -5 µm/m: the same size, opposite sign"):
        there_and_back([1, 2, 5, 4], [1, 2, -5, 4], 200, allowed_um=0.5)
    # Source: 1 in/ft is 1/12: 0.0005 in/ft is 41.667 µm/m; over 5 in its double is 2 × 0.0005 × 5/12 = 0.0004 in.
    slope = 0.0005 / 12 * 1e6
    with pytest.raises(BadEntry) as told:
        there_and_back([0, 0, -slope], [0, 0, slope], 127.0, allowed_um=2.54, unit=SlopeUnit.IN_PER_FT)
    for words in ("“-0.0004 in” is beyond 0.0001 in", "step 3: -0.0005 against 0.0005 in/ft", "a sign?"):
        assert words in str(told.value)
    with pytest.raises(BadEntry, match="has 3 readings, the way there 4"):
        there_and_back([1, 2, 5, 4], [1, 2, 5], 200)


def test_uncertainty_of_a_tied_line_agrees_with_drawn_lines() -> None:
    # Source: law of propagation; checked by drawing 4,000 lines with numpy.
    steps, u = 12, 3.0
    random = np.random.default_rng(2)
    drawn = np.cumsum(random.normal(0, u, (4000, steps)) * 200e-6, axis=1)
    drawn = np.column_stack([np.zeros(4000), drawn])
    tied = drawn - drawn[:, -1:] * np.arange(steps + 1) / steps
    found = with_uncertainty(heights_of([0.0] * steps, 200).value, u).u_mm
    assert found[0] == found[-1] == 0
    assert np.std(tied, axis=0)[1:-1] == pytest.approx(np.array(found)[1:-1], rel=0.08)


def test_uneven_or_missing_stations_are_named() -> None:
    with pytest.raises(BadEntry, match="Station 3: lies at 150 mm, not beyond station 2 at 200 mm"):
        straightness(Heights((0, 200, 150), (0, 0, 0)))
    with pytest.raises(BadEntry, match="straightness needs three or more"):
        straightness(Heights((0, 200), (0, 0)))
    with pytest.raises(BadEntry, match="Value of one division"):
        slope_um_per_m(3, SlopeUnit.DIVISIONS)


def flat_plate(bow_um: float, nx: int = 8, ny: int = 6) -> dict[str, list[float]]:
    """Slopes of a dished plate z = bow·((x/X)² + (y/Y)²) on a grid of 100 mm, lines of Moody's names."""
    east, north = nx * 50.0, ny * 50.0

    def z(x: float, y: float) -> float:
        return bow_um / 1000 * ((x / east) ** 2 + (y / north) ** 2)

    corner = {"NW": (-east, north), "NE": (east, north), "SE": (east, -north), "SW": (-east, -north)}
    side = {"E": (east, 0.0), "W": (-east, 0.0), "N": (0.0, north), "S": (0.0, -north)}
    found = {}
    for name in DIAGONALS + EDGES + CENTRES:
        first, second = name.split("_")
        a, b = (corner.get(end) or side[end] for end in (first, second))
        steps = {"NE_SE": ny, "NW_SW": ny, "N_S": ny}.get(name, nx)
        points = [
            (a[0] + (b[0] - a[0]) * t / steps, a[1] + (b[1] - a[1]) * t / steps) for t in range(steps + 1)
        ]
        heights = [z(*point) for point in points]
        found[name] = [(q - p) / 100.0 * 1e6 for p, q in itertools.pairwise(heights)]
    return found


def test_a_dished_plate_comes_out_as_made_and_closes() -> None:
    found = plate_flatness(flat_plate(4.0), 100.0).value
    assert found.flatness_mm == pytest.approx(0.008, abs=1e-9)
    assert all(abs(value) < 1e-9 for value in found.closure_mm.values())


def test_a_wrong_reading_shows_in_the_closure_and_is_refused_beyond_its_limit() -> None:
    slopes = flat_plate(4.0)
    slopes["N_S"][1] += 30
    found = plate_flatness(slopes, 100.0).value
    assert abs(found.closure_mm["N_S"]) == pytest.approx(0.0015, abs=1e-6)
    with pytest.raises(BadEntry, match="Line N to S: misses the middle"):
        plate_flatness(slopes, 100.0, allowed_closure_mm=0.001)
    with pytest.raises(BadEntry, match="Line E to W: has no readings"):
        plate_flatness({name: line for name, line in slopes.items() if name != "E_W"}, 100.0)


@given(st.floats(-0.1, 0.1), st.floats(-0.1, 0.1))
def test_reversal_gives_back_machine_and_square(machine: float, square: float) -> None:
    found = by_reversal(machine + square, machine - square, 300).value
    assert found.machine_mm == pytest.approx(machine, abs=1e-12)
    assert found.square_mm == pytest.approx(square, abs=1e-12)


@pytest.mark.parametrize("included", [60, 90, 108, 120])
@pytest.mark.parametrize("lobes", [2, 3, 4, 5, 6, 7, 9])
def test_v_block_factor_agrees_with_a_turned_profile(included: float, lobes: int) -> None:
    # Source: the contact of a lobed profile turned in the block, worked out numerically.
    half, c = math.radians(included) / 2, 1e-4
    gamma = math.pi / 2 - half
    turn = np.linspace(0, 2 * math.pi, 7201)
    r = lambda angle: c * np.cos(lobes * (angle - turn))  # noqa: E731
    centre = (r(gamma) + r(-gamma)) / (2 * math.cos(gamma))
    reading = centre + r(math.pi)
    assert np.ptp(reading) / (2 * c) == pytest.approx(v_block_factor(lobes, included), abs=2e-3)


def test_a_diameter_misses_odd_lobes_and_the_sheet_says_which_block_is_blind() -> None:
    # Trap D: two-point diameter misses odd lobing.
    worked = from_v_block(0.010, 60)
    assert worked.value.by_lobes[5] is None
    assert "5 lobes: this block is blind" in worked.working.text()
    with pytest.raises(OutOfRange, match="eccentricity"):
        v_block_factor(1, 90)


def test_twist_is_the_span_of_the_cross_level() -> None:
    assert twist_mm_per_m([20.0, 45.0, 60.0], [0, 400, 800]).value == pytest.approx(0.04)


def test_lost_motion_of_the_worked_pair() -> None:
    # Source: trade notes 2.3 (invented but consistent): 0.038 in mid, 0.014 at the end, collar 0.006 of it.
    inch = 25.4
    found = split({"outer end": 0.014 * inch, "middle": 0.038 * inch}, 0.006 * inch).value
    assert found.nut_mm / inch == pytest.approx(0.008)
    assert found.screw_mm["middle"] / inch == pytest.approx(0.024)
    assert found.after_cure_mm["new or adjusted nut"] / inch == pytest.approx(0.030)
    assert found.after_cure_mm["collar and nut"] / inch == pytest.approx(0.024)


@given(st.floats(0, 1), st.floats(0, 1), st.lists(st.floats(0, 1), min_size=1, max_size=4))
def test_the_shares_add_up_at_every_place(collar: float, nut: float, screw: list[float]) -> None:
    places = {str(at): collar + nut + loss for at, loss in enumerate([0.0, *screw])}
    found = split(places, collar).value
    for place, total in places.items():
        assert found.collar_mm + found.nut_mm + found.screw_mm[place] == pytest.approx(total, abs=1e-12)


def test_end_play_larger_than_lost_motion_is_said() -> None:
    with pytest.raises(BadEntry, match="larger than the lost motion at the end"):
        split({"end": 0.1, "middle": 0.3}, 0.2)


def test_points_per_inch() -> None:
    assert contact(24).value.use.startswith("fine work")
    assert contact(7, 1.0, 0.6).value.share == 0.6
    with pytest.raises(BadEntry, match="is not a share"):
        contact(10, share=60)
