"""Tap drills against printed charts; both conventions of percent of thread."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rebuild.trade.threads import tap_drill
from rebuild.trade.threads.tap_drill import OLDER, TODAY, hole_for_percent, percent_of_thread
from tests.published.conftest import Checker

Rows = Callable[[str], list[dict[str, str]]]


def test_chart_drills(published: Checker, reference: Rows) -> None:
    for row in reference("tap_drill"):
        unit = 25.4 if row["unit"] == "in" else 1.0
        major, pitch, drill = (float(row[key]) * unit for key in ("major", "pitch", "chart_drill"))
        if row["unit"] == "in":
            pitch = 25.4 / round(1 / float(row["pitch"]))
            # The file rounds drill diameters to four places; a fraction has its exact size by name.
            if "/" in row["chart_drill_name"]:
                drill = _fraction(row["chart_drill_name"]) * unit
        kind = "printed" if row["status"] == "found" else "from memory"
        source = f"tap drill chart, {kind}"
        last = 0.0001 if row["unit"] == "in" else 0.001
        for convention, hole, percent in (
            (OLDER, "hole_75pct_convention_1.299P", "pct_of_chart_drill_1.299P"),
            (TODAY, "hole_75pct_convention_1.0825P", "pct_of_chart_drill_1.0825P"),
        ):
            got = hole_for_percent(major, pitch, 75, convention) / unit
            published.number(
                source, f"{row['thread']} hole {convention}", got, float(row[hole]), last_digit=last
            )
            share = percent_of_thread(major, pitch, drill, convention)
            published.number(
                source, f"{row['thread']} % {convention}", share, float(row[percent]), last_digit=0.1
            )
        published.number(
            source,
            f"{row['thread']} D - P",
            (major - pitch) / unit,
            float(row["major_minus_pitch"]),
            last_digit=last,
        )


def test_the_charts_drill_is_offered(published: Checker, reference: Rows) -> None:
    """The drill the printed chart names stands among those offered, and inside the nut's minor limits."""
    names = {"#": "No. "}
    for row in reference("tap_drill"):
        if row["unit"] != "in":
            continue
        thread = row["thread"].replace("#", "No. ")
        found = tap_drill.tap_drill(thread, near=6).value
        wanted = row["chart_drill_name"]
        name = wanted.replace("#", names["#"]) if "#" in wanted else wanted
        name = f"letter {name}" if name.isalpha() else f"{name} in" if "/" in name else name
        offered = [choice.drill.name for choice in found.choices]
        published.text("tap drill chart, printed", f"{row['thread']} offers {name}", name in offered, True)


def test_percentages_of_a_librarys_chart(published: Checker, reference: Rows) -> None:
    for row in reference("tap_drills"):
        size, _, pitch_text = row["thread"].removeprefix("M").rpartition("-")
        metric = row["unit"] == "mm"
        unit = 1.0 if metric else 25.4
        if metric:
            major, pitch = float(size), float(pitch_text)
        else:
            inches = 0.06 + 0.013 * int(size[1:]) if size.startswith("#") else _fraction(size)
            major, pitch = inches * unit, unit / float(pitch_text)
        # The file rounds drill diameters to four places; a fraction has its exact size by name.
        drill = _fraction(row["drill"]) if "/" in row["drill"] else float(row["drill_dia"])
        got = percent_of_thread(major, pitch, drill * unit)
        want = float(row["percent_of_full_thread(100%=1.299038P)"])
        published.number(
            "tap drills of a library", f"{row['thread']} {row['material']}", got, want, last_digit=0.1
        )


def _fraction(text: str) -> float:
    top, _, bottom = text.partition("/")
    return float(top) / float(bottom or 1)


def test_trap_two_conventions() -> None:
    """traps.csv F: percent of thread has two conventions, 1.0825 P and 1.299 P."""
    older = percent_of_thread(6.35, 1.27, 5.1054, OLDER)
    today = percent_of_thread(6.35, 1.27, 5.1054, TODAY)
    assert older == pytest.approx(75.4, abs=0.05)
    assert today / older == pytest.approx(1.2, abs=1e-3)
    text = tap_drill.tap_drill("1/4-20 UNC").working.text()
    assert "1.299 P" in text
    assert "1.0825 P" in text


def test_trap_other_columns_of_charts_are_computed() -> None:
    """traps.csv F: a public chart's 65 % and 50 % columns are wrong by up to 17 points; ours are computed."""
    for percent in (50, 65, 75):
        hole = hole_for_percent(12.7, 25.4 / 13, percent)
        assert percent_of_thread(12.7, 25.4 / 13, hole) == pytest.approx(percent, abs=1e-9)
