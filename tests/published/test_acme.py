"""Acme threads against printed tables of ASME B1.5 and the trade's check values."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from rebuild.trade.threads import acme, making, stub_acme
from rebuild.trade.threads.form import form
from rebuild.trade.threads.series import System, inch_series
from rebuild.trade.threads.sizes import Side
from tests.published.conftest import Checker

Rows = Callable[[str], list[dict[str, str]]]
ROUNDED = "this one printed row took 1.5 times the tolerance to four places (0.0087); the rule gives 0.0086"


def test_basic_data(published: Checker, reference: Rows) -> None:
    source = "ASME B1.5 basic data, printed"
    for row in reference("acme_basic_data_in"):
        D, tpi = float(row["D"]), float(row["tpi"])
        name = f"{row['D']}-{row['tpi']}"
        found = acme.limits(D, tpi).value
        degrees, minutes = (int(part) for part in row["lead_angle_pub_deg_min"].split())
        nut = acme.limits(D, tpi, side=Side.INTERNAL).value
        published.number(
            source, f"{name} D2", found.basic_pitch_diameter, float(row["D2_pub"]), last_digit=0.0001
        )
        published.number(source, f"{name} D1", nut.minor.low or 0.0, float(row["D1_pub"]), last_digit=0.0001)
        published.number(source, f"{name} P", found.pitch, float(row["P_pub"]), last_digit=0.00001)
        published.number(source, f"{name} h", found.pitch / 2, float(row["h_pub"]), last_digit=0.00001)
        flat = form(System.ACME).screw_flat * found.pitch
        published.number(source, f"{name} flat", flat, float(row["F_pub"]), last_digit=0.0001)
        lead = (found.lead_angle_deg - degrees) * 60
        published.number(source, f"{name} lead angle", lead, minutes, last_digit=1)


def test_minor_diameters(published: Checker, reference: Rows) -> None:
    for row in reference("acme_minor_dia_published_vs_formula_in"):
        side = Side.EXTERNAL if row["item"].startswith("external") else Side.INTERNAL
        found = acme.limits(float(row["D"]), float(row["tpi"]), row["class"], side=side).value
        value = found.minor.low if side is Side.EXTERNAL else found.minor.high
        name = f"{row['D']}-{row['tpi']} {row['class']} {row['item']}"
        source = "ASME B1.5 minor diameters, printed"
        published.number(source, name, value or 0.0, float(row["published"]), last_digit=0.0001, why=ROUNDED)


def test_pitch_diameter_allowances(published: Checker, reference: Rows) -> None:
    """Every range of the printed table, at its middle, just inside its low end and at its high end."""
    for row in reference("acme_pitch_dia_allowances_in"):
        low, high = float(row["over_in"]), float(row["to_incl_in"])
        for D in sorted({max(round((low + high) / 2, 6), 0.14), high, max(low + 0.0001, 0.14)}):
            tpi = 20 if D < 0.5 else 5
            got = acme.limits(D, tpi, row["class"]).value.allowance
            name = f"over {low} to {high} {row['class']} at {D}"
            want = float(row["allowance_published"])
            published.number("ASME B1.5 allowances, printed", name, got, want, last_digit=0.0001)


def test_nut_of_one_inch_eight() -> None:
    """Common practice, no source: a nut of 1 in nominal, 8 threads per inch, is bored 0.8750 to 0.8813 in."""
    found = making.nut_bore("1-8 ACME").value
    assert round(found.low_mm / 25.4, 4) == 0.8750
    assert round(found.high_mm / 25.4, 4) == 0.8813


def test_compound_and_angle() -> None:
    """Common practice, no source: 29° included, compound at 14.5°."""
    found = making.single_point("1-8 ACME").value
    assert (found.tool_angle_deg, found.compound_deg, found.compound_from_axis_deg) == (29.0, 14.5, 75.5)


def test_nut_for_a_left_hand_seven_sixteenths_ten() -> None:
    """Common practice: minor 0.3375-0.3425 in, depth 0.060, tool flat 0.0319."""
    found = making.single_point("7/16-10 LH ACME", Side.INTERNAL).value
    values = (found.start_low_mm, found.start_high_mm, found.depth_mm, found.tool_flat_mm)
    assert [round(value / 25.4, 4) for value in values] == [0.3375, 0.3425, 0.06, 0.0319]
    assert found.left_hand


# Source: ASME/ANSI B1.8-1988 basic dimensions as a handbook prints them: threads per inch, total height,
# crest of the internal thread, flat at the root of the internal thread [in].
STUB = [
    (16, 0.0238, 0.0264, 0.0238), (12, 0.0300, 0.0352, 0.0326), (10, 0.0400, 0.0422, 0.0370),
    (8, 0.0475, 0.0528, 0.0476), (6, 0.0600, 0.0704, 0.0652), (5, 0.0700, 0.0845, 0.0793),
    (4, 0.0850, 0.1056, 0.1004), (2, 0.1600, 0.2112, 0.2060),
]  # fmt: skip


DIFFERENCE = "the table takes the difference of rounded numbers, 0.0422 - 0.0052; the rule gives 0.03707"


@pytest.mark.parametrize(("tpi", "height", "crest", "root"), STUB)
def test_stub_form(tpi: float, height: float, crest: float, root: float, published: Checker) -> None:
    cut = making.single_point(f"3-{tpi} STUB ACME", Side.INTERNAL).value
    source = "ASME B1.8 stub form, printed"
    published.number(source, f"{tpi} tpi height", cut.depth_mm / 25.4, height, last_digit=0.0001)
    flat = form(System.STUB_ACME).screw_flat / tpi
    published.number(source, f"{tpi} tpi crest", flat, crest, last_digit=0.0001)
    published.number(
        source, f"{tpi} tpi root", cut.tool_flat_mm / 25.4, root, last_digit=0.0001, why=DIFFERENCE
    )


def test_stub_basic_diameters() -> None:
    found = stub_acme.limits(0.5, 10, side=Side.INTERNAL).value
    assert found.basic_pitch_diameter == pytest.approx(0.47, abs=1e-12)
    assert found.minor.low == 0.44


def test_standard_pairs_agree_with_an_independent_library(published: Checker, reference: Rows) -> None:
    for row in reference("library_acme_in"):
        size = sum((Fraction(part) for part in row["size"].split()), Fraction(0))
        tpi = Fraction(row["tpi"])
        known = "ACME" in inch_series(float(size), float(tpi))
        published.text("Acme sizes of a library", f"{size}-{tpi}", known, True)


# Source: limiting dimensions of general purpose Acme threads, from memory of ASME B1.5's table:
# size, tpi, class, screw pitch max, min, minor max, min; nut pitch max [in].
LIMITING = [
    (0.25, 16, "2G", 0.2148, 0.2043, 0.1775, 0.1618, 0.2293),
    (0.5, 10, "2G", 0.4443, 0.4306, 0.3800, 0.3594, 0.4637),
    (0.5, 10, "3G", 0.4458, 0.4394, 0.3800, 0.3704, 0.4564),
    (0.5, 10, "4G", 0.4472, 0.4426, 0.3800, 0.3731, 0.4546),
    (1.0, 5, "2G", 0.8920, 0.8726, 0.7800, 0.7509, 0.9194),
]


@pytest.mark.parametrize("row", LIMITING)
def test_limiting_dimensions(
    row: tuple[float, float, str, float, float, float, float, float], published: Checker
) -> None:
    D, tpi, cls, *wanted = row
    screw, nut = acme.limits(D, tpi, cls).value, acme.limits(D, tpi, cls, side=Side.INTERNAL).value
    got = (screw.pitch_diameter.high, screw.pitch_diameter.low, screw.minor.high, screw.minor.low)
    for value, want in zip((*got, nut.pitch_diameter.high), wanted, strict=True):
        source = "ASME B1.5 limiting dimensions, from memory"
        published.number(source, f"{D:g}-{tpi:g} {cls}", value or 0.0, want, last_digit=0.0001)
