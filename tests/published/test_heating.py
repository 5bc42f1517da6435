"""Temperatures for a shrink fit and size changes by temperature, against published sums."""

from __future__ import annotations

from typing import Any

import pytest

from rebuild.trade.joints.contraction import linear_change_mm
from rebuild.trade.joints.heat_sources import media
from rebuild.trade.joints.thermal import hub_temperature
from rebuild.trade.shop.materials import wanted


def test_hub_temperature_for_a_clearance(published: Any, reference: Any) -> None:
    for row in reference("heating_for_clearance"):
        got = hub_temperature(
            float(row["d_mm"]),
            float(row["interference_um"]) / 1000,
            float(row["assembly_clearance_um"]) / 1000,
            float(row["alpha_1e-6"]) * 1e-6,
        )
        published.number(
            "Hub temperature for a clearance",
            f"{row['d_mm']} mm",
            got,
            float(row["T_hub_C"]),
            last_digit=0.01,
        )


def test_size_change_of_fifty_millimetres(published: Any, reference: Any) -> None:
    for row in reference("thermal_size_change_d50"):
        name, alpha = row["material_alpha"].rsplit(" ", 1)
        found = wanted(name).material
        # The table names its coefficient; ours for the same material must agree with it.
        assert found.alpha_per_K * 1e6 == pytest.approx(float(alpha)), name
        got = linear_change_mm(50, found.alpha_per_K, 20, float(row["T_C"])) * 1000
        want = float(row["delta_d_um_on_50mm(constant alpha)"])
        label = f"{name} {row['medium']}"
        published.number("Size change of 50 mm, constant coefficient", label, got, want, last_digit=0.01)
        per_m = linear_change_mm(1000, found.alpha_per_K, 20, float(row["T_C"])) * 1000
        published.number("Size change per metre", label, per_m, float(row["um_per_m"]), last_digit=0.1)


def test_the_media_reach_the_published_temperatures(published: Any, reference: Any) -> None:
    ours = {one.name: one.temperature_C for one in media()}
    theirs = {row["medium"]: float(row["T_C"]) for row in reference("thermal_size_change_d50")}
    for name in ("household freezer", "dry ice", "liquid nitrogen"):
        published.number("Temperatures of cold sources", name, ours[name], theirs[name], last_digit=0.1)
