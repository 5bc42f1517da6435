"""Unified threads against printed tables of ASME B1.1 and against the standard's worked examples."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rebuild.trade.threads import unified
from tests.published.conftest import Checker

Rows = Callable[[str], list[dict[str, str]]]
OLDER = "the row is printed from an edition before ASME B1.30's rounding; today's rule gives the other digit"


def _value(row: dict[str, str]) -> float:
    D, tpi = float(row["D"]), float(row["tpi"])
    length = D if row["LE_used"] == "D" else 9 / tpi
    found = unified.limits(D, tpi, row["class"], length).value
    values = {
        "allowance": found.allowance,
        "major_max": found.major.high,
        "major_min": found.major.low,
        "pd_max": found.pitch_diameter.high,
        "pd_min": found.pitch_diameter.low,
        "minor_max": found.minor.high,
        "minor_min": found.minor.low,
        "unr_minor_max": found.rounded_root_minor_max,
    }
    value = values[row["item"]]
    assert value is not None
    return value


def test_every_printed_limit(published: Checker, reference: Rows) -> None:
    for row in reference("unified_limits_published_vs_formula_in"):
        source = (
            "ASME B1.1 limits, printed tables"
            if row["status"] == "found"
            else "ASME B1.1 limits, from memory"
        )
        three_places = row["item"].startswith("minor") and row["class"] == "2B" and float(row["D"]) >= 0.138
        name = f"{row['thread']} {row['class']} {row['item']}"
        last = 0.001 if three_places else 0.0001
        published.number(source, name, _value(row), float(row["published"]), last_digit=last, why=OLDER)


def test_standard_length_of_engagement_is_the_one_the_tables_used(reference: Rows) -> None:
    for row in reference("unified_limits_published_vs_formula_in"):
        D, tpi = float(row["D"]), float(row["tpi"])
        length = D if row["LE_used"] == "D" else 9 / tpi
        assert (
            unified.limits(D, tpi, row["class"]).value == unified.limits(D, tpi, row["class"], length).value
        )


# Source: worked example 1/2-28 UNEF-2A and -2B of the inch thread calculations after ASME B1.1-2003 and
# B1.30, as printed in a handbook's 31st edition; every rounded final value of the example.
EXAMPLE = {
    "allowance": 0.0011, "major max": 0.4989, "major min": 0.4924, "pitch max": 0.4757, "pitch min": 0.4720,
    "UNR minor max": 0.4564, "UN minor max": 0.4602,
}  # fmt: skip


def test_worked_example(published: Checker) -> None:
    found = unified.limits(0.5, 28, "2A").value
    got = {
        "allowance": found.allowance, "major max": found.major.high, "major min": found.major.low,
        "pitch max": found.pitch_diameter.high, "pitch min": found.pitch_diameter.low,
        "UNR minor max": found.rounded_root_minor_max, "UN minor max": found.minor.high,
    }  # fmt: skip
    for name, want in EXAMPLE.items():
        published.number("ASME B1.1 worked example 1/2-28", name, got[name] or 0.0, want, last_digit=0.0001)
    nut = unified.limits(0.5, 28, "2B").value
    published.number(
        "ASME B1.1 worked example 1/2-28", "minor min", nut.minor.low or 0.0, 0.461, last_digit=0.001
    )


# Source: standard UNC and UNF limits as the trade knows them by heart (from memory of ASME B1.1 tables):
# size, tpi, 2A major max and min, 2A pitch max and min.
KNOWN_2A = [
    (0.06, 80, 0.0595, 0.0563, 0.0514, 0.0496), (0.112, 40, 0.1112, 0.1061, 0.0950, 0.0925),
    (0.138, 32, 0.1372, 0.1312, 0.1169, 0.1141), (0.164, 32, 0.1631, 0.1571, 0.1428, 0.1399),
    (0.216, 24, 0.2150, 0.2078, 0.1879, 0.1845), (0.3125, 24, 0.3114, 0.3042, 0.2843, 0.2806),
    (0.4375, 20, 0.4362, 0.4281, 0.4037, 0.3995), (0.5625, 18, 0.5611, 0.5524, 0.5250, 0.5205),
    (0.625, 18, 0.6236, 0.6149, 0.5875, 0.5828), (0.75, 16, 0.7485, 0.7391, 0.7079, 0.7029),
    (0.875, 14, 0.8734, 0.8631, 0.8270, 0.8216), (1.0, 14, 0.9983, 0.9880, 0.9519, 0.9463),
    (1.125, 7, 1.1228, 1.1064, 1.0300, 1.0228), (1.25, 12, 1.2482, 1.2368, 1.1941, 1.1879),
    (1.5, 6, 1.4976, 1.4794, 1.3893, 1.3812), (2.0, 4.5, 1.9971, 1.9751, 1.8528, 1.8433),
    (2.5, 4, 2.4969, 2.4731, 2.3345, 2.3241), (4.0, 4, 3.9966, 3.9728, 3.8342, 3.8229),
]  # fmt: skip


@pytest.mark.parametrize("row", KNOWN_2A)
def test_sizes_known_by_heart(row: tuple[float, ...], published: Checker) -> None:
    found = unified.limits(row[0], row[1], "2A").value
    got = (found.major.high, found.major.low, found.pitch_diameter.high, found.pitch_diameter.low)
    for name, value, want in zip(
        ("major max", "major min", "pitch max", "pitch min"), got, row[2:], strict=True
    ):
        name = f"{row[0]:g}-{row[1]:g} {name}"
        published.number("ASME B1.1 limits, from memory", name, value or 0.0, want, last_digit=0.0001)
