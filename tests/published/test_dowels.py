"""Hardened ground dowels against public copies of ASME B18.8.2, and metric ones against ISO 286-2 m6."""

from __future__ import annotations

from typing import Any

from rebuild.trade.joints.dowels import OVERSIZE, STANDARD, dowel

SOURCE = "ASME B18.8.2 dowels, public copies"
IN = 25.4


def test_inch_dowels(published: Any, reference: Any) -> None:
    for row in reference("dowel_pins_b18_8_2_in"):
        nominal = float(row["nominal"]) * IN
        for series, prefix in ((STANDARD, "std"), (OVERSIZE, "oversize")):
            one = dowel(nominal, series).value
            for label, got in (
                ("basic", (one.low_mm + one.high_mm) / 2.0),
                ("max", one.high_mm),
                ("min", one.low_mm),
            ):
                want = float(row[f"{prefix}_{label}"])
                published.number(
                    SOURCE, f"{row['nominal']} {series} {label}", got / IN, want, last_digit=1e-4
                )
        hole = dowel(nominal, STANDARD).value.hole_mm
        if row["suggested_hole_max"]:
            assert hole is not None
            published.number(
                SOURCE,
                f"{row['nominal']} hole max",
                hole[1] / IN,
                float(row["suggested_hole_max"]),
                last_digit=1e-4,
            )
            published.number(
                SOURCE,
                f"{row['nominal']} hole min",
                hole[0] / IN,
                float(row["suggested_hole_min"]),
                last_digit=1e-4,
            )
        else:
            assert hole is None


def test_metric_dowels_m6(published: Any) -> None:
    # Source: a public fastener page quoting ISO 286 m6 for dowel pins [mm].
    m6 = {3: (0.002, 0.008), 6: (0.004, 0.012), 10: (0.006, 0.015), 16: (0.007, 0.018), 20: (0.008, 0.021),
          40: (0.009, 0.025)}  # fmt: skip
    for d, (low, high) in m6.items():
        one = dowel(d, "ISO 2338 m6").value
        published.number("Dowel m6, public fastener page", f"{d} low", one.low_mm - d, low, last_digit=1e-3)
        published.number(
            "Dowel m6, public fastener page", f"{d} high", one.high_mm - d, high, last_digit=1e-3
        )
