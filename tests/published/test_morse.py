"""Morse tapers against public tables (A, d, four-decimal taper, angle) and the ISO ratios."""

from __future__ import annotations

from typing import Any

import pytest

from rebuild.trade.tapers.machine_tapers import taper

SOURCE = "Morse tapers, public tables"
MEMORY = "Morse tapers, public tables (from memory)"


def test_morse_dimensions_rate_and_angle(published: Any, reference: Any) -> None:
    for row in reference("morse_tapers"):
        number = row["number"]
        one = taper("Morse", number)
        name = f"Morse {number}"
        published.number(
            SOURCE, f"{name} A", one.large_mm / 25.4, float(row["gauge_dia_A_in"]), last_digit=1e-4
        )
        published.number(
            SOURCE, f"{name} d", one.small_mm / 25.4, float(row["small_end_d_in"]), last_digit=1e-3
        )
        # Source: plug depths are found rounded to 0.01 in; the fraction itself is from memory.
        depth = one.length_mm / 25.4
        published.number(SOURCE, f"{name} P", depth, float(row["plug_depth_P_in"]), last_digit=1e-2)
        tpf = one.per_foot_in
        published.number(SOURCE, f"{name} taper", tpf, float(row["tpf_4dp_published"]), last_digit=1e-4)
        published.number(MEMORY, f"{name} taper", tpf, float(row["taper_per_foot_5dp"]), last_digit=1e-5)
        half = float(row["half_angle_deg_published"])
        published.number(SOURCE, f"{name} half angle", one.half_angle_deg, half, last_digit=1e-4)


def test_the_rate_follows_from_the_two_ends(published: Any, reference: Any) -> None:
    for row in reference("morse_tapers"):
        one = taper("Morse", row["number"])
        from_ends = 12.0 * (one.large_mm - one.small_mm) / one.length_mm
        published.number(
            "Morse tapers, 12 (A - d) / P",
            row["number"],
            from_ends,
            float(row["tpf_from_A_d_P"]),
            last_digit=1e-5,
        )
        # The depths are binary fractions, so the fifth decimal of the printed rate is recovered to 1e-5.
        assert from_ends == pytest.approx(one.per_foot_in, abs=1.1e-5)


def test_iso_ratio_and_millimetres(published: Any, reference: Any) -> None:
    for row in reference("morse_tapers"):
        if not row["ISO_ratio_1_in"]:
            continue
        one = taper("Morse", row["number"])
        ratio = float(row["ISO_ratio_1_in"])
        # Five decimals of taper per foot carry the ratio to about 0.0003, half its last printed digit.
        published.number(
            "Morse tapers, ISO 296 ratio",
            row["number"],
            one.ratio,
            ratio,
            last_digit=1e-3,
            why="the inch table's fifth decimal",
        )
        source = "Morse tapers, D in mm" + ("" if int(row["number"]) < 5 else " (from memory)")
        published.number(source, row["number"], one.large_mm, float(row["D_mm"]), last_digit=1e-3)
