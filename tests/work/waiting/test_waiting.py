"""Orders, loans and quotes, what the shop already has, cost and hours."""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.usual import DAY
from rebuild.words.places import PlaceKind
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.waiting import WaitingKind
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from rebuild.work.plan.holds_in_work import lead_of
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.steps import acts as tasks
from rebuild.work.steps.rows import tasks as task_rows
from rebuild.work.waiting import acts as waiting, rows as waiting_rows, rows_costs as costs
from rebuild.work.waiting.rows import Stand
from rebuild.work.waiting.rows_have_it import already_have
from rebuild.work.where_was_i import acts as reentry
from tests.conftest import Shop

NOW = dt.datetime(2026, 6, 15, 20, 0)


def ago(**time: float) -> dt.datetime:
    return NOW - dt.timedelta(**time)


def test_an_order_goes_from_wanted_to_checked_and_settles_its_step(shop: Shop) -> None:
    store = shop.store
    buy = tasks.add_task(store, shop.machine, shop.headstock, "Order felts", TaskKind.BUY)
    shelf = identify.add_place(store, "A1", PlaceKind.SHELF)
    key = waiting.add_waiting(
        store,
        shop.machine,
        "headstock felts",
        part_id=shop.cap,
        task_id=buy,
        typed={"price": "28", "who": "felt shop"},
    )

    def stand(now: dt.datetime = NOW) -> tuple[Stand, str]:
        with store.read() as connection:
            (row,) = waiting_rows.waiting(connection, shop.machine, now)
        return row.stand, row.words

    assert stand() == (Stand.WANTED, "not ordered yet")
    waiting.mark(store, key, waiting.Mark.ORDERED, at=ago(days=20))
    assert stand() == (Stand.OPEN, "ordered 26 May 20:00, no date promised, 20 d")
    edit.edit(store, "waiting", [key], {"promised_at": "2026-06-10"})
    assert stand() == (Stand.LATE, "promised 10 Jun, 4.8 d late")
    with pytest.raises(BadEntry, match="Arrived: is empty"):
        waiting.mark(store, key, waiting.Mark.CHECKED, at=NOW)
    waiting.mark(store, key, waiting.Mark.ARRIVED, place_id=shelf, at=ago(days=1))
    assert stand()[0] is Stand.ARRIVED
    waiting.mark(store, key, waiting.Mark.CHECKED, note="0.007 too big outside", at=NOW)
    assert stand()[0] is Stand.CLOSED
    with store.read() as connection:
        assert next(r for r in task_rows(connection, shop.machine) if r.id == buy).state is TaskState.DONE
        (row,) = waiting_rows.waiting(connection, shop.machine, NOW)
    assert (row.place, row.inspected_note, row.cost) == ("shelf A1", "0.007 too big outside", 28.0)


def test_dates_follow_each_other(shop: Shop) -> None:
    with pytest.raises(BadEntry, match=r"Arrived: “2026-05-01” is before “ordered or gone” \(2026-05-03\)"):
        waiting.add_waiting(
            shop.store, shop.machine, "belt", typed={"ordered_at": "2026-05-03", "arrived_at": "2026-05-01"}
        )


def test_loans_and_quotes_have_their_own_words(shop: Shop) -> None:
    add = waiting.add_waiting
    add(shop.store, shop.machine, "puller", WaitingKind.LENT,
        typed={"ordered_at": "2026-04-01", "promised_at": "2026-05-01"})  # fmt: skip
    add(shop.store, shop.machine, "gear grinding", WaitingKind.QUOTE,
        typed={"asked_at": "2026-02-01", "good_until": "2026-04-01"})  # fmt: skip
    add(shop.store, None, "level", WaitingKind.BORROWED, typed={"ordered_at": "2026-06-01"})
    with shop.store.read() as connection:
        found = waiting_rows.waiting(connection, shop.machine, NOW)
    assert [row.words for row in found] == [
        "lent out since 1 Apr, back was promised 1 May", "quote expired 1 Apr", "borrowed since 1 Jun",
    ]  # fmt: skip


def test_arrivals_for_the_plan_take_promise_lead_times_and_slip(shop: Shop) -> None:
    add = waiting.add_waiting
    add(shop.store, shop.machine, "half nuts", part_id=shop.cap,
        typed={"ordered_at": "2026-06-05 20:00", "promised_at": "2026-06-25 20:00"})  # fmt: skip
    add(
        shop.store,
        shop.machine,
        "bar",
        typed={"lead_low_days": "3", "lead_likely_days": "5", "lead_high_days": "14"},
    )
    add(shop.store, shop.machine, "nobody knows", typed={"ordered_at": "2026-06-05"})
    with shop.store.read() as connection:
        orders = work_graph(connection, shop.machine, NOW).facts.orders
    leads = {order.what: lead_of(order, NOW) for order in orders}
    assert leads == {
        "half nuts": ThreePoint(10 * DAY, 10 * DAY, 20 * DAY),
        "bar": ThreePoint(3 * DAY, 5 * DAY, 14 * DAY),
        "nobody knows": None,
    }


def test_already_have_it_looks_in_stock_spares_and_orders(shop: Shop) -> None:
    store = shop.store
    shelf = identify.add_place(store, "tote 3", PlaceKind.TOTE)
    waiting.add_stock(
        store, "taper pins No. 4", {"quantity": "24", "counted_in": "pcs", "place_id": str(shelf)}
    )
    waiting.add_stock(store, "bar", {"material": "SAE 660 bronze", "sizes": "1-1/8 in x 6 in"})
    waiting.add_stock(store, "socket screws", {"thread": "3/8-24", "sizes": "1 in"})
    identify.add_part(store, shop.machine, None, "bronze bush, apron?", "X-01")
    waiting.add_waiting(
        store, shop.machine, "headstock felts", typed={"ordered_at": "2026-06-01", "who": "felt shop"}
    )
    with store.read() as connection:
        pins = already_have(connection, "taper pin no. 4")
        bar = already_have(connection, "SAE 660 bar 1-1/8 in")
        screws = already_have(connection, "3/8-16 socket screws")
        felts = already_have(connection, "felts for the headstock")
        bush = already_have(connection, "apron bush")
    assert (pins[0].what, pins[0].where) == ("taper pins No. 4", "24 pcs, tote tote 3")
    assert bar[0].why.startswith("same words")
    assert "same size: 28.57 mm" in bar[0].why
    assert screws == []
    assert felts[0].where == "ordered already from felt shop"
    assert bush[0].record == "part"


def test_cost_and_hours_by_subassembly_and_decision(shop: Shop) -> None:
    waiting.add_waiting(
        shop.store, shop.machine, "casting for the cap", part_id=shop.cap,
        typed={"price": "40", "carriage": "6.5", "ordered_at": "2026-05-01", "arrived_at": "2026-05-20"},
    )  # fmt: skip
    waiting.add_waiting(shop.store, shop.machine, "oil", typed={"price": "20", "ordered_at": "2026-05-02"})
    waiting.add_waiting(shop.store, shop.machine, "wish", typed={"price": "900"})
    reentry.end_session(shop.store, shop.machine, did="Bored the cap", hours="2", split="HS-02 1.5")
    with shop.store.read() as connection:
        groups = {row.name: row for row in costs.by_subassembly(connection, shop.machine)}
        decisions = {row.name: row for row in costs.by_decision(connection, shop.machine)}
    assert (groups["HS Headstock"].paid, groups["HS Headstock"].hours) == (46.5, 1.5)
    assert (groups["unallocated"].promised, groups["unallocated"].hours) == (
        20.0,
        3.5,
    )  # 3 h of the log before
    assert (decisions["remake"].paid, decisions["remake"].hours) == (46.5, 1.5)
    assert costs.total(groups.values()).hours == 5.0
