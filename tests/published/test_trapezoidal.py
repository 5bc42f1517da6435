"""ISO trapezoidal threads against printed tables of ISO 2904 and 7e limits."""

from __future__ import annotations

from collections.abc import Callable

from rebuild.trade.threads import trapezoidal
from tests.published.conftest import Checker
from tests.support import trapezoidal_pitches

Rows = Callable[[str], list[dict[str, str]]]


def test_basic_dimensions(published: Checker, reference: Rows) -> None:
    for row in reference("trapezoidal_basic_dimensions_mm"):
        found = trapezoidal.basic(float(row["d"]), float(row["P"]))
        printed = row["status"].startswith("found")
        source = (
            "ISO 2904 basic dimensions, printed"
            if printed
            else "ISO 2904 basic dimensions, computed elsewhere"
        )
        got = {"d2=D2": found.d2, "D4": found.D4, "d3": found.d3, "D1": found.D1, "ac": found.ac}
        for item, value in got.items():
            name = f"Tr {row['d']}x{row['P']} {item}"
            published.number(source, name, value, float(row[item]), last_digit=0.001)


def test_7e_limits(published: Checker, reference: Rows) -> None:
    for row in reference("trapezoidal_7e_limits_mm"):
        found = trapezoidal.limits(float(row["d"]), float(row["P"]), "7e").value
        got = {
            "major_max": found.major.high,
            "major_min": found.major.low,
            "pd_max": found.pitch_diameter.high,
            "pd_min": found.pitch_diameter.low,
            "minor_max": found.minor.high,
            "minor_min": found.minor.low,
        }
        for item, value in got.items():
            name = f"{row['thread']} {item}"
            published.number(
                "ISO 2903 7e limits, printed", name, value or 0.0, float(row[item]), last_digit=0.001
            )


def test_sizes_agree_with_an_independent_library(published: Checker, reference: Rows) -> None:
    rows = reference("library_trapezoidal_mm")
    sizes = {(float(row["diameter"]), float(row["pitch"])) for row in rows}
    for d, pitches in trapezoidal_pitches().items():
        for pitch in pitches:
            published.text("trapezoidal sizes of a library", f"{d:g}x{pitch:g}", (d, pitch) in sizes, True)
