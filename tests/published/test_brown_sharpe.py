"""Brown & Sharpe, Jarno and Jacobs tapers against public tables."""

from __future__ import annotations

from typing import Any

import pytest

from rebuild.trade.tapers.machine_tapers import rate_from, taper


def test_dimensions_and_rates(published: Any, reference: Any) -> None:
    for row in reference("brown_sharpe_jarno_jacobs_in"):
        system, number = row["system"], row["number"]
        source = f"{system} tapers, public tables"
        one = taper(system, number)
        name = f"{system} {number}"
        published.number(source, f"{name} large", one.large_mm / 25.4, float(row["large"]), last_digit=1e-5)
        published.number(source, f"{name} small", one.small_mm / 25.4, float(row["small"]), last_digit=1e-5)
        published.number(
            source, f"{name} length", one.length_mm / 25.4, float(row["length"]), last_digit=1e-5
        )
        want = float(row["taper_per_foot_published"])
        published.number(source, f"{name} taper", one.per_foot_in, want, last_digit=1e-4)


def test_rate_from_two_diameters(published: Any, reference: Any) -> None:
    for row in reference("brown_sharpe_jarno_jacobs_in"):
        large, small, length = (float(row[name]) * 25.4 for name in ("large", "small", "length"))
        got = 12.0 * rate_from(large, small, length)
        want = row["tpf_from_dimensions"]
        digits = len(want.partition(".")[2])
        published.number(
            "Taper per foot from two diameters",
            f"{row['system']} {row['number']}",
            got,
            float(want),
            last_digit=10.0**-digits,
        )


def test_jarno_is_a_rule() -> None:
    for number in range(1, 21):
        one = taper("Jarno", str(number))
        assert one.large_mm == pytest.approx(number / 8 * 25.4)
        assert one.small_mm == pytest.approx(number / 10 * 25.4)
        assert one.length_mm == pytest.approx(number / 2 * 25.4)
