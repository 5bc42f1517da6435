"""A current engine lathe's inspection record, 14 tests and 22 readings, as rows of the chart.

Source: one maker's record of one machine; it says what is allowed and what was typically found.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from rebuild.store.store import Store
from rebuild.trade.charts.geometry_tests import library
from rebuild.trade.limits.judgement import Rule, Verdict
from rebuild.trade.sizes.quantity import parse_length
from rebuild.words.charts import ChartStage, LimitSign
from rebuild.work.charts import acts as chart
from rebuild.work.charts.rows import chart as read_chart
from rebuild.work.machines import acts as identify

Rows = Callable[[str], list[dict[str, str]]]
SOURCE = "an engine lathe's inspection record"
SIGNS = {"none": LimitSign.SIZE, "either": LimitSign.EITHER, "plus": LimitSign.PLUS_ONLY}


def test_the_list_is_the_record(published: Any, reference: Rows) -> None:
    listed = {(test.number, line.key): line for test in library("lathe") for line in test.lines}
    rows = reference("inspection_record")
    assert len(rows) == len(listed) == 22
    for row in rows:
        line, name = listed[row["test"], row["position"]], f"{row['test']} {row['position']}"
        limit = line.limit
        published.number(
            SOURCE, f"{name} allowed", limit.allowed.mm, parse_length(row["allowed"]).mm, last_digit=1e-9
        )
        per = limit.per.mm if limit.per else 0.0
        wanted = parse_length(row["per"]).mm if row["per"] else 0.0
        published.number(SOURCE, f"{name} per", per, wanted, last_digit=1e-9)
        published.text(SOURCE, f"{name} sign", line.sign, SIGNS[row["sign"]])
        published.text(SOURCE, f"{name} status", limit.status, "one maker's record")


def test_what_was_typically_found_is_allowed(store: Store, published: Any, reference: Rows) -> None:
    """Each typical reading, entered as it would be typed, is inside its signed limit; one step more is not."""
    machine = identify.add_machine(store, "Engine lathe", {"kind": "lathe"})
    chart.lay_out(store, machine)
    for row in reference("inspection_record"):
        with store.read() as connection:
            lines = {
                (test.number, line.key): line
                for test in read_chart(connection, machine, Rule.SIMPLE)
                for line in test.lines
            }
        line = lines[row["test"], row["position"]]
        sign = "+" if row["sign"] == "plus" else ""
        entry = chart.Reading(ChartStage.AFTER, row["per"])
        beyond = parse_length(row["allowed"]).mm * 1.01
        chart.read_position(store, line.id, f"{sign}{beyond:.6f} mm", entry)
        chart.read_position(store, line.id, f"{sign}{row['typical']}", entry)
    with store.read() as connection:
        tests = read_chart(connection, machine, Rule.SIMPLE)
    for test in tests:
        for line in test.lines:
            newest, before = line.readings
            published.text(SOURCE, f"{test.number} {line.key} typical", newest.verdict, Verdict.CONFORMS)
            published.text(SOURCE, f"{test.number} {line.key} beyond", before.verdict, Verdict.DOES_NOT)


@pytest.mark.parametrize(("number", "key", "typed", "says"), [
    ("6", "vertical", "-0.005", "falling toward the free end"),
    ("6", "horizontal", "0.005 away", "away from the tool at the free end"),
    ("10", "height", "0.01 low", "tailstock low"),
    ("12", "hollow", "0.002 proud", "proud in the middle"),
])  # fmt: skip
def test_the_wrong_side_fails_however_small(
    store: Store, number: str, key: str, typed: str, says: str
) -> None:
    """Rising, toward the tool, high, hollow only: the sign decides, not the amount."""
    machine = identify.add_machine(store, "Engine lathe", {"kind": "lathe"})
    chart.lay_out(store, machine)
    with store.read() as connection:
        tests = read_chart(connection, machine, Rule.SIMPLE)
    line = next(line for test in tests for line in test.lines if (test.number, line.key) == (number, key))
    chart.read_position(store, line.id, typed)
    with store.read() as connection:
        tests = read_chart(connection, machine, Rule.SIMPLE)
    read = next(one.after for test in tests for one in test.lines if one.id == line.id)
    assert read is not None
    assert read.verdict is Verdict.DOES_NOT
    assert read.wrong_way == says
