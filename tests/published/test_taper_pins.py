"""Inch taper pins against public copies of ASME B18.8.2."""

from __future__ import annotations

from typing import Any

import pytest

from rebuild.errors import OutOfRange
from rebuild.trade.joints.taper_pin import ends, pin

SOURCE = "ASME B18.8.2 taper pins, public copies"


def test_big_and_small_ends(published: Any, reference: Any) -> None:
    for row in reference("taper_pins_b18_8_2_in"):
        number = row["number"]
        one = pin(number)
        big = float(row["basic_large_end_dia_in"])
        published.number(SOURCE, f"no. {number}", one.nominal_mm / 25.4, big, last_digit=1e-4)
        for length in (1, 2, 4):
            want = float(row[f"small_end_at_{length}in_length"])
            name = f"no. {number}, {length} in"
            if want <= 0:
                with pytest.raises(OutOfRange, match="tapers to nothing"):
                    ends(one, length * 25.4)
                published.text(SOURCE, f"{name} refused", "refused", "refused")
            else:
                got = ends(one, length * 25.4).value.small_mm / 25.4
                published.number(SOURCE, name, got, want, last_digit=1e-4)


def test_the_crown_radius_is_the_big_end_give_or_take_a_hundredth(published: Any, reference: Any) -> None:
    for row in reference("taper_pins_b18_8_2_in"):
        big = pin(row["number"]).nominal_mm / 25.4
        middle = (float(row["end_crown_radius_min"]) + float(row["end_crown_radius_max"])) / 2.0
        # Source: the radii are printed to 0.001 in, no. 7/0 (0.0625) rounds to 0.062.
        published.number(SOURCE, f"no. {row['number']} crown", big, middle, last_digit=1e-3)
