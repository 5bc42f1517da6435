"""Drill point lengths against the reference rows (computed from cone geometry)."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rebuild.trade.shop.cutting import drill_point_mm

Rows = Callable[[str], list[dict[str, str]]]


def test_every_row(published: Any, reference: Rows) -> None:
    source = "Drill point length, 0.5 / tan(half angle)"
    for row in reference("drill_point"):
        angle = float(row["included_angle_deg"])
        for size, scale, column, last in (
            (1.0, 1.0, "length_per_dia=0.5/tan(half)", 1e-5),
            (10.0, 1.0, "L_for_d10mm", 1e-4),
            (12.7, 25.4, "L_for_d0.5in", 1e-5),
        ):
            got = drill_point_mm(size, angle).value / scale
            published.number(source, f"{angle}° {column}", got, float(row[column]), last_digit=last)
