"""Whitworth and BA threads against printed basic sizes, the BA rule, and a library's pipe thread table."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rebuild.trade.results.tables import table
from rebuild.trade.threads import ba, whitworth
from rebuild.trade.threads.series import standards, tpi_of
from tests.published.conftest import Checker

Rows = Callable[[str], list[dict[str, str]]]

# Source: basic BSW and BSF sizes as handbooks print them: size, threads per inch, effective, minor [in].
BASIC = [
    (0.1875, 24, 0.1608, 0.1341), (0.25, 20, 0.2180, 0.1860), (0.3125, 18, 0.2769, 0.2413),
    (0.375, 16, 0.3350, 0.2950), (0.4375, 14, 0.3918, 0.3461), (0.5, 12, 0.4466, 0.3932),
    (0.625, 11, 0.5668, 0.5086), (0.75, 10, 0.6860, 0.6220), (0.875, 9, 0.8039, 0.7327),
    (1.0, 8, 0.9200, 0.8400), (0.25, 26, 0.2254, 0.2008), (0.375, 20, 0.3430, 0.3110),
    (0.5, 16, 0.4600, 0.4200), (0.75, 12, 0.6966, 0.6432), (1.0, 10, 0.9360, 0.8720),
]  # fmt: skip
TWICE_ROUNDED = "printed as the diameter less twice the rounded depth; the constant gives the other digit"


@pytest.mark.parametrize(("D", "tpi", "effective", "minor"), BASIC)
def test_basic_whitworth(D: float, tpi: float, effective: float, minor: float, published: Checker) -> None:
    nut = whitworth.limits(D, tpi, "normal", side="internal").value
    source = "BS 84 basic sizes, from memory of printed tables"
    name = f"{D:g}-{tpi:g}"
    published.number(source, f"{name} effective", nut.basic_pitch_diameter, effective, last_digit=0.0001)
    low = nut.minor.low or 0.0
    published.number(source, f"{name} minor", low, minor, last_digit=0.0001, why=TWICE_ROUNDED)


# Source: BSW and BSF threads per inch from a gauge maker's list: size [in], BSW, BSF.
LIST = [
    (0.1875, 24, 32), (0.25, 20, 26), (0.3125, 18, 22), (0.375, 16, 20), (0.4375, 14, 18), (0.5, 12, 16),
    (0.5625, 12, 16), (0.625, 11, 14), (0.6875, 11, 14), (0.75, 10, 12), (0.875, 9, 11), (1, 8, 10),
    (1.125, 7, 9), (1.25, 7, 9), (1.5, 6, 8), (1.75, 5, 7), (2, 4.5, 7), (2.5, 4, 6), (3, 3.5, 5),
    (3.5, 3.25, 4.5), (4, 3, 4.5),
]  # fmt: skip


@pytest.mark.parametrize(("D", "coarse", "fine"), LIST)
def test_series(D: float, coarse: float, fine: float, published: Checker) -> None:
    published.text("BS 84 series, printed list", f"BSW {D:g}", tpi_of("BSW")[D], coarse)
    published.text("BS 84 series, printed list", f"BSF {D:g}", tpi_of("BSF")[D], fine)


def test_ba_sizes_follow_their_rule(published: Checker) -> None:
    """BS 93: pitch 0.9^n and diameter 6 p^1.2, each rounded to two figures."""
    for row in table("ba_threads").rows:
        n = int(row["number"])
        exact_pitch = 0.9**n
        source = "BS 93 basis of sizes"
        published.number(source, f"{n} BA pitch", exact_pitch, float(row["pitch_mm"]), last_digit=0.01)
        last = 0.1 if float(row["major_mm"]) >= 0.8 else 0.01
        published.number(
            source, f"{n} BA major", 6 * exact_pitch**1.2, float(row["major_mm"]), last_digit=last
        )


# Source: tolerance formulas of BS 93 as printed: normal bolts 0 to 10, allowance 0.025; nuts.
def test_ba_tolerances(published: Checker) -> None:
    bolt, nut = ba.limits(4).value, ba.limits(4, side="internal").value
    p, source = 0.66, "BS 93 tolerance formulas, printed"
    for name, got, want in (
        ("major", bolt.major, 0.20 * p),
        ("effective", bolt.pitch_diameter, 0.10 * p + 0.025),
        ("minor", bolt.minor, 0.20 * p + 0.05),
        ("nut effective", nut.pitch_diameter, 0.12 * p + 0.03),
        ("nut minor", nut.minor, 0.375 * p),
    ):
        width = (got.high or 0.0) - (got.low or 0.0)
        published.number(source, f"4 BA {name}", width, want, last_digit=0.001, why="two rounded limits")
    assert bolt.major.high == 3.575


def test_pipe_threads_agree_with_an_independent_library(published: Checker, reference: Rows) -> None:
    ours = {row.size: row for row in standards() if row.series == "G"}
    for row in reference("library_pipe_threads_mm"):
        if row["size"] not in ours:
            continue
        mine = ours[row["size"]]
        source = "ISO 228-1 sizes of a library"
        published.number(source, row["size"], mine.major_mm, float(row["major_diameter"]), last_digit=0.001)
        published.text(source, f"{row['size']} tpi", mine.tpi, float(row["tpi"]))
        pitch = mine.major_mm - 0.640327 * mine.pitch_mm
        published.number(
            source,
            f"{row['size']} pitch",
            pitch,
            float(row["pitch_diameter"]),
            last_digit=0.001,
            why="the library keeps ISO 228's printed value",
        )
