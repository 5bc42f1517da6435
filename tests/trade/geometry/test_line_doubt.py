"""The uncertainty of a line's deviation, recomputed with numpy: sensitivities by finite differences, and by chance."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from scipy import stats  # type: ignore[import-untyped]

from rebuild.trade.geometry.line_doubt import RunsDoubt, difference, line_doubt
from rebuild.trade.geometry.odd_step import odd_step
from rebuild.trade.geometry.steps import heights_of
from rebuild.trade.geometry.straightness import Reference, straightness
from rebuild.trade.limits.uncertainty import InstrumentLimit

#: A level's permissible error and resolution, mm a metre.
LEVEL = InstrumentLimit("level", 0.005, mpe_mm=0.01)
BED = [-290.0, 40.0, 350.0, 295.0, 160.0, 80.0]


def deviation(slopes: np.ndarray, step: float, reference: Reference) -> float:
    """Independent of the module: heights by cumsum, the line by polyfit, the ends, or a search over all slopes."""
    x = np.arange(len(slopes) + 1) * step
    h = np.concatenate(([0.0], np.cumsum(slopes * step * 1e-6)))
    if reference is Reference.ENDS:
        line = h[0] + (h[-1] - h[0]) * x / x[-1]
    elif reference is Reference.LEAST_SQUARES:
        line = np.polyval(np.polyfit(x, h, 1), x)
    else:
        pairs = [(h[j] - h[i]) / (x[j] - x[i]) for i in range(len(x)) for j in range(i + 1, len(x))]
        line = min(pairs, key=lambda slope: float(np.ptp(h - slope * x))) * x
    return float(np.ptp(h - line))


@pytest.mark.parametrize("reference", list(Reference))
def test_u_is_that_of_numpy_s_sensitivities(reference: Reference) -> None:
    # GUM 5.1.3 by finite differences: u² = Σ (∂D/∂s_j)² u_s², u_s from resolution (two runs), limit, repeats; then
    # GUM 4.3.7 for the closure, and GUM G.4.1 with scipy's t for k.
    step, s, closure = 125.0, 0.006, 0.0012
    line = heights_of(BED, step).value
    runs = RunsDoubt(LEVEL, s, 6, 2, closure)
    budget = line_doubt(line, straightness(line, reference).value, runs, True).value.budget
    nudge = 1e-3
    slopes = np.array(BED)
    c = np.array(
        [
            (deviation(slopes + nudge * np.eye(6)[j], step, reference) - deviation(slopes, step, reference))
            / nudge
            for j in range(6)
        ]
    )
    factor = float(np.sqrt(np.sum((c * 1000) ** 2)))  # slopes in µm/m, doubts in mm/m
    parts = np.array([0.005 / np.sqrt(24), 0.01 / np.sqrt(3), s / np.sqrt(2)]) * factor
    last = closure / 2 / np.sqrt(3)
    u = float(np.sqrt(np.sum(parts**2) + last**2))
    dof = u**4 / (parts[2] ** 4 / 6)
    assert budget.u_mm == pytest.approx(u, rel=1e-4)
    assert budget.dof == pytest.approx(dof, rel=1e-3)
    assert budget.U_mm == pytest.approx(u * float(stats.t.ppf(0.975, dof)), rel=1e-3)


def test_chance_gives_the_same_spread() -> None:
    # Monte Carlo (JCGM 101): 4,000 runs with rectangular errors on each step, the deviation by numpy alone.
    rng, step = np.random.default_rng(5), 125.0
    limit = InstrumentLimit("level", 0.0, mpe_mm=0.004)
    line = heights_of(BED, step).value
    found = straightness(line, Reference.ENDS).value
    budget = line_doubt(line, found, RunsDoubt(limit), True).value.budget
    tried = np.array(BED) + rng.uniform(-4.0, 4.0, (4000, 6))
    spread = np.std([deviation(one, step, Reference.ENDS) for one in tried])
    assert budget.u_mm == pytest.approx(float(spread), rel=0.05)


def test_heights_read_one_by_one_are_not_a_running_sum() -> None:
    # By hand: h = (0, 2, 0) µm against its ends: D = h₂ - (h₁ + h₃)/2, so u_D² = u²(1 + ¼ + ¼).
    from rebuild.trade.geometry.steps import Heights

    line = Heights((0.0, 100.0, 200.0), (0.0, 0.002, 0.0))
    indicator = InstrumentLimit("indicator", 0.0, mpe_mm=0.001 * math.sqrt(3))
    budget = line_doubt(
        line, straightness(line, Reference.ENDS).value, RunsDoubt(indicator), False
    ).value.budget
    assert budget.u_mm == pytest.approx(0.001 * math.sqrt(1.5))
    assert budget.complete
    assert difference(RunsDoubt(indicator)).value.u_mm == pytest.approx(0.001 * math.sqrt(2))


def test_without_an_instrument_the_budget_is_not_whole() -> None:
    line = heights_of(BED, 125.0).value
    found = straightness(line, Reference.ENDS).value
    assert not line_doubt(line, found, RunsDoubt(None, 0.005, 6, 2), True).value.budget.complete


curves = st.tuples(st.floats(-0.3, 0.3), st.floats(-0.05, 0.05), st.floats(-0.004, 0.004), st.integers(7, 12))


@given(curves, st.data())
@settings(max_examples=25)
def test_a_step_that_breaks_a_smooth_run_is_found_and_only_then(
    curve: tuple[float, float, float, int], data: st.DataObject
) -> None:
    """A parabola of slopes, as a worn way has, is let be; one reading off by more than its bends is named."""
    start, rise, bend, count = curve
    smooth = [start + rise * at + bend * at * at for at in range(count)]
    assert odd_step(smooth, 0.005) is None
    at = data.draw(st.integers(1, count - 2))
    for wrong in (0.2, -0.2):
        broken = [*smooth]
        broken[at] += wrong
        found = odd_step(broken, 0.005)
        assert found is not None
        assert found.at == at
        assert found.fits == pytest.approx(smooth[at], abs=0.01)


def test_a_bend_of_the_way_is_no_break() -> None:
    assert odd_step([0.0, 0.0, 0.0, 0.05, 0.05, 0.05, 0.05], 0.005) is None
    assert odd_step([0.02, 0.02, 0.03, 0.02, 0.02, 0.02], 0.01) is None, "one of the last place"
    assert odd_step([0.1, -0.1, 0.1, 0.1], 0.01) is None, "too few to tell"
