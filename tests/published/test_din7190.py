"""Loss of interference by roughness after DIN 7190."""

from __future__ import annotations

from typing import Any

from rebuild.trade.joints.interference import effective_interference


def test_effective_interference(published: Any, reference: Any) -> None:
    source = "DIN 7190 loss of interference"
    for row in reference("din7190_embedding"):
        full, outer, inner = (float(row[name]) for name in ("U_um", "Rz_outer_um", "Rz_inner_um"))
        got = effective_interference(full / 1000, outer, inner).value * 1000
        name = f"U {full:g}, Rz {outer:g} + {inner:g}"
        published.number(
            source, f"{name} effective", got, float(row["U_eff_um(negative=>no fit)"]), last_digit=0.01
        )
        published.number(source, f"{name} loss", full - got, float(row["loss_0.8sumRz_um"]), last_digit=0.01)
