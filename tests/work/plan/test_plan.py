"""The plan of a machine from its stored steps: dates, waits, cures, savings, what fits tonight."""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.errors import BadEntry
from rebuild.model.records.waiting import Waiting
from rebuild.store.act import Act
from rebuild.trade.schedule.plan import Plan, chances, make_plan, savings
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.trade.schedule.week import Spell
from rebuild.trade.schedule.week_entry import ASSUMED, parse_day
from rebuild.words.decisions import Decision
from rebuild.words.steps import ConstraintKind, TaskKind
from rebuild.work.decisions import acts as decide
from rebuild.work.plan.acts_week import add_day_off, set_week
from rebuild.work.plan.rows_input import plan_input
from rebuild.work.plan.rows_tonight import Tonight, fits_tonight
from rebuild.work.plan.rows_week import days_off, week_of
from rebuild.work.steps import acts as tasks
from tests.conftest import Shop

MONDAY = dt.datetime(2026, 11, 23, 8, 0)
EVERY_EVENING = ["19-21"] * 5 + ["", ""]


def read(shop: Shop) -> PlanInput:
    with shop.store.read() as connection:
        return plan_input(connection, shop.machine)


def test_a_plan_follows_the_links_on_the_owner_s_evenings(shop: Shop) -> None:
    set_week(shop.store, EVERY_EVENING)
    plan = make_plan(read(shop), MONDAY)
    titles = [row.step.title for row in plan.dated]
    assert titles[:4] == [
        "Take the spindle out",
        "Measure the journals",
        "Make a new cap",
        "Refit the spindle",
    ]
    assert [title[:18] for title in titles[4:]] == ["Check before power"], "planned before anything is done"
    assert all(a.finish <= b.start for a, b in zip(plan.dated, plan.dated[1:], strict=False))
    assert all(19 <= row.start.hour <= 21 and row.start.weekday() < 5 for row in plan.dated)
    assert plan.without_estimate == 4, "only the cap has an estimate"
    # Means by (a + 4m + b)/6: assumed 15/45/120 gives 52.5; the cap, 90 alone, spreads 45/90/180 to 97.5.
    # A check is assumed to take 5/10/30, so 12.5; thirteen stand before power.
    assert plan.bench_minutes == pytest.approx(3 * 52.5 + 97.5 + 13 * 12.5)


def test_an_order_passes_while_others_work_and_what_it_saves_is_its_wait(shop: Shop) -> None:
    set_week(shop.store, EVERY_EVENING)
    felt = tasks.add_task(
        shop.store,
        shop.machine,
        shop.headstock,
        "Order wick felt",
        TaskKind.BUY,
        part_id=shop.spindle,
        typed={"low_min": "2 w", "likely_min": "4 w", "high_min": "8 w"},
    )
    tasks.add_link(shop.store, felt, shop.refit)
    decide.decide(shop.store, [shop.spindle], Decision.BUY, reason="no wick")
    plan = make_plan(read(shop), MONDAY)
    weeks = (2 + 4 * 4 + 8) / 6
    arrives = MONDAY + dt.timedelta(weeks=weeks)
    refit = next(row for row in plan.dated if row.step.title == "Refit the spindle")
    assert refit.start >= arrives
    saving = savings(read(shop), MONDAY)[0]
    assert saving.name == "HS-01 spindle"
    without = make_plan_without(read(shop), felt)
    assert f"{without.finish:%Y-%m-%d}" in saving.working.text()
    ends = [max(row.times.earliest_finish for row in one.dated) for one in (plan, without)]
    days = (ends[0] - ends[1]) / read(shop).week.minutes_a_week * 7
    assert saving.days == pytest.approx(days, abs=0.01), "the longest way, hands aside"
    assert "finish if it were ready today" in saving.working.text()


def make_plan_without(given: PlanInput, key: int) -> Plan:
    """The same plan with one step already gone."""
    steps = tuple(step for step in given.steps if step.key != key)
    return make_plan(PlanInput(steps, given.links, given.parts, given.week, True), MONDAY)


def test_a_cure_holds_what_follows_for_its_elapsed_time(shop: Shop) -> None:
    set_week(shop.store, ["0:00-24:00"] * 7)
    before = make_plan(read(shop), MONDAY).finish
    tasks.add_constraint(shop.store, shop.measure, ConstraintKind.CURE, "24 h")
    assert make_plan(read(shop), MONDAY).finish == before + dt.timedelta(hours=24)


def test_the_chances_lie_round_the_plan_and_are_the_same_for_the_same_seed(shop: Shop) -> None:
    set_week(shop.store, EVERY_EVENING)
    given = read(shop)
    first, second = chances(given, MONDAY, draws=400), chances(given, MONDAY, draws=400)
    assert first == second
    dates = [date for _, date in first.by]
    assert dates == sorted(dates)
    assert dates[0] <= make_plan(given, MONDAY).finish <= dates[-1]
    assert sum(count for _, count in first.weeks) == 400
    assert ("HS-02 bearing cap", 1.0) in first.drivers


def test_what_fits_tonight_asks_time_place_warmth_and_hands(shop: Shop) -> None:
    short = tasks.add_task(
        shop.store, shop.machine, shop.carriage, "Wash the wipers", typed={"likely_min": "20"}
    )
    heavy = tasks.add_task(
        shop.store,
        shop.machine,
        shop.carriage,
        "Lift the saddle",
        typed={"likely_min": "25", "place": "shop"},
    )
    paint = tasks.add_task(
        shop.store, shop.machine, shop.carriage, "Paint the cover", TaskKind.PAINT, typed={"likely_min": "15"}
    )
    tasks.add_constraint(shop.store, heavy, ConstraintKind.TWO_PEOPLE)
    tasks.add_constraint(shop.store, paint, ConstraintKind.WARMTH)
    given = read(shop)

    def keys(tonight: Tonight) -> set[int]:
        return {step.key for step in fits_tonight(given, tonight)} - {shop.strip}

    assert keys(Tonight(30)) == {short, paint}
    assert keys(Tonight(30, warm=False)) == {short}
    assert keys(Tonight(30, helper=True)) == {short, paint, heavy}
    assert keys(Tonight(30, place="kitchen", helper=True)) == {short, paint}
    assert keys(Tonight(10)) == set()


def test_the_week_is_assumed_until_it_is_stored_and_is_undone_like_any_act(shop: Shop) -> None:
    with shop.store.read() as connection:
        assert week_of(connection) == (week_of(connection)[0], False)
        assert week_of(connection)[0].spells == ASSUMED
    set_week(shop.store, EVERY_EVENING)
    with shop.store.read() as connection:
        week, is_set = week_of(connection)
    assert (week.minutes_a_week, is_set) == (600, True)
    shop.store.undo()
    with shop.store.read() as connection:
        assert not week_of(connection)[1]


def test_days_off_are_kept_with_both_ends(shop: Shop) -> None:
    add_day_off(shop.store, "2026-12-24", "2026-12-26", "feast")
    with shop.store.read() as connection:
        week, _ = week_of(connection)
        assert days_off(connection)[0][1:] == (dt.date(2026, 12, 24), dt.date(2026, 12, 26), "feast")
    assert dt.date(2026, 12, 25) in week.days_off
    assert len(week.days_off) == 3


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("evening", "Tuesday: “evening” is not hours of a day."),
        ("21-19", "Tuesday: “21-19” does not end after it begins."),
        ("9-12, 11-13", "overlap"),
        ("9-25", "does not end after it begins."),
    ],
)
def test_hours_that_cannot_be_read_are_said(typed: str, sentence: str) -> None:
    with pytest.raises(BadEntry) as caught:
        parse_day(typed, 1)
    assert sentence in str(caught.value)
    assert "19:00-21:30" in str(caught.value)


def test_hours_read_with_and_without_minutes() -> None:
    assert parse_day("9-12, 19.30 to 21:00", 2) == (Spell(2, 540, 720), Spell(2, 1170, 1260))


def order(shop: Shop, task_id: int, **values: object) -> None:
    """An order on a step, as the Waiting page stores it."""
    with shop.store.act(Act.EDIT, "order") as tx:
        tx.session.add(Waiting(machine_id=shop.machine, task_id=task_id, what="wick felt", **values))


def test_a_short_buying_step_is_the_ordering_and_its_delivery_follows(shop: Shop) -> None:
    felt = tasks.add_task(
        shop.store, shop.machine, shop.headstock, "Order wick felt", TaskKind.BUY, typed={"likely_min": "20"}
    )
    tasks.add_link(shop.store, felt, shop.refit)
    steps = {step.title: step for step in read(shop).steps}
    assert not steps["Order wick felt"].elapsed
    delivery = steps["delivery after “Order wick felt”"]
    assert (delivery.elapsed, delivery.assumed) == (True, True)
    order(shop, felt, lead_low_days=3, lead_likely_days=5, lead_high_days=9)
    delivery = {step.title: step for step in read(shop).steps}["delivery after “Order wick felt”"]
    assert (delivery.points.likely, delivery.assumed) == (5 * 24 * 60, False)


def test_what_is_ordered_and_not_there_holds_what_follows(shop: Shop) -> None:
    felt = tasks.add_task(
        shop.store, shop.machine, shop.headstock, "Order wick felt", TaskKind.BUY, typed={"likely_min": "20"}
    )
    tasks.add_link(shop.store, felt, shop.refit)
    order(shop, felt, ordered_at=MONDAY, promised_at=MONDAY + dt.timedelta(days=20))
    tasks.tick(shop.store, felt)
    with shop.store.read() as connection:
        given = plan_input(connection, shop.machine, MONDAY)
    refit = next(row for row in make_plan(given, MONDAY).dated if row.step.title == "Refit the spindle")
    assert refit.start >= MONDAY + dt.timedelta(days=20)


def test_a_cure_under_way_holds_what_follows_until_it_is_over(shop: Shop) -> None:
    tasks.add_constraint(shop.store, shop.strip, ConstraintKind.CURE, rest="48 h")
    tasks.tick(shop.store, shop.strip, tasks.Done(at=MONDAY))
    with shop.store.read() as connection:
        given = plan_input(connection, shop.machine, MONDAY)
    measure = next(row for row in make_plan(given, MONDAY).dated if row.step.title == "Measure the journals")
    assert measure.start >= MONDAY + dt.timedelta(hours=48)
