"""Evenings and days off at their edges: a step as long as the evening, warmth, the last day off."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from rebuild.trade.schedule.slices import LEAST_SLICE, why_in_one_go
from rebuild.words.decisions import Decision
from rebuild.words.steps import ConstraintKind, TaskKind
from rebuild.work.decisions.acts import decide
from rebuild.work.plan.acts_week import add_day_off, set_week
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.plan.rows_input import critical_shares_of, plan_input
from rebuild.work.plan.rows_tonight import Offer, Tonight, fits_tonight, not_tonight, offers, why_not
from rebuild.work.plan.rows_week import days_off, week_of
from rebuild.work.plan.rows_what_next import next_of, why_next
from rebuild.work.steps import acts as tasks
from tests.support import refuses

if TYPE_CHECKING:
    from tests.conftest import Shop


@pytest.mark.parametrize(("minutes", "fits"), [(19.9, False), (20, True), (21, True)])
def test_a_step_fits_an_evening_just_as_long(shop: Shop, minutes: float, fits: bool) -> None:
    key = tasks.add_task(
        shop.store, shop.machine, shop.carriage, "Wash the wipers", typed={"likely_min": "20"}
    )
    with shop.store.read() as connection:
        given = plan_input(connection, shop.machine)
    assert (key in {step.key for step in fits_tonight(given, Tonight(minutes))}) is fits


@pytest.mark.parametrize(
    ("need", "cold", "warm", "helped"),
    [
        (ConstraintKind.WARMTH, False, True, True),
        (ConstraintKind.TWO_PEOPLE, False, False, True),
        (ConstraintKind.PROVE_FIRST, True, True, True),
    ],
)
def test_what_a_step_needs_of_the_evening(
    shop: Shop, need: ConstraintKind, cold: bool, warm: bool, helped: bool
) -> None:
    key = tasks.add_task(shop.store, shop.machine, shop.carriage, "Paint", typed={"likely_min": "20"})
    tasks.add_constraint(shop.store, key, need)
    with shop.store.read() as connection:
        given = plan_input(connection, shop.machine)
    evenings = (Tonight(30, warm=False), Tonight(30), Tonight(30, helper=True))
    found = [key in {step.key for step in fits_tonight(given, evening)} for evening in evenings]
    assert found == [cold, warm, helped]


def test_days_off_run_from_the_first_to_the_last_and_one_day_is_enough(shop: Shop) -> None:
    add_day_off(shop.store, "2026-12-24", "2026-12-25")
    add_day_off(shop.store, "2026-12-31")
    with shop.store.read() as connection:
        week, _ = week_of(connection)
        assert len(days_off(connection)) == 2
    assert sorted(week.days_off) == [dt.date(2026, 12, 24), dt.date(2026, 12, 25), dt.date(2026, 12, 31)]
    with refuses(shop.store, "Last day: “2026-12-23” comes before the first day"):
        add_day_off(shop.store, "2026-12-24", "2026-12-23")
    add_day_off(shop.store, "2027-01-06", "2027-01-06")


def test_a_week_without_hours_is_refused_and_the_old_one_stands(shop: Shop) -> None:
    set_week(shop.store, ["19-21", *[""] * 6])
    with refuses(shop.store, "Week: holds no hours. Give at least one evening"):
        set_week(shop.store, [""] * 7)
    with refuses(shop.store, "Tuesday: “21-19” does not end after it begins"):
        set_week(shop.store, ["19-21", "21-19", *[""] * 5])


def offered(shop: Shop, evening: Tonight) -> dict[str, Offer]:
    with shop.store.read() as connection:
        given = plan_input(connection, shop.machine)
    return {offer.node.title: offer for offer in offers(given, evening)}


def test_a_quiet_evening_leaves_out_what_is_heard_next_door(shop: Shop) -> None:
    for title in ("Drill the oil hole", "Scrape the gib"):
        tasks.add_task(shop.store, shop.machine, shop.carriage, title, typed={"likely_min": "20"})
    assert {"Drill the oil hole", "Scrape the gib"} <= offered(shop, Tonight(30)).keys()
    quiet = offered(shop, Tonight(30, quiet=True))
    assert "Drill the oil hole" not in quiet
    assert quiet["Scrape the gib"].why.endswith("quiet")


def test_of_a_long_job_a_slice_is_offered_and_of_a_coat_none(shop: Shop) -> None:
    tasks.add_task(
        shop.store,
        shop.machine,
        shop.carriage,
        "Clean the casting",
        TaskKind.CLEAN,
        typed={"likely_min": "5 h"},
    )
    tasks.add_task(
        shop.store,
        shop.machine,
        shop.carriage,
        "Paint the casting",
        TaskKind.PAINT,
        typed={"likely_min": "5 h"},
    )
    found = offered(shop, Tonight(60))
    offer = found["Clean the casting"]
    assert (offer.minutes, offer.slice) == (60, True)
    assert offer.told == "Clean the casting (1 h of its 5 h)", (
        "seen: long work offered, and no word of a part of it"
    )
    assert offer.why.startswith("1 h of its 5 h; ")
    assert "Paint the casting" not in found
    assert not offered(shop, Tonight(300))["Clean the casting"].slice
    assert "Clean the casting" not in offered(shop, Tonight(LEAST_SLICE - 1))


def test_a_hoist_does_for_two_people(shop: Shop) -> None:
    key = tasks.add_task(shop.store, shop.machine, shop.carriage, "Lift it", typed={"likely_min": "20"})
    tasks.add_constraint(shop.store, key, ConstraintKind.TWO_PEOPLE)
    assert "Lift it" not in offered(shop, Tonight(30))
    assert offered(shop, Tonight(30, hoist=True))["Lift it"].why.endswith("with the hoist")


def test_the_reason_tells_how_often_it_drives_the_finish(shop: Shop) -> None:
    """The one chain there is drives every schedule drawn: 100 of 100, whatever the durations."""
    decide(shop.store, [shop.cap], Decision.REMAKE, reason="cracked")
    with shop.store.read() as connection:
        work = work_graph(connection, shop.machine)
        (cap,) = [one for one in next_of(work).candidates if one.part_id == shop.cap]
        drawn = critical_shares_of(work)
        working = why_next(connection, shop.machine, shop.cap)
    assert all(0 <= share <= 1 for share in drawn.values())
    assert max(drawn.values()) == 1.0
    share = max(drawn[key] for key in work.graph.making[shop.cap] if key in drawn)
    assert f"drives the finish in {share * 100:.0f} of 100 drawn schedules" in cap.sentence
    assert working is not None
    assert "200 times" in working.text()


def test_every_kind_is_judged_by_the_one_owner_of_slices_and_why_not_is_said(shop: Shop) -> None:
    """An hour of each kind on an evening of 45 minutes: a slice, or a sentence why it is done in one go."""
    for kind in TaskKind:
        tasks.add_task(shop.store, shop.machine, None, f"Job {kind.value}", kind, typed={"likely_min": "1 h"})
    evening = Tonight(45)
    found = offered(shop, evening)
    with shop.store.read() as connection:
        given = plan_input(connection, shop.machine)
    nodes = {node.title: node for node in given.steps}
    for kind in TaskKind:
        node, title = nodes[f"Job {kind.value}"], f"Job {kind.value}"
        reason = why_not(node, evening)
        assert (title in found) is (reason == "") is (why_in_one_go(kind) == ""), title
        assert title not in found or found[title].slice
    own = nodes["Job refit"]
    assert not_tonight(own, set(), evening) == (
        "You meant to go on with “Job refit”; not tonight: it takes 1 h and there is 45 min; "
        "what is half on is not safe to leave."
    )
    assert not_tonight(own, {own.key}, evening) == ""
