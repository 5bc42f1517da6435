"""The demo's removal logs, attempts, joints, clocks and orders tell one story with its log."""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.store.store import Store
from rebuild.words.joints import Tightness
from rebuild.work.joints import rows as joints
from rebuild.work.machines import rows_tree as tree
from rebuild.work.plan.holds_in_work import lead_of
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.teardown import rows_removals as removals
from rebuild.work.teardown.rows_second_teardown import second_teardown
from rebuild.work.waiting.rows import Stand, waiting
from rebuild.work.waiting.rows_clocks import clocks
from rebuild.work.waiting.rows_costs import by_subassembly
from rebuild.work.waiting.rows_have_it import already_have
from rebuild.work.where_was_i.rows import where_was_i

NOW = dt.datetime(2026, 11, 8, 19, 0)


@pytest.fixture
def machines(demo: Store) -> dict[str, int]:
    with demo.read() as connection:
        return {row.kind.value: row.id for row in tree.machines(connection)}


def test_the_ram_went_in_twice_and_the_second_teardown_says_why(
    demo: Store, machines: dict[str, int]
) -> None:
    with demo.read() as connection:
        every = removals.attempts(connection, machines["shaper"])
        ram = [row for row in every if row.of == "RAM Ram and gibs" or row.of.startswith("RAM")]
        found = second_teardown(connection, max(ram, key=lambda row: row.number).id)
    assert [row.number for row in sorted(ram, key=lambda row: row.number)] == [1, 2]
    assert all(row.removals == row.refitted for row in ram)
    assert found is not None
    assert [(one.before.split()[0], one.after.split()[0]) for one in found.proposals] == [
        ("RAM-02", "RAM-06"), ("RAM-07", "RAM-03"),
    ]  # fmt: skip
    assert "high spot" in found.last.stopped_by
    assert any(one.what == "shims" for one in found.differences)


def test_the_tailstock_s_log_became_its_steps(demo: Store, machines: dict[str, int]) -> None:
    with demo.read() as connection:
        tailstock = next(
            row for row in removals.attempts(connection, machines["lathe"]) if row.of.startswith("TK")
        )
        rows = removals.removals(connection, tailstock.id)
    assert (tailstock.removals, tailstock.drafted, tailstock.refitted) == (10, 10, 0)
    assert next(row for row in rows if "TK-07" in row.called).way == "driven out from inside"


def test_joints_not_final_are_those_the_log_warns_of(demo: Store, machines: dict[str, int]) -> None:
    with demo.read() as connection:
        open_ones = joints.not_final(connection, machines["shaper"])
    finger = [row.name for row in open_ones if row.tight is Tightness.FINGER]
    assert "ram gib jam nuts" in finger
    assert {row.stand for row in open_ones} >= {"right", "rear"}


def test_orders_clocks_and_stock(demo: Store, machines: dict[str, int]) -> None:
    with demo.read() as connection:
        shaper = waiting(connection, machines["shaper"], NOW)
        orders = work_graph(connection, machines["lathe"], NOW).facts.orders
        running = clocks(connection, machines["lathe"], NOW)
        pins = already_have(connection, "taper pin no. 8")
        cost = by_subassembly(connection, machines["lathe"])
    assert {row.stand for row in shaper} >= {Stand.LATE, Stand.CLOSED, Stand.ASKED, Stand.OUT}
    wheel = next(lead_of(one, NOW) for one in orders if "worm wheel" in one.what)
    assert wheel is not None
    assert 0 <= wheel.shortest <= wheel.likely <= wheel.longest
    assert {row.kind.value for row in running} == {"re-level", "cure"}
    assert pins[0].what.startswith("taper pins no. 8")
    assert sum(row.hours for row in cost) > 20


def test_coming_back_to_the_shaper(demo: Store, machines: dict[str, int]) -> None:
    with demo.read() as connection:
        found = where_was_i(connection, machines["shaper"], NOW)
    assert len(found.next_actions) == 3
    assert any("jam nuts are only finger tight" in words for words in found.cautions)
    assert [row.part for row in found.baths] == ["BAS-05 rear cover"]
