"""The uncertainty of a fit against the ``uncertainties`` package, which carries correlations by itself."""

from __future__ import annotations

import math

import pytest
from uncertainties import ufloat

from rebuild.trade.fits.adjuster import adjusted
from rebuild.trade.fits.combining import mesh_combining
from rebuild.trade.fits.now import evaluate
from rebuild.trade.fits.side_reading import SideReading
from rebuild.trade.limits.component import GUM, Component
from rebuild.trade.limits.uncertainty import combine
from rebuild.trade.results.working import Source

PAIRS = [(25.013, 0.0021, 24.992, 0.0012), (20.645, 0.00012, 20.671, 0.0048), (50.0, 0.01, 50.0, 0.01)]


def read(value_mm: float, u_mm: float, station: str = "") -> SideReading:
    budget = combine([Component("reading", u_mm, math.inf, "", Source(GUM))]).value
    return SideReading(station, None, value_mm, budget)


@pytest.mark.parametrize(("bore", "u_bore", "shaft", "u_shaft"), PAIRS)
def test_a_clearance(bore: float, u_bore: float, shaft: float, u_shaft: float) -> None:
    now = evaluate([read(bore, u_bore)], [read(shaft, u_shaft)], None, None)
    assert now is not None
    # independent by assumption, as two ufloats made apart are
    want = ufloat(bore, u_bore) - ufloat(shaft, u_shaft)
    assert now.least.value_mm == pytest.approx(want.nominal_value, abs=1e-9)
    assert now.least.budget.u_mm == pytest.approx(want.std_dev, rel=1e-12)


def test_a_backlash_from_two_tooth_thicknesses() -> None:
    way = mesh_combining(2.0)
    now = evaluate([read(3.10, 0.004)], [read(3.08, 0.006)], None, None, combining=way)
    assert now is not None
    want = 2.0 * math.pi - ufloat(3.10, 0.004) - ufloat(3.08, 0.006)
    assert now.least.value_mm == pytest.approx(want.nominal_value, abs=1e-9)
    assert now.least.budget.u_mm == pytest.approx(want.std_dev, rel=1e-12)


def test_what_an_adjuster_leaves_with_one_nut_common_to_all_stations() -> None:
    nut, ends, middle = ufloat(9.8044, 0.008), ufloat(9.7282, 0.002), ufloat(9.1186, 0.003)
    now = evaluate(
        [read(9.8044, 0.008)], [read(9.7282, 0.002, "end"), read(9.1186, 0.003, "middle")], 0.0, 0.1
    )
    assert now is not None
    want = (nut - middle) - (nut - ends)  # the package sees that the nut cancels
    found = adjusted(now, 0.0, 0.1)
    assert found.remains_mm == pytest.approx(want.nominal_value, abs=1e-9)
    assert found.U_mm == pytest.approx(1.95996 * want.std_dev, rel=1e-4)


def test_what_an_adjuster_leaves_with_both_sides_read_at_each_station() -> None:
    slide = [read(80.05, 0.004, "near"), read(80.03, 0.004, "far")]
    way = [read(80.00, 0.002, "near"), read(79.94, 0.003, "far")]
    now = evaluate(slide, way, 0.0, 0.05)
    assert now is not None
    want = (ufloat(80.03, 0.004) - ufloat(79.94, 0.003)) - (ufloat(80.05, 0.004) - ufloat(80.00, 0.002))
    found = adjusted(now, 0.0, 0.05)
    assert found.remains_mm == pytest.approx(want.nominal_value, abs=1e-9)
    assert found.U_mm == pytest.approx(1.95996 * want.std_dev, rel=1e-4)
