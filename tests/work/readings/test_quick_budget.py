"""u worked out from two lengths is the u of the whole budget, whatever of its inputs differs."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from rebuild.trade.limits.reach import reach_of
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.limits.verdict import decisive_u
from rebuild.words.readings import FeatureKind, InstrumentKind
from rebuild.work.readings.quick_budget import QuickBudget
from rebuild.work.readings.rows_judged import Measured, budget_of

LIMITS = {
    1: InstrumentLimit("limit", 0.001, mpe_mm=0.002),
    2: InstrumentLimit("stated", 0.0, expanded_U_mm=0.003, k=2.3),
    3: InstrumentLimit("blind", 0.01),
    4: InstrumentLimit(
        "25-50", 0.001, mpe_mm=0.004, reach=reach_of("25-50 mm", InstrumentKind.OUTSIDE_MICROMETER, "mm")
    ),
}
READINGS = [
    Measured(value, typed, "mm", repeats, gauge, degrees, stuff, kind)
    for (value, typed, repeats), gauge, degrees, stuff, kind in product(
        ((0.0, "0", 1), (-0.3, "-0.3", 1), (31.5, "31.5", 1), (1500.0, "1500", 1), (31.0, "30; 32; 31", 3)),
        (None, 1, 2, 3, 4),
        (None, 20.0, 31.0),
        ("", "steel", "aluminium"),
        (FeatureKind.OUTSIDE_DIAMETER, FeatureKind.BORE),
    )
]
OVER_WIRES = Measured(
    22.86,
    "1.0 in",
    "in",
    1,
    1,
    20.0,
    "steel",
    FeatureKind.OTHER,
    "in",
    "over 0.0645 in wires",
    "1-8 ACME",
    25.4,
)


def test_every_reading_has_the_uncertainty_of_its_whole_budget() -> None:
    bare = replace(OVER_WIRES, read_mm=None)
    assert budget_of(OVER_WIRES, LIMITS).value.u_mm > budget_of(bare, LIMITS).value.u_mm
    quick = QuickBudget(LIMITS)  # one for all, so that what it has worked out for one is offered to the next
    for reading in (*READINGS, OVER_WIRES):
        whole, said = budget_of(reading, LIMITS).value, quick.of(reading)
        assert said.unfit is bool(whole.unfit), reading
        u = decisive_u(whole)
        if u is None:
            assert said.u_mm is None, reading
        else:
            asked = (u, whole.dof, whole.U_mm)
            assert (said.u_mm, said.dof, said.U_mm) == pytest.approx(asked, rel=1e-9), reading


def test_a_damaged_cell_that_is_finite_and_vast_does_not_end_the_summary() -> None:
    """Seen: of 1,000 corruptions one wrote 1e200 into a reading, and its square ended the summary in a traceback."""
    found = QuickBudget(LIMITS).plain(1e200, 1, 31.0, "steel", FeatureKind.BORE)
    assert found.u_mm > 1e100
