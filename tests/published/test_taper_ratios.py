"""Tapers 1:x against the printed angles of the standard series."""

from __future__ import annotations

from rebuild.trade.results.tables import table
from rebuild.trade.tapers.ratio import cone_from_ratio, cone_from_sizes
from tests.published.conftest import Checker

# Source: an encyclopedia's public page of the same series, angles in degrees, minutes and seconds.
PRINTED = {
    200: (0, 17, 12), 100: (0, 34, 23), 50: (1, 8, 45), 30: (1, 54, 35), 20: (2, 51, 51), 15: (3, 49, 6),
    12: (4, 46, 19), 10: (5, 43, 29), 8: (7, 9, 10), 7: (8, 10, 16), 5: (11, 25, 16), 4: (14, 15, 0), 3: (18, 55, 29),
}  # fmt: skip


def test_angles_of_the_series(published: Checker) -> None:
    for row in table("taper_ratios").rows:
        if not row["status"]:
            found = cone_from_ratio(400.0, float(row["x"]), 100.0).value
            published.number(
                "ISO 1119 angles, GOST R 53440", f"1:{row['x']}", 2 * found.half_angle_deg, float(row["angle_deg"]),
                last_digit=1e-7, why="printed from radians rounded to eight places",
            )  # fmt: skip
    for x, (deg, minutes, seconds) in PRINTED.items():
        found = cone_from_sizes(400.0, 400.0 - 100.0 / x, 100.0).value
        want = deg * 3600.0 + minutes * 60.0 + seconds
        published.number(
            "ISO 1119 angles, an encyclopedia", f"1:{x}", found.half_angle_deg * 7200, want, last_digit=1.0,
            why="17 min 12 s for 17 min 11.3 s: doubled from the rounded half",
        )  # fmt: skip
        assert found.near[0].x == x
