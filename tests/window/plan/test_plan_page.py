"""The Plan page's dated views: worked out beside the window, shown when done."""

from __future__ import annotations

import datetime as dt

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.plan import page as plan_page
from rebuild.window.plan.answer import Dated, work_out
from rebuild.window.plan.finish_picture import cumulative
from rebuild.window.plan.page import PlanPage
from rebuild.window.plan.week_form import WEEKS, WeekPane
from rebuild.work.plan import rows_input
from rebuild.work.plan.acts_week import add_day_off, set_week
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.plan.rows_input import critical_shares_of
from rebuild.work.records.rows_kept import kept_entries
from rebuild.work.records.wall_clock import now
from rebuild.work.steps import acts as tasks
from tests.conftest import Shop


def shown(qtbot: QtBot, desk: Desk, view: int) -> PlanPage:
    page = PlanPage(desk)
    page.resize(1100, 700)
    with qtbot.waitExposed(page):
        page.show()
    with qtbot.waitSignal(page.job.done, timeout=10_000):
        page.show_view(view)
    return page


def test_dates_show_a_calendar_and_the_finish_as_a_rising_curve(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    set_week(desk.store, ["19-21"] * 7)
    page = shown(qtbot, desk, 1)
    assert next(row.step.title for row in page.dates.calendar.rows) == "Take the spindle out"
    assert "4 steps" in page.dates.heading.text()
    assert "95 % by" in page.dates.picture.accessibleDescription()
    found = work_out(page._given, now()).chances if page._given is not None else None
    assert found is not None
    risen = [share for _day, share in cumulative(found)]
    assert risen == sorted(risen)
    assert (risen[0], round(risen[-1], 6)) == (0.0, 100.0)
    for share, date in found.by:
        before = max(risen_to for day, risen_to in cumulative(found) if day <= date.date())
        after = min(risen_to for day, risen_to in cumulative(found) if day > date.date())
        assert before <= share * 100 + 1e-6 <= after + 1e-6, "the marks lie on the curve"
    page.job.drop()


def test_a_tick_plans_again(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = shown(qtbot, desk, 1)
    with qtbot.waitSignal(page.job.done, timeout=10_000):
        tasks.tick(desk.store, shop.strip)
    titles = [row.step.title for row in page.dates.calendar.rows]
    assert "Take the spindle out" not in titles
    assert len(titles) == 4, "three steps left, and the checks before power, now that work has begun"
    assert any(title.startswith("Check before power") for title in titles)
    page.job.drop()


def test_dates_shown_again_unchanged_are_not_worked_out_again(
    qtbot: QtBot, desk: Desk, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun: list[object] = []
    clock = [dt.datetime(2026, 6, 15, 20, 0)]
    monkeypatch.setattr(plan_page, "now", lambda: clock[0])

    def counted(*given: object) -> object:
        begun.append(given)
        return work_out(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(plan_page, "work_out", counted)
    page = shown(qtbot, desk, 1)
    page.show_view(0)
    for view in (1, 2, 1):
        page.show_view(view)
        page.refresh()
    assert len(begun) == 1
    assert len(page.dates.calendar.rows) == 5, "four steps, and the checks before power"
    for change in (
        lambda: tasks.tick(desk.store, shop.strip),
        lambda: set_week(desk.store, ["19-21"] * 7),
        lambda: (clock.append(clock.pop() + dt.timedelta(minutes=15)), page.refresh()),
        lambda: (clock.append(clock.pop() - dt.timedelta(minutes=30)), page.refresh()),
    ):
        before = len(begun)
        with qtbot.waitSignal(page.job.done, timeout=10_000):
            change()
        assert len(begun) > before
    page.job.drop()


def test_keys_walk_the_calendar_and_choose_the_step(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = shown(qtbot, desk, 1)
    qtbot.keyClick(page.dates.calendar, Qt.Key.Key_Down)
    assert desk.selection.task_ids == (shop.measure,)
    assert page.dates.about.text().startswith("Measure the journals is worked on from ")
    page.job.drop()


def test_the_network_is_drawn_around_the_step_in_hand_and_fits(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = shown(qtbot, desk, 2)

    def drawn() -> set[str]:
        return {item.toolTip() for item in page.network.picture.scene().items() if item.toolTip()}

    page.network.far.setValue(1)
    page.network.stand_on(shop.measure)
    assert drawn() == {"Take the spindle out", "Measure the journals", "Make a new cap"}
    page.network.picture.setFocus()
    qtbot.keyClick(page.network.picture, Qt.Key.Key_Right)
    assert page.network.step.currentData() == shop.remake
    page.network.whole.setChecked(True)
    assert {"Take the spindle out", "Refit the spindle"} <= drawn()
    page.network.fit.click()
    picture = page.network.picture
    whole = picture.mapFromScene(picture.sceneRect()).boundingRect()
    room = picture.viewport().rect()
    assert whole.width() <= room.width() + 2
    assert whole.height() <= room.height() + 2
    page.job.drop()


def test_only_the_newest_question_is_answered(qtbot: QtBot, desk: Desk) -> None:
    page = shown(qtbot, desk, 1)
    answers: list[object] = []
    page.job.done.connect(answers.append)
    given = page._given
    assert given is not None
    with qtbot.waitSignal(page.job.done, timeout=10_000):
        for seed in range(5):
            page.job.ask(lambda _tell, seed=seed: Dated(given, now(), work_out(given, now(), seed=seed)))
    qtbot.wait(50)
    assert len(answers) == 1
    page.job.drop()


def test_the_week_is_typed_and_stored(qtbot: QtBot, desk: Desk) -> None:
    page = PlanPage(desk)
    with qtbot.waitExposed(page):
        page.show()
    page.show_view(3)
    page.week.days[0].clear()
    qtbot.keyClicks(page.week.days[0], "seven to nine")
    page.week._store.click()
    assert "Monday: “seven to nine” is not hours of a day." in page.week._trouble.text()
    assert page.week.days[0].text() == "seven to nine"
    tuesday = page.week.days[1]
    tuesday.clear()
    qtbot.keyClicks(tuesday, "20-22")
    page.week._first.setText("2026-12-24")
    page.week._add.click()
    assert page.week.off.count() == 1
    assert tuesday.text() == "20-22", "what is typed and not stored stays when the week is read again"
    assert "“seven to nine” is not hours" in page.week._trouble.text(), "it is still wrong"
    page.week.days[0].setText("19-21")
    page.week._store.click()
    assert not page.week._trouble.text()
    qtbot.keyClicks(tuesday, "x")
    page.put_by()
    with desk.store.read() as connection:
        (kept,) = kept_entries(connection)
    assert (kept.meant_for, kept.typed) == ("hours at the bench", f"Tuesday {tuesday.text()}")
    assert "Assumed" not in page.week._about.text()


def test_the_schedules_of_a_large_machine_are_drawn_beside_the_window(
    qtbot: QtBot, desk: Desk, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No sentence has a chance at first; it is there once they came, the same as drawn at once."""
    with desk.store.read() as connection:
        wanted = dict(critical_shares_of(work_graph(connection, shop.machine)))
    monkeypatch.setattr(rows_input, "MOST_DRAWN", 2)
    tasks.add_task(desk.store, shop.machine, None, "Sweep")
    page = PlanPage(desk)
    page.resize(1100, 700)
    cap = ("had", shop.cap)
    with qtbot.waitSignal(page.drawing.came, timeout=10_000), qtbot.waitExposed(page):
        page.show()
    sentence = next(row.sentence for row in page.what_next._rows if row.key == cap)
    with desk.store.read() as connection:
        work = work_graph(connection, shop.machine)
    share = max(work.drawn[0][key] for key in work.graph.making[shop.cap] if key in work.drawn[0])
    assert set(wanted) < set(work.drawn[0])
    assert f"drives the finish in {share * 100:.0f} of 100 drawn schedules" in sentence
    page.job.drop()


def test_the_weeks_to_come_tell_what_days_off_leave(qtbot: QtBot, desk: Desk) -> None:
    pane = WeekPane(desk)
    qtbot.addWidget(pane)
    today = now().date()
    monday = today + dt.timedelta(days=7 - today.weekday())
    set_week(desk.store, ["", "19:00-21:00", "", "19:00-21:00", "", "9:00-12:00", ""])
    add_day_off(desk.store, str(monday), str(monday + dt.timedelta(days=3)), "away")
    pane.refresh()
    rows = [pane.ahead.plain.text(at) for at in range(WEEKS)]
    assert [row[1:] for row in rows[1:3]] == [("3", "2"), ("7", "")]
    assert len({row[0] for row in rows}) == WEEKS
