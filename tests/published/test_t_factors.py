"""Student's t for the printed coverages and for broken degrees of freedom, against scipy as an oracle."""

from __future__ import annotations

import math

import pytest
from scipy import stats

from rebuild.trade.limits.t_factor import normal_below, student_below, student_t

SOURCE = "GUM Table G.2, t factors"


def test_table(published, reference):
    for row in reference("t_factors"):
        dof, n = float(row["dof"]), int(row["n"])
        assert n == dof + 1
        for column, coverage in (("t_68.27", 0.6827), ("t_95", 0.95), ("t_95.45", 0.9545), ("t_99", 0.99)):
            got, want = student_t(coverage, dof), float(row[column])
            published.number(SOURCE, f"n {n} {column}", got, want, last_digit=1e-4)
        mean = student_t(0.95, dof) / math.sqrt(n)
        published.number(SOURCE, f"n {n} t/√n", mean, float(row["t95_over_sqrt_n"]), last_digit=1e-4)


@pytest.mark.parametrize("coverage", [0.1, 0.5, 0.6827, 0.9, 0.95, 0.9973, 0.9999])
@pytest.mark.parametrize("dof", [1, 1.5, 2, 3.7, 16.75, 120, 1e4, 1e7, math.inf])
def test_factor_against_scipy(coverage, dof):
    half = 0.5 + coverage / 2
    want = stats.norm.ppf(half) if math.isinf(dof) else stats.t.ppf(half, dof)
    assert student_t(coverage, dof) == pytest.approx(want, rel=1e-8)


@pytest.mark.parametrize("t", [-40.0, -3.0, -0.2, 0.0, 1e-4, 1.0, 2.5, 60.0])
@pytest.mark.parametrize("dof", [1, 2.5, 9, 300])
def test_distribution_against_scipy(t, dof):
    assert student_below(t, dof) == pytest.approx(stats.t.cdf(t, dof), rel=1e-9, abs=1e-14)
    assert normal_below(t) == pytest.approx(stats.norm.cdf(t), rel=1e-9)
