"""Orders and clocks at their limits: what must have happened first, what is settled with it, and what stays open."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from rebuild.words.steps import TaskKind
from rebuild.words.waiting import ClockKind, WaitingKind
from rebuild.work.editing import acts as edit
from rebuild.work.steps import acts as tasks
from rebuild.work.waiting import acts as waiting, acts_clocks as clocks
from tests.support import refuses

if TYPE_CHECKING:
    from tests.conftest import Shop

AT = dt.datetime(2026, 6, 15, 20, 0)
MINUTE = dt.timedelta(minutes=1)


def cell(shop: Shop, table: str, key: int, column: str) -> object:
    with shop.store.read() as connection:
        return connection.exec_driver_sql(f"SELECT {column} FROM {table} WHERE id = {key}").scalar_one()


@pytest.mark.parametrize("ordered", [True, False])
def test_nothing_is_checked_before_it_has_arrived(shop: Shop, ordered: bool) -> None:
    key = waiting.add_waiting(shop.store, shop.machine, "belt")
    if ordered:
        waiting.mark(shop.store, key, waiting.Mark.ORDERED, at=AT)
    with refuses(shop.store, "Arrived: is empty. Say when it arrived before it is checked."):
        waiting.mark(shop.store, key, waiting.Mark.CHECKED, at=AT)
    waiting.mark(shop.store, key, waiting.Mark.ARRIVED, at=AT)
    waiting.mark(shop.store, key, waiting.Mark.CHECKED, at=AT)


@pytest.mark.parametrize(
    ("first", "then", "said"),
    [
        (waiting.Mark.ORDERED, waiting.Mark.ARRIVED, "Arrived: “2026-06-15” is before “ordered or gone”"),
        (waiting.Mark.ARRIVED, waiting.Mark.CHECKED, "Checked on arrival: “2026-06-15” is before “arrived”"),
    ],
)
def test_dates_may_be_the_same_and_not_the_other_way_round(
    shop: Shop, first: waiting.Mark, then: waiting.Mark, said: str
) -> None:
    key = waiting.add_waiting(shop.store, shop.machine, "belt")
    waiting.mark(shop.store, key, first, at=AT)
    with refuses(shop.store, said):
        waiting.mark(shop.store, key, then, at=AT - MINUTE)
    waiting.mark(shop.store, key, then, at=AT)


def test_lead_times_may_be_alike_and_may_not_fall(shop: Shop) -> None:
    alike = {"lead_low_days": "7", "lead_likely_days": "7", "lead_high_days": "7"}
    key = waiting.add_waiting(shop.store, shop.machine, "belt", typed=alike)
    with refuses(shop.store, "Days: “7 / 6.9 / 7” do not rise from shortest to likely to longest"):
        edit.edit(shop.store, "waiting", [key], {"lead_likely_days": "6.9"})


def test_a_quote_becomes_an_order_when_it_is_ordered_and_cannot_be_returned(shop: Shop) -> None:
    key = waiting.add_waiting(shop.store, shop.machine, "gear grinding", WaitingKind.QUOTE)
    with refuses(shop.store, "Returned: “gear grinding” is a quote and cannot be returned"):
        waiting.mark(shop.store, key, waiting.Mark.RETURNED, at=AT)
    waiting.mark(shop.store, key, waiting.Mark.ORDERED, at=AT)
    assert cell(shop, "waiting", key, "kind") == "order"
    loan = waiting.add_waiting(shop.store, shop.machine, "puller", WaitingKind.LENT)
    waiting.mark(shop.store, loan, waiting.Mark.ORDERED, at=AT)
    assert cell(shop, "waiting", loan, "kind") == "lent out"
    for one in (key, loan):
        waiting.mark(shop.store, one, waiting.Mark.RETURNED, at=AT)


@pytest.mark.parametrize("kind", [TaskKind.BUY, TaskKind.SEND_OUT, TaskKind.MAKE, TaskKind.OTHER])
@pytest.mark.parametrize("state", ["open", "under way", "left out"])
def test_what_is_checked_settles_a_buying_step_that_stands_open(
    shop: Shop, kind: TaskKind, state: str
) -> None:
    step = tasks.add_task(shop.store, shop.machine, shop.headstock, "Get a belt", kind)
    edit.edit(shop.store, "task", [step], {"state": state})
    key = waiting.add_waiting(shop.store, shop.machine, "belt", task_id=step)
    waiting.mark(shop.store, key, waiting.Mark.ARRIVED, at=AT)
    assert cell(shop, "task", step, "state") == state
    waiting.mark(shop.store, key, waiting.Mark.CHECKED, at=AT)
    settled = kind in (TaskKind.BUY, TaskKind.SEND_OUT) and state != "left out"
    assert cell(shop, "task", step, "state") == ("done" if settled else state)


def test_a_clock_may_end_with_its_soonest_and_not_before_the_last_of_several(shop: Shop) -> None:
    start = clocks.start_clock
    (key,) = start(shop.store, shop.machine, ClockKind.RECOAT, "", after=["4 h"], latest="4 h")
    with refuses(shop.store, "Latest after: “3 h” is before the soonest"):
        start(shop.store, shop.machine, ClockKind.RECOAT, "", after=["1 h", "4 h"], latest="3 h")
    with refuses(shop.store, "Latest after: “239 min” is before the soonest"):
        edit.edit(shop.store, "clock", [key], {"high_min": "239 min"})
    edit.edit(shop.store, "clock", [key], {"high_min": "5 h"})
    edit.edit(shop.store, "clock", [key], {"high_min": "4 h"})
    assert cell(shop, "clock", key, "high_min") == 240.0
