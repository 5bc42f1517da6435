"""Clocks: curing, soaking, levelling again, and what the plan waits for."""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.waiting.clock import Standing
from rebuild.words import work_graph as work_graph_words
from rebuild.words.places import PlaceKind
from rebuild.words.waiting import ClockKind
from rebuild.work.machines import acts as identify
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.waiting import acts_clocks as clocks, rows_clocks as clock_rows
from tests.conftest import Shop

NOW = dt.datetime(2026, 6, 15, 20, 0)


def ago(**time: float) -> dt.datetime:
    return NOW - dt.timedelta(**time)


def test_clocks_stand_in_words_and_what_must_be_seen_to_comes_first(shop: Shop) -> None:
    store, machine = shop.store, shop.machine
    clocks.start_clock(store, machine, ClockKind.CURE, "liner", after=["48 h"], started=ago(hours=43))
    clocks.start_clock(
        store, machine, ClockKind.RECOAT, "primer", after=["4 h"], latest="2 d", started=ago(days=3)
    )
    (bath,) = clocks.start_clock(
        store, machine, ClockKind.BATH, "cap", after=["1 d"], started=ago(days=2), source="the tin"
    )
    with store.read() as connection:
        found = clock_rows.clocks(connection, machine, NOW)
    assert [(row.kind, row.standing) for row in found] == [
        (ClockKind.RECOAT, Standing.OVER), (ClockKind.BATH, Standing.NOW), (ClockKind.CURE, Standing.RUNNING),
    ]  # fmt: skip
    assert found[0].words == "recoat window closed 14 Jun 20:00, 1 d ago: rub down first, as the tin says"
    assert found[1].words == "in the bath since 13 Jun 20:00, 2 d; look in: due since 14 Jun 20:00"
    assert found[2].words == "cures until 16 Jun 01:00, 5 h left"
    clocks.close_clock(store, [bath], "rinsed and oiled")
    with store.read() as connection:
        assert len(clock_rows.clocks(connection, machine, NOW)) == 2
        assert clock_rows.clocks(connection, machine, NOW, closed=True)[-1].closed_note == "rinsed and oiled"


def test_a_bed_is_levelled_again_after_hours_days_and_a_month(shop: Shop) -> None:
    ids = clocks.start_clock(
        shop.store, shop.machine, ClockKind.RELEVEL, "bed", after=["4 h", "3 d", "30 d"], started=ago(days=4)
    )
    with shop.store.read() as connection:
        found = clock_rows.clocks(connection, shop.machine, NOW)
    assert len(ids) == 3
    assert [row.standing for row in found] == [Standing.NOW, Standing.NOW, Standing.RUNNING]


def test_a_clock_that_ends_before_it_begins_is_refused(shop: Shop) -> None:
    with pytest.raises(BadEntry, match="before the soonest"):
        clocks.start_clock(shop.store, shop.machine, ClockKind.RECOAT, "primer", after=["2 d"], latest="4 h")


def test_what_lies_in_a_bath_is_known_from_where_it_was_put(shop: Shop) -> None:
    bath = identify.add_place(shop.store, "rust bath", PlaceKind.BATH)
    identify.put(shop.store, [shop.cap], bath, at=ago(days=12))
    with shop.store.read() as connection:
        (row,) = clock_rows.in_baths(connection, shop.machine, NOW)
    assert row.words == "in rust bath since 3 Jun 20:00, 12 d"


def test_a_cure_is_a_wait_for_the_plan(shop: Shop) -> None:
    about = clocks.About(task_id=shop.strip)
    clocks.start_clock(
        shop.store, shop.machine, ClockKind.CURE, "", after=["24 h"], started=ago(hours=20), about=about
    )
    with shop.store.read() as connection:
        graph = work_graph(connection, shop.machine, NOW).graph
    (cure,) = [node for node in graph.nodes if node.ref.table == "clock"]
    assert (graph.standing(cure.key), cure.points.likely) == (work_graph_words.Standing.RUNS, 4 * 60.0)
    assert {hold.key for hold in graph.held_by(shop.measure)} == {shop.strip, cure.key}
