"""Straightness and flatness against published lines.

# Source: straightness_laser_manual.csv (a laser manual's worked axes; its misprints are in traps.csv),
# moody1955_*.csv (Moody 1955, The Tool Engineer; typos of the print are in traps.csv), unit_conversions.csv.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from rebuild.trade.geometry.flatness import plate_flatness
from rebuild.trade.geometry.steps import Heights, SlopeUnit, slope_um_per_m
from rebuild.trade.geometry.straightness import Reference, straightness

Rows = list[dict[str, str]]
LASER = "laser manual, straightness"


def line(rows: Rows) -> Heights:
    return Heights(
        tuple(float(row["x_m"]) * 1000 for row in rows), tuple(float(row["raw_um"]) / 1000 for row in rows)
    )


def test_residuals_of_the_laser_line(published: Any, reference: Callable[[str], Rows]) -> None:
    rows = reference("straightness_laser_manual")
    for which, column, digit in (
        (Reference.ENDS, "endpoint_residual_computed", 1e-4),
        (Reference.LEAST_SQUARES, "leastsq_residual_computed", 1e-4),
        (Reference.MINIMUM_ZONE, "minzone_residual_computed", 1e-4),
        (Reference.ENDS, "endpoint_residual_published", 0.1),
    ):
        found = straightness(line(rows), which).value
        for row, residual in zip(rows, found.residual_mm, strict=True):
            published.number(
                LASER, f"{column} at {row['x_m']}", residual * 1000, float(row[column]), last_digit=digit
            )


def test_minimum_zone_is_never_the_widest(reference: Callable[[str], Rows]) -> None:
    # Trap D: end points 0.867 µm, least squares 0.704 µm on this axis; the minimum zone is narrower than both.
    rows = reference("straightness_laser_manual")
    spans = {which: straightness(line(rows), which).value.deviation_mm * 1000 for which in Reference}
    assert spans[Reference.ENDS] == pytest.approx(0.867, abs=5e-4)
    assert spans[Reference.LEAST_SQUARES] == pytest.approx(0.704, abs=5e-4)
    assert spans[Reference.MINIMUM_ZONE] == pytest.approx(0.650, abs=5e-4)


def moody_slopes(rows: Rows) -> dict[str, list[float]]:
    found: dict[str, list[float]] = {}
    for row in rows:
        found.setdefault(row["line"], []).append(slope_um_per_m(float(row["arcsec"]), SlopeUnit.ARCSEC))
    return found


def test_moody_plate(published: Any, reference: Callable[[str], Rows]) -> None:
    slopes = moody_slopes(reference("moody1955_readings_arcsec"))
    found = plate_flatness(slopes, step_mm=4 * 25.4).value
    for row in reference("moody1955_heights"):
        height_uin = found.heights_mm[row["line"]][int(row["station"]) - 1] / 25.4 * 1e6
        published.number(
            "Moody 1955, plate heights",
            f"{row['line']} {row['station']}",
            height_uin,
            float(row["published_ref_height_uin"]),
            last_digit=0.01,
        )
        published.number(
            "Moody 1955, plate heights (recomputed)",
            f"{row['line']} {row['station']}",
            height_uin * 0.0254,
            float(row["independent_height_um"]),
            last_digit=1e-4,
        )
    assert found.closure_mm["N_S"] == pytest.approx(0.0, abs=1e-9)
    assert abs(found.closure_mm["E_W"]) < 0.0004


@pytest.mark.parametrize(
    ("reading", "unit", "um_per_m"),
    [
        (1, SlopeUnit.ARCSEC, 4.8481),
        (0.0005, SlopeUnit.IN_PER_FT, 41.667),
        (0.02, SlopeUnit.MM_PER_M, 20.0),
        (0.05, SlopeUnit.MM_PER_M, 50.0),
        (2, SlopeUnit.ARCSEC_BEAM, 4.8481),  # trap D: a mirror tilt a turns the beam 2a
    ],
)
def test_slopes(reading: float, unit: SlopeUnit, um_per_m: float) -> None:
    # Source: unit_conversions.csv.
    assert slope_um_per_m(reading, unit) == pytest.approx(um_per_m, rel=2e-5)


def test_moody_centre_lines_both_ways(reference: Callable[[str], Rows]) -> None:
    """The paper moves a centre line so that its middle is zero; ours lie between the edges and show what is left.

    By hand: the E to W line's middle misses by its closure, so moved by it the line runs through the middle of the
    diagonals, and its ends miss the edges by the same amount.
    """
    found = plate_flatness(moody_slopes(reference("moody1955_readings_arcsec")), step_mm=4 * 25.4).value
    middle = found.centred_mm["NW_SE"][len(found.centred_mm["NW_SE"]) // 2]
    for line in ("E_W", "N_S"):
        heights = found.centred_mm[line]
        assert heights[len(heights) // 2] == pytest.approx(middle, abs=1e-12)
    edge = found.centred_mm["NE_SE"][len(found.centred_mm["NE_SE"]) // 2]
    assert found.centred_mm["E_W"][0] - edge == pytest.approx(-found.closure_mm["E_W"], abs=1e-12)
    assert found.heights_mm["E_W"][0] == pytest.approx(
        found.heights_mm["NE_SE"][len(found.heights_mm["NE_SE"]) // 2], abs=1e-12
    )
