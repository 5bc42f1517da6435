"""Clearance holes, T-slots, splines and general tolerances against second sources."""

from __future__ import annotations

from collections.abc import Callable
from math import pi

from rebuild.trade.joints.clearance_holes import clearance_hole
from rebuild.trade.joints.splines import identify_spline
from rebuild.trade.limits.general import general_tolerance
from rebuild.trade.limits.iso286 import it_grade_um
from rebuild.trade.results.tables import table
from rebuild.trade.shop.t_slots import t_slot
from tests.published.conftest import Checker

Rows = Callable[[str], list[dict[str, str]]]


def test_clearance_holes_of_a_library(published: Checker, reference: Rows) -> None:
    source = "ISO 273, an open library's holes"
    for row in reference("library_clearance_holes_mm"):
        for series in ("fine", "medium", "coarse"):
            name = f"M{row['thread']} {series}"
            if float(row["thread"]) >= 12 and series != "fine":
                published.not_covered(
                    source, name, "rounded up to whole mm there; ISO 273 has 13.5 and 14.5 for M12"
                )
                continue
            got = clearance_hole(float(row["thread"]), series).value.hole_mm
            published.number(source, name, got, float(row[series]), last_digit=0.1)


def test_nuts_of_a_library_go_into_the_slots(published: Checker, reference: Rows) -> None:
    """Independent of the slots' table: the nut of DIN 508 has the slot's throat, and room below and beside."""
    source = "DIN 508 nuts in ISO 299 slots"
    for row in reference("library_t_nuts_mm"):
        slot = t_slot(float(row["a"])).value
        published.text(source, f"{row['bolt']} bolt", slot.bolt, row["bolt"])
        published.text(source, f"{row['bolt']} goes in beside", float(row["e"]) < slot.recess_mm[0], True)
        published.text(
            source, f"{row['bolt']} goes in below", float(row["k"]) < slot.recess_depth_mm[0], True
        )
        published.text(source, f"{row['bolt']} below the table", float(row["h"]) < slot.whole_mm[0], True)


# Source: BS 2485 as a public page prints it: H12 and H8 of the throat, in mm, by size.
THROATS = {
    5: 0.12,
    6: 0.12,
    8: 0.15,
    10: 0.15,
    12: 0.18,
    14: 0.18,
    18: 0.18,
    22: 0.21,
    28: 0.21,
    36: 0.25,
    42: 0.25,
    48: 0.25,
    54: 0.30,
}


def test_throat_tolerances_printed_are_h12(published: Checker) -> None:
    for throat, wide in THROATS.items():
        published.number(
            "BS 2485 throats, H12", f"{throat} mm", it_grade_um(throat, "12") / 1000, wide, last_digit=0.01
        )


def test_splines_of_a_designers_code(published: Checker, reference: Rows) -> None:
    source = "DIN 5462 splines in open code"
    for row in reference("library_splines_mm"):
        name = f"{row['splines']} x {row['minor']} x {row['outside']}"
        if name == "8 x 32 x 36":
            published.not_covered(source, name, "prints 7 wide; ISO 14 and its medium series have 6")
            continue
        best = (
            identify_spline(round(float(row["splines"])), float(row["outside"]), float(row["width"]))
            .value[0]
            .spline
        )
        published.text(source, name, best.name, name)
        published.number(source, f"{name} width", best.width_mm, float(row["width"]), last_digit=0.1)


def test_inch_splines_of_a_public_summary(published: Checker) -> None:
    # Source: a public summary of SAE J499, six splines of 1 in: width 0.248-0.250; minor A 0.900, B 0.850, C 0.800 in.
    for series, minor in (("A", 0.900), ("B", 0.850), ("C", 0.800)):
        best = identify_spline(6, 25.4, 6.35, minor * 25.4).value[0]
        assert best.likeness.agrees
        assert best.spline.series == series
        published.number(
            "SAE J499, 1 in six splines",
            f"{series} minor",
            best.spline.minor_mm / 25.4,
            minor,
            last_digit=1e-4,
        )
        published.number(
            "SAE J499, 1 in six splines",
            f"{series} width",
            best.spline.width_mm / 25.4,
            0.250,
            last_digit=1e-4,
        )


def test_splines_and_gaps_go_round_once(published: Checker) -> None:
    """Independent: chords of splines and gaps, turned to angles at the minor circle, add to a whole turn."""
    from math import asin

    for row in table("splines_iso14").rows:
        one = (
            identify_spline(round(float(row["splines"])), float(row["outside_mm"]), float(row["width_mm"]))
            .value[0]
            .spline
        )
        turn = one.splines * 2 * (asin(one.width_mm / one.minor_mm) + asin(one.gap_mm / one.minor_mm))
        published.number("Splines and gaps of a circle", one.name, turn, 2 * pi, last_digit=1e-9)


def test_general_tolerances(published: Checker, reference: Rows) -> None:
    for file, source in (
        ("iso2768_public_mm", "ISO 2768-1, a public summary"),
        ("iso2768_code_mm", "ISO 2768-1, a knowledge base in code"),
    ):
        for row in reference(file):
            high = float(row["to"])
            got = general_tolerance(high, row["class"]).value
            published.number(
                source, f"{row['class']} to {high:g}", got, float(row["tolerance"]), last_digit=0.01
            )
            assert general_tolerance((float(row["over"]) + high) / 2, row["class"]).value == got
