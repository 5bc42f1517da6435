"""ISO metric limits 6g/6H against a printed table, and independent tables of coarse pitches."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rebuild.trade.threads import metric
from rebuild.trade.threads.series import metric_coarse
from tests.published.conftest import Checker

Rows = Callable[[str], list[dict[str, str]]]


def test_every_6g_and_6h_limit(published: Checker, reference: Rows) -> None:
    for row in reference("iso_metric_6g6h_limits_mm"):
        screw = metric.limits(float(row["d"]), float(row["P"]), "6g").value
        nut = metric.limits(float(row["d"]), float(row["P"]), "6H").value
        got = {
            "ext_major_max": screw.major.high,
            "ext_major_min": screw.major.low,
            "ext_pd_max": screw.pitch_diameter.high,
            "ext_pd_min": screw.pitch_diameter.low,
            "int_minor_min": nut.minor.low,
            "int_minor_max": nut.minor.high,
            "int_pd_min": nut.pitch_diameter.low,
            "int_pd_max": nut.pitch_diameter.high,
        }
        for item, value in got.items():
            remembered = bool(row["note"]) and item.startswith("ext")
            source = "ISO 965-2 6g/6H, third digit from memory" if remembered else "ISO 965-2 6g/6H, printed"
            published.number(
                source, f"{row['thread']} {item}", value or 0.0, float(row[item]), last_digit=0.001
            )


def test_two_decimals_as_printed(published: Checker, reference: Rows) -> None:
    """From M12 up the printed table has two decimals for the screw: major max, min, pitch max, min."""
    for row in reference("iso_metric_6g6h_limits_mm"):
        if not row["note"]:
            continue
        screw = metric.limits(float(row["d"]), float(row["P"]), "6g").value
        printed = [float(word) for word in row["note"].rpartition(":")[2].split()]
        bands = (screw.major.high, screw.major.low, screw.pitch_diameter.high, screw.pitch_diameter.low)
        for value, want in zip(bands, printed, strict=True):
            published.number(
                "ISO 965-2 6g, printed to 0.01", row["thread"], value or 0.0, want, last_digit=0.01
            )


# Source: pitch diameter tolerances of nuts, as a tap maker's table of ISO 965-1 prints them [µm].
NUT_TOLERANCES = [
    (1.4, 0.3, "4H", 48), (1.4, 0.3, "5H", 60), (1.4, 0.3, "6H", 75), (1.6, 0.35, "4H", 53), (1.6, 0.35, "6H", 85),
    (2, 0.4, "5H", 71), (2, 0.4, "6H", 90), (2.2, 0.45, "6H", 95), (3, 0.5, "4H", 63), (3, 0.5, "5H", 80),
    (3, 0.5, "6H", 100), (3.5, 0.6, "6H", 112), (4, 0.7, "4H", 75), (4, 0.7, "6H", 118), (5, 0.8, "5H", 100),
    (5, 0.8, "6H", 125), (6, 1, "4H", 95), (6, 1, "5H", 118), (6, 1, "6H", 150), (8, 1.25, "4H", 100),
    (8, 1.25, "5H", 125), (8, 1.25, "6H", 160), (16, 2, "6H", 212), (36, 2, "6H", 224), (60, 2, "6H", 236),
    (120, 2, "6H", 250),
]  # fmt: skip


@pytest.mark.parametrize(("d", "P", "cls", "um"), NUT_TOLERANCES)
def test_nut_pitch_tolerances(d: float, P: float, cls: str, um: float, published: Checker) -> None:
    band = metric.limits(d, P, cls).value.pitch_diameter
    assert band.low is not None
    assert band.high is not None
    source = "ISO 965-1 TD2, printed by a tap table"
    published.number(source, f"M{d:g}x{P:g} {cls}", (band.high - band.low) * 1000, um, last_digit=1)


@pytest.mark.parametrize(
    ("d", "P", "upper_um"),
    [(3, 0.5, 120), (4, 0.7, 140), (5, 0.8, 149), (6, 1, 176), (8, 1.25, 188), (3.5, 0.6, 133)],
)
def test_6g_position_of_nuts(d: float, P: float, upper_um: float, published: Checker) -> None:
    found = metric.limits(d, P, "6G").value
    assert found.pitch_diameter.high is not None
    above = (found.pitch_diameter.high - found.basic_pitch_diameter) * 1000
    published.number(
        "ISO 965-1 6G upper limit, printed by a tap table", f"M{d:g}", above, upper_um, last_digit=1
    )


def test_coarse_pitches_agree_with_an_independent_library(published: Checker, reference: Rows) -> None:
    theirs: dict[float, set[float]] = {}
    for row in reference("library_metric_pitches_mm"):
        theirs.setdefault(float(row["diameter"]), set()).add(float(row["pitch"]))
    shared = sorted(set(theirs) & set(metric_coarse()))
    assert len(shared) >= 15
    for d in shared:
        published.text("metric pitches of a library", f"M{d:g}", metric_coarse()[d] in theirs[d], True)


# Source: coarse sizes as the trade knows them by heart (from memory of ISO 965-2): d, P, then 6g major max, min,
# pitch max, min; 6H minor min, max, pitch max [mm].
BY_HEART = [
    (8, 1.25, 7.972, 7.760, 7.160, 7.042, 6.647, 6.912, 7.348),
    (10, 1.5, 9.968, 9.732, 8.994, 8.862, 8.376, 8.676, 9.206),
    (42, 4.5, 41.937, 41.437, 39.014, 38.778, 37.129, 37.799, 39.392),
    (48, 5, 47.929, 47.399, 44.681, 44.431, 42.587, 43.297, 45.087),
]


@pytest.mark.parametrize("row", BY_HEART)
def test_sizes_known_by_heart(row: tuple[float, ...], published: Checker) -> None:
    d, P, *wanted = row
    screw, nut = metric.limits(d, P, "6g").value, metric.limits(d, P, "6H").value
    got = (screw.major.high, screw.major.low, screw.pitch_diameter.high, screw.pitch_diameter.low)
    for value, want in zip(
        (*got, nut.minor.low, nut.minor.high, nut.pitch_diameter.high), wanted, strict=True
    ):
        source = "ISO 965-2 6g/6H, from memory"
        published.number(source, f"M{d:g}x{P:g}", value or 0.0, want, last_digit=0.001)
