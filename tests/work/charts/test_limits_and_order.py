"""Limits, lengths and order of a test chart at their edges; each refusal leaves the file as it was."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from rebuild.words.charts import LimitStatus
from rebuild.work.charts import acts as chart
from rebuild.work.charts.rows import chart as read_chart
from rebuild.work.charts.rows_tests import LineRow
from rebuild.work.editing.acts import edit
from rebuild.work.machines import acts as identify
from tests.support import refuses
from tests.work.charts.test_charts import RULE

if TYPE_CHECKING:
    from tests.conftest import Shop


@pytest.fixture
def own(shop: Shop) -> int:
    """A test of the owner's own with one position of 0.02 mm; the test's id."""
    limit = {"allowed": "0.02 mm per 300 mm", "sign": "either way", "origin": "own"}
    return chart.add_test(shop.store, shop.machine, "Ram level", ("left",), limit=limit)


def line(shop: Shop, test: int) -> LineRow:
    with shop.store.read() as connection:
        return next(row for row in read_chart(connection, shop.machine, RULE) if row.id == test).lines[0]


def test_a_length_read_over_is_above_nothing(shop: Shop, own: int) -> None:
    key = line(shop, own).id
    for over in ("0", "-1"):
        with refuses(shop.store, "length: “.*” is not a length above zero"):
            chart.read_position(shop.store, key, "+0.01", chart.Reading(over=over))
    assert chart.read_position(shop.store, key, "+0.01", chart.Reading(over="1"))


def test_a_limit_may_be_nothing_and_not_less_and_its_length_may_not_be_nothing(shop: Shop, own: int) -> None:
    key = line(shop, own).id
    chart.set_allowed(shop.store, [key], "0")
    assert line(shop, own).limit.allowed_mm == 0.0
    with refuses(shop.store, "Limit: .*is less than nothing"):
        edit(shop.store, "chart_line", [key], {"allowed": "-0.001"})
    with refuses(shop.store, "Per length: .*is not a size above zero"):
        edit(shop.store, "chart_line", [key], {"per": "0"})


def test_a_test_waits_only_for_one_of_its_own_machine(shop: Shop, own: int) -> None:
    other = identify.add_machine(shop.store, "Shaper")
    foreign = chart.add_test(shop.store, other, "Table level")
    with refuses(shop.store, "Only after: “Table level” is of another machine"):
        edit(shop.store, "chart_test", [own], {"after_id": str(foreign)})
    with refuses(shop.store, "Only after: “Table level” is of another machine"):
        chart.add_test(shop.store, shop.machine, "Odd", typed={"after_id": str(foreign)})
    first = chart.add_test(shop.store, shop.machine, "Bed level")
    edit(shop.store, "chart_test", [own], {"after_id": str(first)})
    with refuses(shop.store, "Only after: .* already waits for this test"):
        edit(shop.store, "chart_test", [first], {"after_id": str(own)})


def test_a_changed_limit_is_the_owner_s_own_unless_said_otherwise(shop: Shop, own: int) -> None:
    key = line(shop, own).id
    edit(shop.store, "chart_line", [key], {"status": "published", "origin": "a sheet"})
    edit(shop.store, "chart_line", [key], {"allowed": "0.03"})
    assert (line(shop, own).status, line(shop, own).origin) == (LimitStatus.OWN, "")
    edit(shop.store, "chart_line", [key], {"allowed": "0.04", "status": "from memory", "origin": "the book"})
    assert (line(shop, own).status, line(shop, own).origin) == (LimitStatus.MEMORY, "the book")
