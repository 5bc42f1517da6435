"""Press fits after Lamé against published examples, a textbook problem and the thick-wall limit."""

from __future__ import annotations

import math
from typing import Any

import pytest

from rebuild.trade.joints import lame
from rebuild.trade.joints.close_in import bush_close_in
from rebuild.trade.joints.interference import press_fit
from rebuild.trade.joints.lame import Elastic

STEEL = Elastic(210_000, 0.3)
BRONZE, IRON = Elastic(110_000, 0.34), Elastic(110_000, 0.26)


def _rows(reference: Any) -> dict[str, dict[str, str]]:
    return {row["id"]: row for row in reference("lame_examples")}


def _check(published: Any, source: str, row: dict[str, str], got: dict[str, float]) -> None:
    for column, value in got.items():
        want = row[column]
        digits = max(0, 6 - len(str(int(abs(float(want))))))
        published.number(source, f"{row['id']} {column}", value, float(want), last_digit=10.0**-digits)


def test_example_b1_same_steel(published: Any, reference: Any) -> None:
    for name, delta in (("B1", 0.04), ("B1b", 0.02)):
        fit = press_fit(50, delta, 40, 80, STEEL, STEEL, friction=0.12).value
        row = _rows(reference)[name]
        _check(
            published,
            "Press-fit examples, public (Lamé)",
            row,
            {
                "p": fit.pressure_MPa,
                "hub_hoop_bore": fit.hub.hoop_bore,
                "hub_hoop_od": fit.hub.hoop_outside,
                "shaft_hoop_iface": fit.shaft.hoop_joint,
                "shaft_hoop_bore": fit.shaft.hoop_bore,
                "hub_vonMises_bore": fit.hub.von_mises_bore,
                "axial_F": fit.force_N,
                "torque_T": fit.torque_Nm * 1000,
            },
        )


def test_example_b1_as_the_source_rounds_it(published: Any) -> None:
    # Source: public worked example, rounded: about 51 MPa, 38.6 kN, 965 N·m, hub hoop 117 MPa.
    fit = press_fit(50, 0.04, 40, 80, STEEL, STEEL, friction=0.12).value
    for label, got, want, digit in (
        ("p", fit.pressure_MPa, 51, 1),
        ("F", fit.force_N / 1000, 38.6, 0.1),
        ("T", fit.torque_Nm, 965, 1),
        ("hoop", fit.hub.hoop_bore, 117, 1),
    ):
        published.number(
            "Press-fit examples, public (Lamé)", f"B1 rounded {label}", got, want, last_digit=digit
        )


def test_example_b4_sizes(published: Any, reference: Any) -> None:
    row = _rows(reference)["B4"]
    steel = Elastic(210_000, 0.292)
    assert lame.outer_ratio(60, 100) == pytest.approx(2.125)
    fit = press_fit(60, 0.030, 10, 100, steel, steel, friction=0.3).value
    _check(
        published,
        "Press-fit examples, public (Lamé)",
        row,
        {
            "p": fit.pressure_MPa,
            "hub_hoop_bore": fit.hub.hoop_bore,
            "hub_hoop_od": fit.hub.hoop_outside,
            "hub_vonMises_bore": fit.hub.von_mises_bore,
            "axial_F": fit.force_N,
            "torque_T": fit.torque_Nm * 1000,
        },
    )


def test_example_b5_pressure_from_the_sleeve_that_grew(published: Any, reference: Any) -> None:
    row = _rows(reference)["B5"]
    sleeve = Elastic(200_000, 0.28)
    # The sleeve's bore grows by 0.2 mm: turn the movement round.
    per_MPa = lame.bore_growth_mm(1.0, 200, 350, sleeve)
    published.number(
        "Sleeve growth (computed oracle)", "B5 p", 0.2 / per_MPa, float(row["p"]), last_digit=1e-4
    )


def test_textbook_problem_b3(published: Any, reference: Any) -> None:
    row = _rows(reference)["B3"]
    psi, inch = 1 / 145.0377377, 25.4
    shaft, hub = Elastic(30e6 * psi, 0.3), Elastic(15e6 * psi, 0.3)
    fit = press_fit(6 * inch, 0.002780 * inch, 10 * inch, 12 * inch, hub, shaft, friction=0.12).value
    source = "Textbook shrink-fit problem (from memory)"
    published.number(source, "p", fit.pressure_MPa / psi, float(row["p"]), last_digit=1)
    published.number(source, "hub hoop", fit.hub.hoop_bore / psi, float(row["hub_hoop_bore"]), last_digit=1)
    published.number(
        source, "F", fit.force_N / 4.4482216 / 1000, float(row["axial_F"]) / 1000, last_digit=0.1
    )


def test_limit_b6_of_an_endless_hub(published: Any, reference: Any) -> None:
    row = _rows(reference)["B6"]
    steel = Elastic(200_000, 0.3)
    for outside in (1e6, math.inf):
        p = lame.pressure_MPa(100, 0.1, outside, steel, steel)
        published.number(
            "Lamé, limit of an endless hub", f"B6 D={outside:g}", p, float(row["p"]), last_digit=1e-3
        )


def test_oracle_b7_bronze_bush_in_iron(published: Any, reference: Any) -> None:
    row = _rows(reference)["B7"]
    found = bush_close_in(40, 0.04, 30, 40, BRONZE, IRON, housing_outer_mm=80, friction=0.1)
    fit = press_fit(40, 0.04, 40, 80, IRON, BRONZE, shaft_bore_mm=30, friction=0.1).value
    _check(
        published,
        "Bronze bush in iron (computed oracle)",
        row,
        {
            "p": fit.pressure_MPa,
            "hub_hoop_bore": fit.hub.hoop_bore,
            "hub_hoop_od": fit.hub.hoop_outside,
            "shaft_hoop_iface": fit.shaft.hoop_joint,
            "shaft_hoop_bore": fit.shaft.hoop_bore,
            "hub_vonMises_bore": fit.hub.von_mises_bore,
            "axial_F": fit.force_N,
            "torque_T": fit.torque_Nm * 1000,
        },
    )
    # The bore's own hoop strain is its close-in: 97.489 / 110 000 x 30.
    assert found.value.close_in_mm == pytest.approx(97.489 / 110_000 * 30, rel=1e-4)
