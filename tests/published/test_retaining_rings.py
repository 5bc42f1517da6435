"""Grooves of retaining rings against a second open library, two public catalogues, and the grades of ISO 286."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rebuild.errors import OutOfRange
from rebuild.trade.joints.retaining_rings import ring_groove
from rebuild.trade.limits.iso286 import it_grade_um
from rebuild.trade.results.tables import table
from tests.published.conftest import Checker

Rows = Callable[[str], list[dict[str, str]]]
#: Slips of one source, each against the others.
SLIPS = {
    ("bore", "28", "d2"): "prints 20.4, under the bore itself, for 29.4",
    ("bore", "100", "d2"): "prints 103; the depth of 1.75 printed elsewhere gives 103.5",
    ("shaft", "52", "d2"): "prints 49.5 where the other library has 49: the size is left out",
    ("shaft", "52", "s"): "the size is left out",
}


def test_a_second_open_library(published: Checker, reference: Rows) -> None:
    source = "DIN 471/472, a second open library"
    for row in reference("library_retaining_rings_mm"):
        for label in ("s", "d2"):
            name = f"{row['kind']} {row['size']} {label}"
            if why := SLIPS.get((row["kind"], row["size"], label)):
                published.not_covered(source, name, why)
                continue
            groove = ring_groove(row["kind"], float(row["size"])).value
            d2 = groove.high_mm if row["kind"] == "shaft" else groove.low_mm
            published.number(
                source, name, d2 if label == "d2" else groove.ring_mm, float(row[label]), last_digit=0.01
            )


def test_public_catalogues_with_the_groove_width(published: Checker, reference: Rows) -> None:
    source = "DIN 471/472, public catalogues"
    for row in reference("catalogue_retaining_rings_mm"):
        groove = ring_groove(row["kind"], float(row["size"])).value
        d2 = groove.high_mm if row["kind"] == "shaft" else groove.low_mm
        name = f"{row['kind']} {row['size']}"
        published.number(source, f"{name} d2", d2, float(row["d2"]), last_digit=0.01)
        published.number(source, f"{name} m", groove.width_low_mm, float(row["m"]), last_digit=0.01)


def test_groove_tolerances_are_grades_of_iso_286(published: Checker) -> None:
    """Independent of the table: each printed tolerance is a grade, IT9 to IT12, of its groove."""
    for row in table("retaining_rings").rows:
        d2, printed = float(row["d2_mm"]), float(row["d2_tolerance_mm"]) * 1000
        near = min((abs(it_grade_um(d2, grade) - printed), grade) for grade in ("9", "10", "11", "12"))
        name = f"{row['kind']} {row['size_mm']}"
        published.number("ISO 286 grades of DIN 471/472 grooves", name, near[0], 0.0, last_digit=10.0)


def test_between_sizes_nothing_is_made_up() -> None:
    for kind, size in (("shaft", 27.5), ("bore", 8.5), ("shaft", 101.0), ("shaft", 52.0)):
        with pytest.raises(OutOfRange, match="is no size of the table"):
            ring_groove(kind, size)
