"""ISO viscosity grades, AGMA numbers and NLGI consistency against the reference rows."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rebuild.trade.lubrication.grades import agma, iso_band, iso_place, nlgi

Rows = Callable[[str], list[dict[str, str]]]


def test_iso_3448(published: Any, reference: Rows) -> None:
    for row in reference("iso3448_vg"):
        band = iso_band(int(row["iso_vg"]))
        source = "ISO 3448" if row["status"] == "found" else "ISO 3448 (from memory)"
        low, high = (
            row["published_min"] or row["calc_min_0.9mid"],
            row["published_max"] or row["calc_max_1.1mid"],
        )
        published.number(source, f"VG {row['iso_vg']} least", band.min_cSt, float(low), last_digit=1e-6)
        published.number(
            source, f"VG {row['iso_vg']} most", band.max_cSt or 0.0, float(high), last_digit=1e-6
        )
        mid = float(row["mid_cSt_40C"])
        published.number(source, f"VG {row['iso_vg']} rule 0.9", band.min_cSt, 0.9 * mid, last_digit=1e-6)
        published.text(source, f"VG {row['iso_vg']} mid", iso_place(mid).value.grade, int(row["iso_vg"]))


def test_agma_numbers(published: Any, reference: Rows) -> None:
    for row in reference("agma9005_numbers"):
        band = agma(row["agma_no"])
        source = (
            "AGMA 9005 numbers" if row["status"].startswith("found") else "AGMA 9005 numbers (from memory)"
        )
        if row["iso_vg"].isdigit():
            published.text(source, f"{row['agma_no']} grade", band.iso_vg, int(row["iso_vg"]))
        limits = row["iso_vg"] if "at 100" in row["limits_cSt_40C"] else row["limits_cSt_40C"]
        low, high = limits.strip("()").split(" ")[0].split("-")
        published.number(source, f"{row['agma_no']} least", band.min_cSt, float(low), last_digit=1e-6)
        published.number(source, f"{row['agma_no']} most", band.max_cSt or 0.0, float(high), last_digit=1e-6)


def test_nlgi(published: Any, reference: Rows) -> None:
    column = "worked_penetration_0.1mm_25C_60strokes(ASTM D217/ISO 2137)"
    for row in reference("nlgi"):
        found = nlgi(row["nlgi"])
        source = "NLGI consistency" if row["status"] == "found" else "NLGI consistency (from memory)"
        published.text(source, row["nlgi"], f"{found.min_tenths}-{found.max_tenths}", row[column])
