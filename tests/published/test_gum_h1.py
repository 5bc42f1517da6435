"""GUM example H.1: an end gauge compared with a standard, through our combination of parts."""

from __future__ import annotations

import math

import pytest

from rebuild.trade.limits.uncertainty import SUM, Component, combine

SOURCE = "JCGM 100:2008, H.1"
NAMES = ("delta_alpha", "theta", "alpha_s", "delta_theta")


def _rows(reference):
    return {row["quantity"].split(" (")[0]: row for row in reference("gum_h1")}


def test_end_gauge(published, reference):
    rows = _rows(reference)
    dofs = {name: float(row["dof"]) for name, row in rows.items() if not name.startswith("RESULT")}
    # Source: contributions c·u [nm] as printed in the table; l_s·α·u(δθ) and l_s·θ̄·u(δα) are the temperature parts.
    length = float(rows["l_s"]["estimate"])
    parts = {
        "l_s": float(rows["l_s"]["std_uncertainty"]),
        "d": float(rows["d"]["std_uncertainty"]),
        "delta_alpha": length
        * abs(float(rows["theta"]["estimate"]))
        * float(rows["delta_alpha"]["std_uncertainty"]),
        "delta_theta": length
        * float(rows["alpha_s"]["estimate"])
        * float(rows["delta_theta"]["std_uncertainty"]),
    }
    for name, value in parts.items():
        want = float(rows[name]["contribution_nm"])
        published.number(SOURCE, f"contribution of {name}", value, want, last_digit=0.002)
    components = [Component(name, value * 1e-6, dofs[name], "", SUM) for name, value in parts.items()]
    budget = combine(components, coverage=0.99).value
    # The RESULT row was split by its own comma; its cells in order: l, u_c, dof, text.
    assert float(rows["l_s"]["estimate"]) + float(rows["d"]["estimate"]) == 50000838
    published.number(SOURCE, "combined u [nm]", budget.u_mm * 1e6, 31.664, last_digit=0.002)
    published.number(SOURCE, "effective degrees of freedom", budget.dof, 16.75, last_digit=0.02)
    # Truncating the degrees of freedom to 16 gives k99 = 2.92 and, with u rounded up to 32, U = 93; exact: 92.
    truncated = combine(components, k=2.92).value
    published.number(SOURCE, "k = 2.92, u exact: U [nm]", truncated.U_mm * 1e6, 92.5, last_digit=1.0)
    assert math.floor(budget.dof) == 16
    assert budget.k == pytest.approx(2.90, abs=0.01)


def test_second_order_terms_raise_32_to_34(reference):
    # Source: GUM H.1.7; the terms l_s·u(δα)·u(θ) = 11.7 nm and l_s·u(α)·u(δθ) = 1.7 nm.
    rows = _rows(reference)
    u = {name: float(row["std_uncertainty"]) for name, row in rows.items() if name in NAMES}
    length = 50000623.0
    products = [length * u["delta_alpha"] * u["theta"], length * u["alpha_s"] * u["delta_theta"]]
    assert products == pytest.approx([11.7, 1.7], abs=0.05)
    parts = [Component("first order", 31.664e-6, math.inf, "", SUM)]
    parts += [Component("product", value * 1e-6, math.inf, "", SUM) for value in products]
    assert round(combine(parts).value.u_mm * 1e6) == 34
