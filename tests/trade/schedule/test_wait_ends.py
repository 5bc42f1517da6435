"""A wait ends at its own hour, whether anyone is at the bench then or not."""

from __future__ import annotations

import datetime as dt

from rebuild.trade.schedule import week
from rebuild.trade.schedule.graph import Node, Ref
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.plan import finish_of, make_plan, savings
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.trade.schedule.week import Clock, Spell, Week
from rebuild.words.decisions import Decision
from rebuild.words.steps import TaskKind, TaskState

NOW = dt.datetime(2026, 12, 1, 18)
DAY = 1440.0
#: Tuesdays from seven to nine in the evening.
WEEK = Week((Spell(1, 19 * 60, 21 * 60),))


def work(key: int, title: str, minutes: float, part: int | None = None) -> Node:
    return Node(
        key, TaskKind.OTHER, title, part, None, TaskState.OPEN, ThreePoint(minutes, minutes, minutes), False,
        key < 0, Ref("task", abs(key)),
    )  # fmt: skip


def ends(given: PlanInput) -> dict[str, tuple[dt.datetime, dt.datetime]]:
    return {row.step.title: (row.start, row.finish) for row in make_plan(given, NOW).dated}


# Seen: a delivery promised for 10 Jan was drawn "to 5 Jan". Worked by hand on the calendar of 2026/27: Tuesday
# 1 Dec 18:00 and 40 days are Sunday 10 Jan 18:00; the next Tuesday is 12 Jan.
def test_a_delivery_is_drawn_to_its_own_day_and_what_follows_to_the_next_evening() -> None:
    delivery, fit = work(-1, "delivery", 40 * DAY), work(2, "Fit it", 60)
    found = ends(PlanInput((delivery, fit), ((-1, 2),), {}, WEEK, True))
    assert found["delivery"] == (NOW, dt.datetime(2027, 1, 10, 18))
    assert found["Fit it"] == (dt.datetime(2027, 1, 12, 19), dt.datetime(2027, 1, 12, 20))


def test_a_wait_that_comes_last_is_the_finish_on_every_page() -> None:
    paint, cure = work(1, "Paint", 60, part=7), work(-1, "cure", 3 * DAY)
    given = PlanInput(
        (paint, cure), ((1, -1),), {7: ("cover", Decision.REWORK)}, WEEK, True, making={7: (1,)}
    )
    cured = dt.datetime(2026, 12, 4, 20)
    assert ends(given)["cure"] == (dt.datetime(2026, 12, 1, 20), cured)
    assert make_plan(given, NOW).finish == finish_of(given, NOW) == cured
    (saving,) = savings(given, NOW)
    assert (saving.finish, saving.sooner) == (cured, dt.datetime(2026, 12, 4, 18))


def test_one_wait_and_many_are_told_alike() -> None:
    """A few are worked number by number, many in arrays: the same moments to the microsecond."""
    clock = Clock(WEEK, NOW, 400)
    begins = [minutes * 7.3 for minutes in range(week._FEW + 1)]
    waits = [minutes * 11.7 for minutes in range(week._FEW + 1)]
    many = clock.wait_dates(begins, waits)
    alone = [clock.wait_dates([begin], [wait])[0] for begin, wait in zip(begins, waits, strict=True)]
    assert many == alone
    assert many == sorted(many)
