"""Sling factors against the capacity table of the sling standard; below 30° is refused, not computed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from rebuild.errors import OutOfRange
from rebuild.trade.shop.lifting import sling

Rows = Callable[[str], list[dict[str, str]]]


def test_every_row(published: Any, reference: Rows) -> None:
    source = "29 CFR 1910.184 / ASME B30.9, sling angle"
    for row in reference("sling_angle"):
        angle = float(row["angle_from_horizontal"])
        assert angle + float(row["angle_from_vertical"]) == 90.0
        if angle < 30.0:
            with pytest.raises(OutOfRange, match="do not lift"):
                sling(1000.0, 2, angle)
            published.not_covered(source, f"{angle}°", "below 30° is refused")
            continue
        found = sling(1000.0, 2, angle).value
        published.number(
            source, f"{angle}° factor", found.factor, float(row["load_factor_1/sin"]), last_digit=1e-4
        )
        want = float(row["capacity_pct_sin"])
        published.number(source, f"{angle}° capacity", found.capacity_part * 100, want, last_digit=0.1)
        want = float(row["leg_tension_two_leg_1000_units"])
        published.number(source, f"{angle}° leg", found.leg_kg, want, last_digit=0.1)
