"""Rolling bearings: every reference row is identified from its sizes, and again from a caliper's.

Sources: the reference tables (found rows and rows from memory), and the tables of a general-purpose
modelling library (tests/published/data/library_bearings_mm.csv) as an independent oracle.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest

from rebuild.trade.bearings.identify import bearing, bearings, identify_bearing
from rebuild.trade.bearings.seats import ring_lower_um, shaft_seat

Rows = Callable[[str], list[dict[str, str]]]


def _check(published: Any, source: str, row: dict[str, str], width: str, family: str) -> None:
    name = row["designation"]
    sizes = [float(row[column]) for column in ("d", "D", width)]
    held = bearing(name).value
    published.text(source, f"{name} sizes", [held.bore_mm, held.outside_mm, held.width_mm], sizes)
    worn = (sizes[0] + 0.04, sizes[1] - 0.05, sizes[2] - 0.02)
    for label, read in (("as printed", tuple(sizes)), ("as a caliper reads a worn one", worn)):
        best = identify_bearing(*read, family=family).value[0]
        published.text(source, f"{name} {label}", best.bearing.designation, name)


def _source(name: str, status: str) -> str:
    return name if status.startswith("found") else f"{name} (from memory)"


@pytest.mark.parametrize(
    ("file", "width", "family", "name"),
    [
        ("bearings_deep_groove_mm", "B", "deep groove", "ISO 15 deep groove"),
        ("bearings_tapered_mm", "T", "tapered roller", "ISO 355 tapered"),
        ("bearings_thrust_511_mm", "T", "thrust ball", "ISO 104 thrust, series 511"),
    ],
)
def test_reference_rows(
    published: Any, reference: Rows, file: str, width: str, family: str, name: str
) -> None:
    for row in reference(file):
        _check(published, _source(name, row["status"]), row, width, family)


def test_cone_and_cup_widths(published: Any, reference: Rows) -> None:
    for row in reference("bearings_tapered_mm"):
        held = bearing(row["designation"]).value
        if held.cone_mm is not None and held.cup_mm is not None:
            source = _source("ISO 355 tapered", row["status"])
            published.number(
                source, f"{row['designation']} B", held.cone_mm, float(row["B"]), last_digit=1e-9
            )
            published.number(source, f"{row['designation']} C", held.cup_mm, float(row["C"]), last_digit=1e-9)


def _library(reference: Rows, family: str) -> Iterator[tuple[str, float, float, float]]:
    """Designation, d, D and width of one family of an open library of parts."""
    for row in reference("library_bearings_mm"):
        if row["family"] == family:
            yield row["designation"], float(row["d"]), float(row["D"]), float(row["width"])


@pytest.mark.parametrize("family", ["deep groove", "tapered roller"])
def test_a_modelling_library(published: Any, reference: Rows, family: str) -> None:
    source = f"A modelling library's table, {family}"
    held = {item.designation.rstrip("X"): item for item in bearings() if item.family == family}
    for designation, d, D, W in _library(reference, family):
        ours = held.get(designation) or held.get(f"J{designation}")
        if ours is None:
            published.not_covered(source, designation, "not in our table of usual sizes")
            continue
        published.text(source, designation, (ours.bore_mm, ours.outside_mm, ours.width_mm), (d, D, W))


@pytest.mark.parametrize("family", ["angular contact", "cylindrical roller"])
def test_the_same_envelope_in_a_library(published: Any, reference: Rows, family: str) -> None:
    for number, *sizes in _library(reference, family):
        wide = number.removeprefix("NJ ").removeprefix("NU ")
        held = bearing(wide if len(wide) == 4 and wide[0] == "2" else number).value
        published.text(
            "A modelling library's table, same envelope",
            number,
            [held.bore_mm, held.outside_mm, held.width_mm],
            sizes,
        )


def test_seats_of_a_catalogue_table(published: Any) -> None:
    # Source: a public bearing-fit table (Normal class): js6, j6, h6 on a shaft, clearance and interference in µm.
    rows = {(10, 18): (16.5, 5.5), (18, 30): (19, 4), (30, 50): (23, 5), (50, 80): (27, 7)}
    for (over, to), (most, loose) in rows.items():
        if over >= 18:
            seat = shaft_seat(float(to), "inner-turns-light").value
            published.number(
                "A public bearing-fit table",
                f"j6 {to} most",
                seat.most_interference_mm * 1000,
                most,
                last_digit=0.1,
            )
            published.number(
                "A public bearing-fit table",
                f"j6 {to} loose",
                -seat.least_interference_mm * 1000,
                loose,
                last_digit=0.1,
            )


def test_ring_limits(published: Any) -> None:
    # Source: a public copy of ISO 492 Normal class, mean bore deviation.
    for bore, lower in (
        (10, -8),
        (18, -8),
        (30, -10),
        (50, -12),
        (80, -15),
        (120, -20),
        (180, -25),
        (250, -30),
    ):
        published.text(
            "ISO 492 Normal class bores", str(bore), ring_lower_um("bore", float(bore)), float(lower)
        )
