"""The Plan page's dated views: worked out beside the window, shown when done."""

from __future__ import annotations

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.plan.answer import work_out
from rebuild.window.plan.page import PlanPage
from rebuild.work.plan.acts_week import set_week
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


def test_dates_show_a_strip_a_step_and_the_chances(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    set_week(desk.store, ["19-21"] * 7)
    page = shown(qtbot, desk, 2)
    assert next(row.step.title for row in page.dates.strips.rows) == "Take the spindle out"
    assert "4 steps" in page.dates.heading.text()
    assert page.dates.savings.topLevelItem(0).text(0) == "HS-02 bearing cap (remake)"
    assert "95% by" in page.dates.picture.accessibleDescription()
    page.job.drop()


def test_a_tick_plans_again(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = shown(qtbot, desk, 2)
    with qtbot.waitSignal(page.job.done, timeout=10_000):
        tasks.tick(desk.store, shop.strip)
    assert len(page.dates.strips.rows) == 3
    page.job.drop()


def test_keys_walk_the_strips_and_choose_the_step(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = shown(qtbot, desk, 2)
    qtbot.keyClick(page.dates.strips, Qt.Key.Key_Down)
    assert desk.selection.task_ids == (shop.measure,)
    page.job.drop()


def test_the_network_draws_every_linked_step(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = shown(qtbot, desk, 3)
    words = {item.toolTip() for item in page.network.scene().items() if item.toolTip()}
    assert {"Take the spindle out", "Refit the spindle"} <= words
    page.job.drop()


def test_only_the_newest_question_is_answered(qtbot: QtBot, desk: Desk) -> None:
    page = shown(qtbot, desk, 2)
    answers: list[object] = []
    page.job.done.connect(answers.append)
    given = page._given
    assert given is not None
    with qtbot.waitSignal(page.job.done, timeout=10_000):
        for seed in range(5):
            page.job.ask(lambda _tell, seed=seed: work_out(given, now(), seed=seed))
    qtbot.wait(50)
    assert len(answers) == 1
    page.job.drop()


def test_the_week_is_typed_and_stored(qtbot: QtBot, desk: Desk) -> None:
    page = PlanPage(desk)
    with qtbot.waitExposed(page):
        page.show()
    page.show_view(4)
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
