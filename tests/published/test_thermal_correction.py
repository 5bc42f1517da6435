"""Corrections to 20 °C with part and scale of different material and temperature."""

from __future__ import annotations

from rebuild.trade.limits.uncertainty import to_20C

SOURCE = "ISO 1 / GUM H.1: length at 20 °C"


def test_rows(published, reference):
    for row in reference("thermal_correction"):
        length = float(row["indicated_L_mm"])
        got = to_20C(
            length,
            float(row["T_part"]),
            float(row["alpha_part"]) * 1e-6,
            float(row["alpha_scale"]) * 1e-6,
            float(row["T_scale"]),
        ).value
        name = f"{length:g} mm {row['T_part']} °C"
        published.number(
            SOURCE, name, (length - got) * 1000, float(row["correction_um(subtract)"]), last_digit=1e-3
        )
        published.number(SOURCE, name, got, float(row["L20_first_order_mm"]), last_digit=1e-6)
