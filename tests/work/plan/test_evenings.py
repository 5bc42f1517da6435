"""Evenings and days off at their edges: a step as long as the evening, warmth, the last day off."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from rebuild.words.steps import ConstraintKind
from rebuild.work.plan.acts_week import add_day_off, set_week
from rebuild.work.plan.rows_input import plan_input
from rebuild.work.plan.rows_tonight import Tonight, fits_tonight
from rebuild.work.plan.rows_week import days_off, week_of
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
