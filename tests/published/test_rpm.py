"""Revolutions against published examples, exact and by the rule of four."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from rebuild.trade.shop.cutting import rpm

Rows = Callable[[str], list[dict[str, str]]]


def test_every_row(published: Any, reference: Rows) -> None:
    for row in reference("rpm"):
        speed, size = float(row["cutting_speed"]), float(row["dia"])
        inches = row["units"] == "SFM/in"
        turns = rpm(speed * 0.3048, size * 25.4).value if inches else rpm(speed, size).value
        label = f"{row['cutting_speed']} {row['units']} {row['dia']}"
        published.number(
            "n = V / (π d), computed", label, turns.rpm, float(row["rpm_exact"]), last_digit=0.01
        )
        if row["rpm_3.82V/d"]:
            published.number(
                "3.82 V/d, computed", label, turns.by_382, float(row["rpm_3.82V/d"]), last_digit=0.01
            )
            published.number("4 V/d, computed", label, turns.by_4, float(row["rpm_4V/d"]), last_digit=0.01)
        found = re.search(r"published (\d+)", row["published"])
        if found and inches:
            # Trap F: the print uses the rule of four.
            published.number(
                "A workshop text, rule of four", label, turns.by_4, float(found[1]), last_digit=1
            )
        elif found:
            # The chart rounds to about two digits.
            last = 10.0 if turns.rpm < 1000 else 100.0 if float(found[1]) % 100 == 0 else 10.0
            published.number("A speed chart in m/min", label, turns.rpm, float(found[1]), last_digit=last)


def test_the_shop_reference_speeds(published: Any) -> None:
    # Source: a rebuilder's making sheet: bronze 150 sfm at 1 in 573; steel 90 at 3/4 in 458; cast iron 70 at 3 in 89.
    for sfm, inches, want in ((150, 1.0, 573), (90, 0.75, 458), (70, 3.0, 89)):
        got = rpm(sfm * 0.3048, inches * 25.4).value.by_382
        published.number("A rebuilder's making sheet", f"{sfm} sfm {inches} in", got, want, last_digit=1)
