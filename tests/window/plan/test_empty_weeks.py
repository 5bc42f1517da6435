"""Where the calendar is empty for more than two weeks the page says why."""

from __future__ import annotations

import datetime as dt

from pytestqt.qtbot import QtBot

from rebuild.trade.schedule.graph import Node, Ref
from rebuild.trade.schedule.idle import idle_in
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.plan import make_plan
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.trade.schedule.week import Spell, Week
from rebuild.window.plan.answer import work_out
from rebuild.window.plan.dates import DatesPane
from rebuild.words.steps import TaskKind, TaskState

NOW = dt.datetime(2026, 12, 1, 18)
EVENING = Spell(1, 1140, 1260)


def work(key: int, title: str, minutes: float, *, elapsed: bool = False) -> Node:
    return Node(
        key, TaskKind.OTHER, title, None, None, TaskState.OPEN, ThreePoint(minutes, minutes, minutes), False,
        elapsed, Ref("task", abs(key)),
    )  # fmt: skip


def given(days: int, week: Week, *more: Node) -> PlanInput:
    """Ordered on the first evening; what comes after so many days is fitted."""
    steps = (
        work(1, "Order the belt", 30),
        work(-1, "delivery of the belt", days * 1440.0, elapsed=True),
        work(2, "Fit the belt", 60),
        *more,
    )
    return PlanInput(steps, ((1, -1), (-1, 2)), {}, week, True)


def test_an_empty_stretch_is_said_with_what_all_ended_by(qtbot: QtBot) -> None:
    pane = DatesPane()
    qtbot.addWidget(pane)
    pane.show_answer(work_out(given(40, Week((EVENING,))), NOW, draws=1))
    said = "Nothing is done from 1 Dec to 12 Jan: all that is left waits for “delivery of the belt”."
    assert pane.heading.text().endswith(said)
    holiday = frozenset(dt.date(2026, 12, 2) + dt.timedelta(days=at) for at in range(30))
    pane.show_answer(work_out(given(2, Week((EVENING,), holiday)), NOW, draws=1))
    assert pane.heading.text().endswith("Nothing is done from 1 Dec to 5 Jan: no hours are given then.")


def test_a_stretch_of_two_weeks_or_one_that_is_worked_in_is_not_said() -> None:
    week = Week((EVENING,))
    assert [idle.ended_by for idle in idle_in(make_plan(given(40, week), NOW))] == ["delivery of the belt"]
    assert not idle_in(make_plan(given(10, week), NOW))
    busy = given(40, week, *(work(key, f"Scrape {key}", 120) for key in range(3, 8)))
    assert not idle_in(make_plan(busy, NOW)), "there is other work meanwhile"
    off = frozenset(dt.date(2026, 12, 1) + dt.timedelta(days=at) for at in range(30))
    (none,) = idle_in(make_plan(given(0, Week((EVENING,), off)), NOW))
    assert (none.ended_by, none.since, none.until) == ("", NOW, dt.datetime(2027, 1, 5, 19))
