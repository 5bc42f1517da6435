"""The twelve tasks with the hand on the mouse: their clicks, and the keys that must be typed all the same.

What has a key has a place to click too; README prints both counts beside each other.
"""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication, QComboBox, QDialog, QPlainTextEdit, QPushButton

from rebuild.window.log.questions import QuestionsPage
from rebuild.window.parts.card_window import PartCardWindow
from rebuild.window.plan.page import PlanPage
from rebuild.window.readings.columns import Column
from rebuild.window.run_in.page import RunInPage
from rebuild.words.decisions import Decision
from rebuild.words.steps import TaskState
from rebuild.work.steps.rows import tasks
from tests.conftest import Shop
from tests.journeys.hands import Hands
from tests.journeys.test_landing import in_tree, typed
from tests.journeys.test_twelve_tasks import TASKS, Counted, Task, decision_of, told_in_readme


def find_a_part(user: Hands, shop: Shop) -> None:
    in_tree(user, "cap")
    assert user.frame.desk.selection.part_ids == (shop.cap,)


def read_a_journal(user: Hands, shop: Shop) -> None:
    row = user.row("HS-01", "front journal", "near")
    user.click_item(user.grid.view, user.grid.model.index(row, Column.AS_FOUND))
    user.person("59.985\r")
    assert typed(user.frame.desk.store, shop.journal, shop.near) == ["59.985"]


def take_it_back(user: Hands, shop: Shop) -> None:
    user.menu("Edit", "Undo")
    assert typed(user.frame.desk.store, shop.journal, shop.near) == []


def see_all_of_a_part(user: Hands, shop: Shop) -> None:
    user.menu("Part", "Part card")
    card = next(one for one in user.frame.findChildren(PartCardWindow) if one.isVisible())
    assert user.frame.desk.selection.part_ids == (shop.spindle,)
    card.close()
    user.come_forward()


def decide_on_a_part(user: Hands, shop: Shop) -> None:
    user.menu("Part", "Decide")
    asked = user.dialog("Decide")
    words = next(one for one in asked.findChildren(QComboBox) if one.accessibleName() == "Decision")
    user.click(words)
    shown = words.view()
    user.bot.waitUntil(shown.isVisible)
    user.bot.wait(10)  # the click that opened it is not the one that chooses
    user.click_item(shown, words.model().index(words.findText("rework"), 0))
    assert words.currentText() == "rework"
    user.click(
        next(one for one in asked.findChildren(QPlainTextEdit) if one.accessibleName() == "Reason").viewport()
    )
    user.type("scored")
    user.click(next(one for one in asked.findChildren(QPushButton) if one.text() == "Decide"))
    assert decision_of(user, shop, "HS-01") is Decision.REWORK


def undo_that(user: Hands, shop: Shop) -> None:
    user.menu("Edit", "Undo")
    assert decision_of(user, shop, "HS-01") is Decision.OPEN


def tick_a_step(user: Hands, shop: Shop) -> None:
    view, titles = user.steps.view, user.step_titles()
    user.double_click(view, user.steps.model.index(titles.index("Take the spindle out"), 0))
    user.click(user.button("Tick off"))
    with user.frame.desk.store.read() as connection:
        state = next(row.state for row in tasks(connection, shop.machine) if row.id == shop.strip)
    assert state is TaskState.DONE


def what_next_tonight(user: Hands, shop: Shop) -> None:
    plan = user.page("plan")
    assert isinstance(plan, PlanPage)
    assert plan.what_next.evening.says.text().startswith("Fits: Measure the journals")


def may_it_be_powered(user: Hands, shop: Shop) -> None:
    page = user.page("run-in")
    assert isinstance(page, RunInPage)
    assert page.gate.heading.text().endswith("open: do not power it on")


def which_question_is_open(user: Hands, shop: Shop) -> None:
    assert isinstance(user.page("questions"), QuestionsPage)


def see_the_fits(user: Hands, shop: Shop) -> None:
    user.page("fits")


def what_does_a_word_mean(user: Hands, shop: Shop) -> None:
    user.menu("Help", "Keys of this page")
    sheet = next(one for one in user.frame.findChildren(QDialog) if one.isVisible())
    user.click(next(one for one in sheet.findChildren(QPushButton) if "Close" in one.text()))


BY_MOUSE: tuple[Task, ...] = (
    find_a_part, read_a_journal, take_it_back, see_all_of_a_part, decide_on_a_part, undo_that, tick_a_step,
    what_next_tonight, may_it_be_powered, which_question_is_open, see_the_fits, what_does_a_word_mean,
)  # fmt: skip
#: No task may take more clicks than this; deciding names a decision and its reason.
MOST_CLICKS = 6


def test_twelve_tasks_take_the_clicks_readme_says(
    hands: Hands, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    # A list that drops down takes no click while a double click could still be meant.
    before = QApplication.doubleClickInterval()
    QApplication.setDoubleClickInterval(1)
    user, counts = Counted(hands.bot, hands.frame), list[tuple[int, int]]()
    try:
        for (words, by_keys), task in zip(TASKS, BY_MOUSE, strict=True):
            assert by_keys.__name__ == task.__name__, words
            if task in (read_a_journal, see_all_of_a_part):
                in_tree(user, "spindle")  # the eye is on it
            if task is tick_a_step:
                user.frame.show_page("bench")
            user.keys = user.clicks = 0
            task(user, shop)
            counts.append((user.clicks, user.keys))
            assert 0 < user.clicks <= MOST_CLICKS, words
    finally:
        QApplication.setDoubleClickInterval(before)
    told = [(row.clicks, row.keys_typed) for row in told_in_readme()]
    assert told == counts, f"README should print, clicks and keys: {counts}"
