"""Twist-drill sizes against an independent open table."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

from rebuild.trade.shop.drills import drills


def test_number_letter_and_fraction_drills(published: Any, reference: Any) -> None:
    source = "Open drill table (a library of parts)"
    ours = {drill.name: drill.mm / 25.4 for drill in drills()}
    checked = 0
    for row in reference("library_drills_in"):
        size, told = row["size"], row["diameter"]
        name = f"No. {size[1:]}" if re.fullmatch(r"#\d+", size) else f"letter {size}"
        if not (size.startswith("#") or re.fullmatch(r"[A-Z]", size)):
            name = f"{size} in"
        if name not in ours:
            continue
        want = float(told) if re.fullmatch(r"[\d.]+", told) else float(sum(map(Fraction, told.split())))
        places = len(told.partition(".")[2]) if "." in told else 6
        published.number(
            source,
            name,
            ours[name],
            want,
            last_digit=max(10.0**-places, 1e-4),
            why="printed there to three places",
        )
        checked += 1
    assert checked > 90
