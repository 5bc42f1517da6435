"""Slopes of levels and autocollimators against the reference conversions, as typed on the level page."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from rebuild.trade.charts.entry import read_slope

Rows = Callable[[str], list[dict[str, str]]]
SOURCE = "level conversions"
#: How each input of the reference is typed here; a difference over a length is typed as a slope.
TYPED = {
    "1 arcsec": "1 arcsec", "0.0005 in/ft": "0.0005 in/ft", "0.02 mm/m": "0.02 mm/m", "0.05 mm/m": "0.05 mm/m",
    "0.0005 in/10 in": "0.0006 in/ft", "0.001 in in 12 in": "0.001 in/ft", "0.02 mm / 300 mm": "0.0666667 mm/m",
}  # fmt: skip
NOT_SLOPES = {"1 arcsec on 4 in": "a height on a length", "autocollimator: mirror tilt a": "words, no number"}


def test_level_conversions(published: Any, reference: Rows) -> None:
    arcsec = read_slope("1 arcsec")
    for row in reference("unit_conversions"):
        typed = TYPED.get(row["input"])
        if typed is None:
            published.not_covered(SOURCE, row["input"], NOT_SLOPES[row["input"]])
            continue
        slope = read_slope(typed)
        for number, unit in re.findall(r"([\d.]+) (um/m|arcsec|in/ft)", row["value"]):
            got = {"um/m": slope, "arcsec": slope / arcsec, "in/ft": slope * 12e-6}[unit]
            digit = 10.0 ** -len(number.partition(".")[2])
            published.number(SOURCE, f"{row['input']} in {unit}", got, float(number), last_digit=digit)
