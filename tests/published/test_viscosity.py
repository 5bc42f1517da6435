"""Saybolt, Redwood and Engler against D2161's computed rows and a general chemistry library.

Sources: ASTM D2161 (reference rows computed from its equation), the package ``chemicals`` (its Saybolt
equation, and the pump trade's chart, which is another scale), and custom tables at 100 mm²/s.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from rebuild.trade.lubrication.old_oil import today
from rebuild.trade.lubrication.viscosity import celsius, engler_cSt, redwood_cSt, saybolt_cSt, saybolt_seconds

Rows = Callable[[str], list[dict[str, str]]]
F100, F130, F210 = celsius(100.0), celsius(130.0), celsius(210.0)


def test_cst_to_sus(published: Any, reference: Rows) -> None:
    for row in reference("cst_to_sus"):
        nu = float(row["cSt"])
        for column, at in (
            ("SUS_100F_D2161_eq", F100),
            ("SUS_104F(40C)", 40.0),
            ("SUS_130F", F130),
            ("SUS_210F", F210),
        ):
            got = saybolt_seconds(nu, at)
            published.number(
                "ASTM D2161 equation", f"{nu} mm²/s {column}", got, float(row[column]), last_digit=0.001
            )


def test_the_straight_lines_above_75(published: Any, reference: Rows) -> None:
    for row in reference("cst_to_sus"):
        for column, at in (("linear_4.632x", F100), ("linear_4.664x", F210)):
            if row[column]:
                got, want = saybolt_seconds(float(row["cSt"]), at), float(row[column])
                # D2161's short form above 75 mm²/s agrees with its equation to 0.13 %.
                assert got == pytest.approx(want, rel=1.4e-3)
                published.text("ASTM D2161 straight line above 75", f"{row['cSt']} {column}", True, True)


def test_sus_to_cst(published: Any, reference: Rows) -> None:
    for row in reference("sus_to_cst"):
        seconds = float(row["SUS"])
        for column, at in (("cSt_if_100F_D2161", F100), ("cSt_if_210F_D2161", F210)):
            want = float(row[column])
            if want < 1.81:
                published.not_covered(
                    "ASTM D2161 equation", f"{seconds} s {column}", "below 1.81 mm²/s, refused"
                )
                continue
            got = saybolt_cSt(seconds, at)
            published.number("ASTM D2161 equation", f"{seconds} s {column}", got, want, last_digit=1e-4)


def test_trap_a_the_pump_trade_chart_is_another_scale(published: Any, reference: Rows) -> None:
    for row in reference("sus_to_cst"):
        chart = row["pump_chart_cSt(bundled_in_chemicals)"]
        if chart:
            off = 100 * (float(chart) / saybolt_cSt(float(row["SUS"])) - 1)
            want = float(row["pump_chart_vs_D2161_pct"])
            published.number("Pump trade chart against D2161 [%]", row["SUS"], off, want, last_digit=0.01)


def test_trap_a_the_library_converter_knows_one_temperature(published: Any, reference: Rows) -> None:
    """The library has the 100 °F form only; at another temperature its seconds must be multiplied."""
    for row in reference("library_saybolt_100F"):
        nu, want = float(row["cSt"]), float(row["seconds"])
        published.number(
            "chemicals, Saybolt equation", f"{nu}", saybolt_seconds(nu), want, last_digit=1e-6 * want
        )


def test_redwood_and_engler_meet_the_custom_table(published: Any) -> None:
    # Source: custom conversion tables list 100 mm²/s as 405 s Redwood No. 1 (70 °F) and 13.2 °E.
    published.number(
        "Conversion table at 100 mm²/s (from memory)", "405 s", redwood_cSt(405), 100, last_digit=1
    )
    published.number(
        "Conversion table at 100 mm²/s (from memory)", "13.2 °E", engler_cSt(13.2), 100, last_digit=1
    )


@pytest.mark.parametrize("at", range(5))
def test_the_pump_trade_chart_for_old_scales_is_near(reference: Rows, at: int) -> None:
    """Independent chart; it reads up to 4 % high of the interpolation formulas, as it does for Saybolt."""
    row = reference("library_old_scales")[at]
    nu, seconds, degrees = (float(row[name]) for name in ("cSt", "redwood_seconds", "engler_degrees"))
    assert redwood_cSt(seconds) == pytest.approx(nu, rel=0.06)
    assert engler_cSt(degrees) == pytest.approx(nu, rel=0.04)


def test_old_saybolt_figures_at_40_degrees(published: Any, reference: Rows) -> None:
    source = "Old Saybolt figures to ISO grades (computed with D2161, D341, D2270)"
    for row in reference("old_sus100f_to_isovg"):
        text = f"{row['SUS_at_100F']} SUS at 100 °F"
        for index in (50, 95, 100):
            found = today(text, index=index).value
            label = f"{text}, VI {index}"
            want = float(row[f"cSt40_VI{index}"])
            published.number(source, label, found.low_40C_cSt, want, last_digit=0.01)
            published.text(source, f"{label} nearest", found.usual, int(row[f"nearest_VI{index}"]))
            band = row[f"band_VI{index}"]
            exact = found.exact[0] if found.exact else None
            published.text(source, f"{label} band", exact, None if band == "gap" else int(band))
