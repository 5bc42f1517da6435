"""Clocks, orders, stock, cost and hours, and the page that says where one was."""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.waiting.clock import Standing
from rebuild.words.places import PlaceKind
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.waiting import ClockKind, WaitingKind
from rebuild.work.editing import acts as edit
from rebuild.work.joints import acts as joints
from rebuild.work.log import acts as notes
from rebuild.work.log.rows import log
from rebuild.work.machines import acts as identify
from rebuild.work.steps import acts as tasks
from rebuild.work.steps.rows import tasks as task_rows
from rebuild.work.waiting import (
    acts as waiting,
    acts_clocks as clocks,
    rows as waiting_rows,
    rows_clocks as clock_rows,
    rows_costs as costs,
)
from rebuild.work.waiting.rows import Stand
from rebuild.work.waiting.rows_have_it import already_have
from rebuild.work.where_was_i import acts as reentry
from rebuild.work.where_was_i.rows import where_was_i
from tests.conftest import Shop

NOW = dt.datetime(2026, 6, 15, 20, 0)


def ago(**time: float) -> dt.datetime:
    return NOW - dt.timedelta(**time)


# Clocks


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
        (ClockKind.RECOAT, Standing.OVER),
        (ClockKind.BATH, Standing.NOW),
        (ClockKind.CURE, Standing.RUNNING),
    ]
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
        (hold,) = clock_rows.holds(connection, shop.machine, NOW)
    assert (hold.task_id, hold.until) == (shop.strip, NOW + dt.timedelta(hours=4))


# Waiting and buying


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
    add(
        shop.store,
        shop.machine,
        "puller",
        WaitingKind.LENT,
        typed={"ordered_at": "2026-04-01", "promised_at": "2026-05-01"},
    )
    add(
        shop.store,
        shop.machine,
        "gear grinding",
        WaitingKind.QUOTE,
        typed={"asked_at": "2026-02-01", "good_until": "2026-04-01"},
    )
    add(shop.store, None, "level", WaitingKind.BORROWED, typed={"ordered_at": "2026-06-01"})
    with shop.store.read() as connection:
        found = waiting_rows.waiting(connection, shop.machine, NOW)
    assert [row.words for row in found] == [
        "lent out since 1 Apr, back was promised 1 May",
        "quote expired 1 Apr",
        "borrowed since 1 Jun",
    ]


def test_arrivals_for_the_plan_take_promise_lead_times_and_slip(shop: Shop) -> None:
    add = waiting.add_waiting
    add(
        shop.store,
        shop.machine,
        "half nuts",
        part_id=shop.cap,
        typed={"ordered_at": "2026-06-05 20:00", "promised_at": "2026-06-25 20:00"},
    )
    add(
        shop.store,
        shop.machine,
        "bar",
        typed={"lead_low_days": "3", "lead_likely_days": "5", "lead_high_days": "14"},
    )
    add(shop.store, shop.machine, "nobody knows", typed={"ordered_at": "2026-06-05"})
    with shop.store.read() as connection:
        found = waiting_rows.arrivals(connection, shop.machine, NOW)
    assert [(row.what, row.low_days, row.likely_days, row.high_days) for row in found] == [
        ("half nuts", 10.0, 10.0, 20.0),
        ("bar", 3.0, 5.0, 14.0),
    ]


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
        shop.store,
        shop.machine,
        "casting for the cap",
        part_id=shop.cap,
        typed={"price": "40", "carriage": "6.5", "ordered_at": "2026-05-01", "arrived_at": "2026-05-20"},
    )
    waiting.add_waiting(shop.store, shop.machine, "oil", typed={"price": "20", "ordered_at": "2026-05-02"})
    waiting.add_waiting(shop.store, shop.machine, "wish", typed={"price": "900"})
    reentry.end_session(shop.store, shop.machine, did="Bored the cap", hours="2", split="HS-02 1.5")
    with shop.store.read() as connection:
        groups = {row.name: row for row in costs.by_subassembly(connection, shop.machine)}
        decisions = {row.name: row for row in costs.by_decision(connection, shop.machine)}
    assert (groups["HS Headstock"].paid, groups["HS Headstock"].hours) == (46.5, 1.5)
    assert (groups["not split"].promised, groups["not split"].hours) == (20.0, 3.5)  # 3 h of the log before
    assert (decisions["remake"].paid, decisions["remake"].hours) == (46.5, 1.5)
    assert costs.total(groups.values()).hours == 5.0


# Ending a session, and coming back


def test_a_session_ends_with_three_short_answers(shop: Shop) -> None:
    reentry.end_session(
        shop.store,
        shop.machine,
        did="spindle in",
        left="caps finger tight",
        next_step="peel one leaf rear",
        split="HS 1, HS-02 30 min",
        at=NOW,
    )
    with shop.store.read() as connection:
        row = next(row for row in log(connection, shop.machine) if row.did == "spindle in")
    assert (row.did, row.left_on_bench, row.next_step, row.hours) == (
        "spindle in",
        "caps finger tight",
        "peel one leaf rear",
        1.5,
    )


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"did": ""}, "Did: is empty"),
        ({"did": "x", "hours": "1", "split": "HS 2"}, "comes to 2 h, more than the 1 h"),
        ({"did": "x", "split": "ZZ 1"}, "“ZZ” is no code"),
        ({"did": "x", "split": "HS"}, "“HS” is not a code with its hours"),
    ],
)
def test_what_cannot_be_stored_of_a_session_is_said(shop: Shop, typed: dict[str, str], sentence: str) -> None:
    with pytest.raises(BadEntry, match=sentence):
        reentry.end_session(shop.store, shop.machine, **typed)


def test_coming_back_after_half_a_year(shop: Shop) -> None:
    store, machine = shop.store, shop.machine
    bench = identify.add_place(store, "left bench", PlaceKind.BENCH)
    bath = identify.add_place(store, "rust bath", PlaceKind.BATH)
    identify.put(store, [shop.spindle], bench, at=ago(days=190))
    identify.put(store, [shop.cap], bath, at=ago(days=185))
    notes.log_session(
        store,
        machine,
        {
            "at": "2025-12-10 21:00",
            "did": "lift measured",
            "left_on_bench": "caps finger tight",
            "do_not_forget": "expander screws are in the red lid",
        },
    )
    joints.add_joint(
        store, machine, shop.headstock, "rear cap screws", {"tight": "finger", "wanted": "torqued"}
    )
    waiting.add_waiting(
        store, machine, "half nuts", typed={"ordered_at": "2025-11-01", "promised_at": "2026-02-20"}
    )
    lift = {"place": "left bay", "tools": "hoist, two straps", "title": "Lift the spindle out"}
    edit.edit(store, "task", [shop.strip], lift)
    edit.remove(store, "log_entry", [1])
    with store.read() as connection:
        found = where_was_i(connection, machine, NOW)
    assert found.last_seen == "10 Dec 2025 21:00, 186 d ago"
    assert (found.left_on_bench, [row.part for row in found.bench]) == (
        "caps finger tight",
        ["HS-01 spindle"],
    )
    assert found.bench[0].next_step == "Measure the journals"
    assert [row.name for row in found.not_final] == ["rear cap screws"]
    assert [row.part for row in found.baths] == ["HS-02 bearing cap"]
    assert [row.stand for row in found.orders] == [Stand.LATE]
    assert [text for _, text in found.questions] == ["Which oil did the maker print?"]
    (action,) = found.next_actions  # everything else waits
    assert (action.title, action.place, action.tools) == (
        "Lift the spindle out",
        "left bay",
        "hoist, two straps",
    )
    assert found.cautions[0] == "Do not forget: expander screws are in the red lid"
    assert found.cautions[1] == "Do not lift, turn or power it: not tight are rear cap screws (finger)."
    assert any("Defers to" in words for words in action.cautions)


def test_what_cures_or_waits_for_an_answer_is_no_next_action(shop: Shop) -> None:
    tasks.tick(shop.store, shop.strip)
    clocks.start_clock(
        shop.store,
        shop.machine,
        ClockKind.CURE,
        "sealer",
        after=["2 d"],
        started=ago(days=1),
        about=clocks.About(task_id=shop.strip),
    )
    with shop.store.read() as connection:
        assert where_was_i(connection, shop.machine, NOW).next_actions == ()
        later = where_was_i(connection, shop.machine, NOW + dt.timedelta(days=2))
    assert [action.title for action in later.next_actions] == ["Measure the journals [HS-01]"]
