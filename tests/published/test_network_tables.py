"""Critical path and three-point tables from textbooks.

# Source: tests/published/data/cpm_textbook_ch8_p5.csv (a project-management textbook, chapter 8, problem 5:
# published ES, EF, LS, LF and total slack) and pert_14act.csv (a fourteen-activity three-point example).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rebuild.trade.schedule.cpm import Network
from rebuild.trade.schedule.pert import ThreePoint, along

Rows = list[dict[str, str]]


def test_critical_path_table(published: Any, reference: Callable[[str], Rows]) -> None:
    rows = reference("cpm_textbook_ch8_p5")
    links = [
        (before, row["activity(i-j)"]) for row in rows for before in row["predecessors"].split(";") if before
    ]
    network = Network([row["activity(i-j)"] for row in rows], links)
    times = network.times({row["activity(i-j)"]: float(row["duration"]) for row in rows})
    for row in rows:
        got = times[row["activity(i-j)"]]
        for column, value in (
            ("ES_pub", got.earliest_start),
            ("EF_pub", got.earliest_finish),
            ("LS_pub", got.latest_start),
            ("LF_pub", got.latest_finish),
            ("total_slack_pub", got.total_slack),
        ):
            published.number("CPM textbook, ch. 8 p. 5", column, value, float(row[column]), last_digit=1e-6)
        assert got.free_slack == float(row["free_slack_computed"])
    assert network.critical_path({row["activity(i-j)"]: float(row["duration"]) for row in rows}) == (
        "1-3",
        "3-4",
        "4-5",
        "5-6",
    )


def test_three_point_table(published: Any, reference: Callable[[str], Rows]) -> None:
    rows = reference("pert_14act")
    points = {row["act"]: ThreePoint(float(row["a"]), float(row["m"]), float(row["b"])) for row in rows}
    network = Network(points, [(before, row["act"]) for row in rows for before in row["pred"].split()])
    times = network.times({key: point.mean for key, point in points.items()})
    for row in rows:
        got, point = times[row["act"]], points[row["act"]]
        for column, value in (
            ("te", point.mean),
            ("var", point.variance),
            ("ES", got.earliest_start),
            ("EF", got.earliest_finish),
            ("LS", got.latest_start),
            ("LF", got.latest_finish),
            ("total_slack", got.total_slack),
            ("free_slack", got.free_slack),
        ):
            published.number("PERT, 14 activities", column, value, float(row[column]), last_digit=1e-4)


def test_variances_add_along_the_path_and_standard_deviations_do_not(
    reference: Callable[[str], Rows],
) -> None:
    # Trap E: the path's standard deviation is the root of the summed variances.
    points = {
        row["act"]: ThreePoint(float(row["a"]), float(row["m"]), float(row["b"]))
        for row in reference("pert_14act")
    }
    network = Network(points, [(b, r["act"]) for r in reference("pert_14act") for b in r["pred"].split()])
    path = network.critical_path({key: point.mean for key, point in points.items()})
    estimate = along(points[key] for key in path)
    assert path == ("A", "C", "E", "H", "I", "K", "M", "N")
    assert abs(estimate.mean - 50.8333) < 1e-4
    summed_sd = sum(points[key].variance ** 0.5 for key in path)
    assert estimate.variance**0.5 < summed_sd
