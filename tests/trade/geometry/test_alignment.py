"""Ways, collars, bars, screws and dials against numpy and hand derivations; each refusal by its sentence."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.geometry.bar_sag import Held, bar_sag
from rebuild.trade.geometry.lead_error import dial_error, lead_error
from rebuild.trade.geometry.slope_entry import parse_division
from rebuild.trade.geometry.two_collar import two_collars
from rebuild.trade.geometry.ways import Guide, Way, guide_of, way_named, ways_effect, worn_flanks
from rebuild.trade.geometry.wear_effect import front_way_drop
from rebuild.trade.shop.materials import wanted

lathes = st.tuples(st.floats(80.0, 300.0), st.floats(150.0, 500.0), st.floats(5.0, 140.0))
drops = st.floats(-0.3, 0.3)


def by_rigid_motion(front: float, rear: float, H: float, B: float, d: float, guide: Guide) -> float:
    """Independent: the saddle's two feet and its tool as points, moved by a numpy rotation until the feet lie on.

    The guide's foot lies on its worn apex; the angle is found by Newton's method on the other foot's height alone.
    """
    feet = np.array([[0.0, 0.0], [B, 0.0]])
    tool = np.array([B / 2 - d / 2, H])
    drop = np.array([-front, -rear])
    held, other = (0, 1) if guide is Guide.FRONT else (1, 0)

    def moved(point: np.ndarray, angle: float) -> np.ndarray:
        turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
        made: np.ndarray = turn @ (point - feet[held]) + feet[held] + np.array([0.0, drop[held]])
        return made

    angle = 0.0
    for _ in range(8):
        gap = moved(feet[other], angle)[1] - drop[other]
        slope = (moved(feet[other], angle + 1e-6)[1] - moved(feet[other], angle - 1e-6)[1]) / 2e-6
        angle -= gap / slope
    spindle = np.array([B / 2, H])
    return float(2 * np.linalg.norm(moved(tool, angle) - spindle) - d)


@given(drops, drops, lathes, st.sampled_from(Guide))
@settings(max_examples=25)
def test_both_ways_move_the_tool_as_a_rigid_saddle(
    front: float, rear: float, lathe: tuple[float, float, float], guide: Guide
) -> None:
    H, B, d = lathe
    found = ways_effect(front, rear, H, B, d, guide).value
    assert found.diameter_error_mm == pytest.approx(by_rigid_motion(front, rear, H, B, d, guide), abs=2e-8)


def test_the_published_front_way_is_one_case_of_both() -> None:
    # Source: a rebuilder's notes, as in tests/published: 0.0065 in drop, 4.6 over 6.2 in: 0.0048 sideways, 0.0096 on
    # diameter (twice the rounded 0.0048). And the front way alone, turned about the rear, is the older function.
    inch = 25.4
    both = ways_effect(0.0065 * inch, 0.0, 4.6 * inch, 6.2 * inch, inch, Guide.REAR).value
    assert both.tool_out_mm / inch == pytest.approx(0.0048, abs=5e-5)
    assert both.approximate_mm / inch == pytest.approx(0.0096, abs=1e-4)
    old = front_way_drop(0.0065 * inch, 4.6 * inch, 6.2 * inch, inch).value
    assert both.diameter_error_mm == pytest.approx(old.diameter_error_mm, abs=1e-12)


def test_a_rear_way_turns_smaller_and_equal_wear_hardly_shows() -> None:
    rear = ways_effect(0.0, 0.1, 165.0, 280.0, 40.0).value
    front = ways_effect(0.1, 0.0, 165.0, 280.0, 40.0).value
    assert rear.diameter_error_mm == pytest.approx(-2 * 0.1 * 165 / 280, abs=5e-4)
    assert front.diameter_error_mm == pytest.approx(2 * 0.1 * 165 / 280, abs=5e-4)
    # Equal: 2√((d/2)² + w²) - d = 2 w²/d to first order, by hand 2 · 0.01 / 40 = 0.0005.
    assert ways_effect(0.1, 0.1, 165.0, 280.0, 40.0).value.diameter_error_mm == pytest.approx(
        0.0005, abs=1e-6
    )
    assert ways_effect(
        0.0, 0.0, 165.0, 280.0, 40.0, sideways_mm=0.01
    ).value.diameter_error_mm == pytest.approx(0.02)


def test_worn_flanks_meet_where_two_lines_cross() -> None:
    # Independent: the two worn flanks as lines n·p = -wear, solved by numpy.
    for front, rear, angle in ((0.02, 0.0, 45.0), (0.03, 0.01, 45.0), (0.01, 0.04, 35.0)):
        a = np.radians(angle)
        normals = np.array(
            [[-np.sin(a), np.cos(a)], [np.sin(a), np.cos(a)]]
        )  # front flank falls to the front
        x, z = np.linalg.solve(normals, np.array([-front, -rear]))
        found = worn_flanks(front, rear, angle).value
        assert found.down_mm == pytest.approx(-z)
        assert found.to_front_mm == pytest.approx(x)


@pytest.mark.parametrize(
    ("name", "way"),
    [
        ("front V", Way.FRONT_V), ("Front vee way", Way.FRONT_V), ("front", Way.FRONT_V),
        ("front flat", Way.FRONT_FLAT),
        ("rear flat", Way.REAR_FLAT), ("rear V", Way.REAR_V), ("back", Way.REAR_FLAT), ("left way", Way.OTHER),
        ("front V, sideways", Way.SIDEWAYS), ("tailstock front V", Way.OTHER),
    ],
)  # fmt: skip
def test_a_line_s_name_says_which_way_it_is(name: str, way: Way) -> None:
    assert way_named(name) is way


def test_the_v_guides() -> None:
    assert guide_of((Way.FRONT_V, Way.REAR_FLAT)) is Guide.FRONT
    assert guide_of((Way.FRONT_FLAT, Way.REAR_V)) is Guide.REAR
    assert guide_of((Way.FRONT_FLAT, Way.REAR_FLAT)) is Guide.FRONT


def test_two_collars_lean_as_their_radii_do() -> None:
    # By hand: radii 20.000 and 20.006 over 150 mm lean 0.006; over 300 twice that; at 400 mm from the pivot 0.016.
    lean = two_collars(40.0, 40.012, 150.0, pivot_to_screw_mm=400.0, allowed_mm=0.012).value
    assert (lean.over_collars_mm, lean.over_per_mm, lean.at_screw_mm) == pytest.approx((0.006, 0.012, 0.016))
    assert lean.within is True
    assert two_collars(40.0, 40.0121, 150.0, allowed_mm=0.012).value.within is False
    assert two_collars(40.012, 40.0, 150.0).value.over_per_mm == pytest.approx(-0.012)


@pytest.mark.parametrize(("outside", "bore"), [(40.0, 0.0), (50.0, 30.0)])
def test_a_bar_sags_as_its_beam_does(outside: float, bore: float) -> None:
    # Independent: E I y'' = M(x) integrated twice by numpy's trapezoid, M = w (L - x)²/2 from the fixed end.
    steel, L, D, d = wanted("steel").material, 0.3, outside / 1000, bore / 1000
    area, second = np.pi / 4 * (D**2 - d**2), np.pi / 64 * (D**4 - d**4)
    w = steel.density_kg_m3 * 9.80665 * area
    x = np.linspace(0.0, L, 20_001)
    bend = w * (L - x) ** 2 / 2 / (steel.E_GPa * 1e9 * second)
    slope = np.concatenate(([0.0], np.cumsum((bend[1:] + bend[:-1]) / 2 * np.diff(x))))
    sag = float(np.sum((slope[1:] + slope[:-1]) / 2 * np.diff(x)))
    found = bar_sag(outside, 300.0, bore_mm=bore).value
    assert found.sag_mm == pytest.approx(sag * 1000, rel=1e-6)
    assert found.slope_mm_per_m == pytest.approx(float(slope[-1]) * 1000, rel=1e-6)
    # Between centres 5/384 against 1/8: by hand 48/5 = 9.6 times stiffer.
    assert found.sag_mm / bar_sag(outside, 300.0, Held.CENTRES, bore).value.sag_mm == pytest.approx(9.6)


def test_a_leadscrew_against_numpy() -> None:
    at = np.arange(0.0, 1001.0, 50.0)
    error = 0.00004 * at + 0.006 * np.exp(-(((at - 300) / 120) ** 2))
    found = lead_error(tuple(at), tuple(error)).value
    slope, start = np.polyfit(at, error, 1)
    left = error - slope * at - start
    assert found.even_mm == pytest.approx(slope * 300)
    assert found.left_mm == pytest.approx(float(np.ptp(left)))
    worst = max(abs(error[j] - error[i]) for i in range(21) for j in range(i, 21) if at[j] - at[i] <= 300)
    assert found.worst_mm == pytest.approx(worst)
    assert found.whole_mm == pytest.approx(float(np.ptp(error)))


def test_a_dial_against_numpy_s_transform() -> None:
    turn = 2 * np.pi * np.arange(20) / 20
    wave = 0.008 * np.sin(turn + 0.7) + 0.001 * np.cos(5 * turn)
    errors = [*wave + 0.006 * np.arange(20) / 20, wave[0] + 0.006]
    found = dial_error([float(one) for one in errors]).value
    first = np.fft.fft(wave)[1] / 10
    assert found.wave_mm == pytest.approx(float(abs(first)))
    assert found.even_mm == pytest.approx(0.006)
    assert found.highest_deg == pytest.approx(float(np.degrees(np.pi / 2 - 0.7)), abs=1e-6)
    assert found.left_mm == pytest.approx(0.002, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "wants"),
    # By hand: 0.02 mm/m = 20 µm/m; 0.0005 in/ft = 500/12 µm/m; 1 arcsec = π/648000 rad = 4.8481 µm/m.
    [("0.02 mm/m", 20.0), ("0,02 mm/m", 20.0), ("0.0005 in/ft", 500 / 12), ("10 arcsec", 48.481368), ("20 µm/m", 20.0),
     ("20", 20.0), ("0.05 mm per metre", 50.0)],
)  # fmt: skip
def test_a_division_is_read_with_its_unit(text: str, wants: float) -> None:
    assert parse_division(text) == pytest.approx(wants, abs=1e-6)


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(BadEntry, match="less than any level shows in µm/m"):
        parse_division("0.02")
    with pytest.raises(BadEntry, match="coarser than a level"):
        parse_division("21 mm/m")
    with pytest.raises(OutOfRange, match="damage, not wear"):
        ways_effect(20.0, 0.0, 165.0, 280.0, 40.0)
    with pytest.raises(OutOfRange, match="larger than the ways are apart"):
        ways_effect(0.1, 0.0, 165.0, 280.0, 280.0)
    with pytest.raises(BadEntry, match="Way spacing"):
        ways_effect(0.1, 0.0, 165.0, 0.0, 40.0)
    with pytest.raises(OutOfRange, match="lost in the finish"):
        two_collars(40.0, 40.01, 49.9)
    assert two_collars(40.0, 40.01, 50.0).value.within is None
    with pytest.raises(OutOfRange, match="not one setting"):
        two_collars(40.0, 43.0, 150.0)
    with pytest.raises(OutOfRange, match="no beam"):
        bar_sag(40.0, 79.0)
    with pytest.raises(BadEntry, match="not a bar with that bore"):
        bar_sag(40.0, 300.0, bore_mm=40.0)
    with pytest.raises(BadEntry, match="three or more"):
        lead_error([0.0, 100.0], [0.0, 0.01])
    with pytest.raises(BadEntry, match="do not rise"):
        lead_error([0.0, 100.0, 100.0], [0.0, 0.01, 0.02])
    with pytest.raises(BadEntry, match="five or more"):
        dial_error([0.0, 0.01, 0.02, 0.0])
