"""Twist-drill sizes against an independent open table."""

from __future__ import annotations

import csv
import re
from fractions import Fraction
from importlib.resources import files
from typing import Any

from rebuild.trade.shop.drills import drills


def test_number_letter_and_fraction_drills(published: Any) -> None:
    source = "Open drill table (test-only package)"
    ours = {drill.name: drill.mm / 25.4 for drill in drills()}
    text = files("bd_warehouse").joinpath("data/drill_sizes.csv").read_text(encoding="utf-8")
    checked = 0
    for row in list(csv.reader(text.splitlines()))[1:]:
        size, told = row[0], row[1]
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
