"""Twelve tasks a stranger is given (find this, do that), their keys and clicks counted; README prints the counts."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest
from PySide6.QtCore import QModelIndex, QPoint, Qt
from PySide6.QtWidgets import QAbstractItemView, QApplication, QDialog, QWidget

from rebuild.window.fits.page import FitsPage
from rebuild.window.log.questions import QuestionsPage
from rebuild.window.parts.card_window import PartCardWindow
from rebuild.window.plan.page import PlanPage
from rebuild.window.run_in.page import RunInPage
from rebuild.words.decisions import Decision
from rebuild.words.steps import TaskState
from rebuild.work.machines import rows_tree as tree
from rebuild.work.steps.rows import tasks
from tests.conftest import Shop
from tests.journeys.hands import CTRL, SHIFT, Hands
from tests.journeys.test_landing import in_tree, typed

README = Path(__file__).resolve().parent.parent.parent / "README.md"
Task = Callable[[Hands, Shop], None]


class Counted(Hands):
    """Hands whose keys and clicks are counted; a chord is one key."""

    keys = 0
    clicks = 0

    def click(self, widget: QWidget, at: QPoint | None = None) -> None:
        self.clicks += 1
        super().click(widget, at)

    def double_click(self, view: QAbstractItemView, index: QModelIndex) -> None:
        self.click_item(view, index)  # of a person's double click the first one chooses
        self.clicks += 1
        super().double_click(view, index)

    def menu(self, name: str, *lines: str) -> None:
        self.clicks += 1 + len(lines)
        super().menu(name, *lines)

    def press(self, key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        self.keys += 1
        super().press(key, modifier)

    def type(self, text: str) -> None:
        self.keys += len(text)
        super().type(text)

    def person(self, text: str) -> None:
        self.keys += len(text)
        super().person(text)


def find_a_part(user: Hands, shop: Shop) -> None:
    user.press(Qt.Key.Key_F3)
    user.type("cap")
    user.enter()
    assert user.frame.desk.selection.part_ids == (shop.cap,)


def read_a_journal(user: Hands, shop: Shop) -> None:
    user.person("59.985\r")
    assert typed(user.frame.desk.store, shop.journal, shop.near) == ["59.985"]


def take_it_back(user: Hands, shop: Shop) -> None:
    user.press(Qt.Key.Key_1, CTRL | SHIFT)
    assert typed(user.frame.desk.store, shop.journal, shop.near) == []


def see_all_of_a_part(user: Hands, shop: Shop) -> None:
    user.press(Qt.Key.Key_F4)
    card = next(one for one in user.frame.findChildren(PartCardWindow) if one.isVisible())
    assert card.isVisible()
    assert user.frame.desk.selection.part_ids == (shop.spindle,)
    card.close()
    user.come_forward()


def decision_of(user: Hands, shop: Shop, code: str) -> Decision:
    """What the file holds of a part's decision."""
    with user.frame.desk.store.read() as connection:
        return {part.code: part.decision for part in tree.parts(connection, shop.machine)}[code]


def decide_on_a_part(user: Hands, shop: Shop) -> None:
    user.ctrl(Qt.Key.Key_D)
    user.dialog("Decide")
    user.tab_to("Decision")
    user.type("rework")
    user.tab_to("Reason")
    user.type("scored")
    user.ctrl(Qt.Key.Key_Return)
    assert decision_of(user, shop, "HS-01") is Decision.REWORK


def undo_that(user: Hands, shop: Shop) -> None:
    user.ctrl(Qt.Key.Key_Z)
    assert decision_of(user, shop, "HS-01") is Decision.OPEN


def tick_a_step(user: Hands, shop: Shop) -> None:
    user.press(Qt.Key.Key_Space)
    user.enter()
    with user.frame.desk.store.read() as connection:
        state = next(row.state for row in tasks(connection, shop.machine) if row.id == shop.strip)
    assert state is TaskState.DONE


def what_next_tonight(user: Hands, shop: Shop) -> None:
    user.ctrl(Qt.Key.Key_1)
    user.ctrl(Qt.Key.Key_1)
    plan = user.frame.page("plan")
    assert isinstance(plan, PlanPage)
    assert user.frame.page_shown == "plan"
    assert plan.what_next.evening.says.text().startswith("Fits: Measure the journals")


def may_it_be_powered(user: Hands, shop: Shop) -> None:
    for _ in range(4):
        user.ctrl(Qt.Key.Key_6)
    page = user.frame.page("run-in")
    assert isinstance(page, RunInPage)
    assert user.frame.page_shown == "run-in"
    assert page.gate.heading.text().endswith("open: do not power it on")


def which_question_is_open(user: Hands, shop: Shop) -> None:
    for _ in range(3):
        user.ctrl(Qt.Key.Key_3)
    page = user.frame.page("questions")
    assert isinstance(page, QuestionsPage)
    assert user.frame.page_shown == "questions"


def see_the_fits(user: Hands, shop: Shop) -> None:
    user.ctrl(Qt.Key.Key_4)
    user.ctrl(Qt.Key.Key_4)
    assert isinstance(user.frame.page("fits"), FitsPage)
    assert user.frame.page_shown == "fits"


def what_does_a_word_mean(user: Hands, shop: Shop) -> None:
    user.press(Qt.Key.Key_F1)
    shown = [one for one in user.frame.findChildren(QDialog) if one.isVisible()]
    assert shown or QApplication.activeWindow() is not user.frame
    user.press(Qt.Key.Key_Escape)


TASKS: tuple[tuple[str, Task], ...] = (
    ("Find the bearing cap", find_a_part),
    ("Read the front journal near the nose: 59.985", read_a_journal),
    ("Take that value back", take_it_back),
    ("See all that is known of the spindle", see_all_of_a_part),
    ("Decide that it is reworked, because it is scored", decide_on_a_part),
    ("Undo that", undo_that),
    ("Tick off “Take the spindle out”", tick_a_step),
    ("Find what can be done tonight", what_next_tonight),
    ("Find whether it may be powered", may_it_be_powered),
    ("Find the open questions", which_question_is_open),
    ("Look at the fits", see_the_fits),
    ("Find what the keys of this page are, and what a word means", what_does_a_word_mean),
)


@dataclass(frozen=True, slots=True)
class Told:
    """A row of README's table: keys alone; by mouse the clicks, and the keys typed all the same."""

    words: str
    keys: int
    clicks: int
    keys_typed: int


def told_in_readme() -> list[Told]:
    """The table as README prints it."""
    rows = re.findall(
        r"^\| ([A-Z][^|]*) \| (\d+) \| (\d+) \| (\d+) \|$", README.read_text(encoding="utf-8"), re.MULTILINE
    )
    return [Told(words, int(keys), int(clicks), int(typed)) for words, keys, clicks, typed in rows]


@pytest.fixture
def counted(hands: Hands) -> Counted:
    return Counted(hands.bot, hands.frame)


def test_twelve_tasks_take_the_keys_readme_says(counted: Counted, shop: Shop) -> None:
    user, counts = counted, list[tuple[str, int]]()
    for words, task in TASKS:
        if task in (read_a_journal, see_all_of_a_part):
            in_tree(user, "spindle")  # the eye is on it
        if task is tick_a_step:
            user.stand_on_step("Take the spindle out")
        user.keys = user.clicks = 0
        task(user, shop)
        counts.append((words, user.keys))
        assert user.keys > 0, words
        assert user.clicks == 0, words
    told = [(row.words, row.keys) for row in told_in_readme()]
    assert told == counts, f"README should print: {counts}"
