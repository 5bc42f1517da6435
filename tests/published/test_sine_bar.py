"""Sine-bar stacks and their sensitivity."""

from __future__ import annotations

from typing import Any

from rebuild.trade.tapers.angles import angle_of_stack, sine_bar


def test_stacks_and_sensitivity(published: Any, reference: Any) -> None:
    source = "Sine-bar stacks"
    for row in reference("sine_bar"):
        length, angle = float(row["L"]), float(row["angle_deg"])
        found = sine_bar(length, angle).value
        name = f"L {length:g}, {angle:g}°"
        published.number(source, name, found.height_mm, float(row["stack_h"]), last_digit=1e-6)
        # Arc seconds for 0.0001 of the bar's own unit of length.
        per_unit = found.arcsec_per_um * 0.1
        want = float(row["arcsec_error_per_0.0001_unit_stack"])
        published.number(source, f"{name} sensitivity", per_unit, want, last_digit=0.01)
        back = angle_of_stack(length, float(row["stack_h"])).value
        published.number(source, f"{name} back", back, angle, last_digit=1e-4)
