"""Lists without a row say what they are for, whole, in the room they have; found blank or cut in a trial."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QAbstractItemView, QApplication, QHeaderView, QListWidget, QPushButton
from pytestqt.qtbot import QtBot

from rebuild.window.layout.views import Views
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.plan.page import PlanPage
from rebuild.window.readings.grid import NO_FEATURE
from rebuild.window.shell.frame import Frame
from rebuild.work.machines.acts import add_machine


@pytest.mark.parametrize(("width", "height"), [(760, 60), (420, 90), (260, 160)])
def test_the_words_stay_whole_in_a_low_list(qtbot: QtBot, width: int, height: int) -> None:
    view = QListWidget()
    qtbot.addWidget(view)
    state = EmptyState(view, NO_FEATURE, "Show all rows", lambda: None)
    view.resize(width, height)
    view.show()
    QApplication.processEvents()
    words = state.words
    assert words.height() >= words.heightForWidth(words.width())
    assert state.rect().contains(words.geometry())


#: Buttons that do something to the chosen line.
OF_ONE = {
    "Remove",
    "Oil seen",
    "Blocked",
    "First fill",
    "Chased",
    "Arrived",
    "Checked",
    "Returned",
    "Seen to",
}


def test_pages_of_a_machine_with_nothing_yet_say_what_they_are_for(frame: Frame) -> None:
    desk = frame.desk
    desk.choose_machine(add_machine(desk.store, "Bare lathe", {"kind": "lathe"}))
    frame.show_page("plan")
    plan = frame.page("plan")
    assert isinstance(plan, PlanPage)
    lists: list[QAbstractItemView] = []
    for page, view in (
        ("plan", 0),
        ("plan", 1),
        ("plan", 3),
        ("log", 0),
        ("bench", 0),
        ("fits", 1),
        ("waiting", 4),
    ):
        frame.show_page(page)
        views = getattr(frame.page(page), "views", None)
        if isinstance(views, Views):
            views.show_view(view)
        QApplication.processEvents()
        found = frame.page(page).findChildren(QAbstractItemView)
        shown = [one for one in found if not isinstance(one, QHeaderView)]
        empty = [
            one
            for one in shown
            if one.isVisible() and one.model() is not None and one.model().rowCount() == 0
        ]
        lists += empty
        for one in empty:
            said = one.findChildren(EmptyState)
            assert said, f"{page}: {one.accessibleName()} is blank"
            assert said[0].isVisible(), f"{page}: {one.accessibleName()} says nothing"
    assert len(lists) >= 11
    assert plan.dates.picture.missing() == "How sure the finish is, once there are steps to plan"
    for page in ("lubrication", "waiting"):
        buttons = [
            one for one in frame.page(page).findChildren(QPushButton) if one.text().replace("&", "") in OF_ONE
        ]
        assert len(buttons) > 3, page
        assert not any(one.isEnabled() for one in buttons), f"{page}: there is no line to do it to"
