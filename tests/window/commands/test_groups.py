"""The pages in groups by the order of the job: a key each, keys reach every page, nothing hidden at 1280."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from rebuild.window.commands.groups import GROUPS
from rebuild.window.commands.pages import PAGES
from rebuild.window.shell.frame import Frame


def test_every_page_is_in_one_group_in_the_order_of_the_table() -> None:
    assert [key for group in GROUPS for key in group.pages] == [page.key for page in PAGES]
    assert len({group.keys for group in GROUPS}) == len(GROUPS)


def test_one_key_a_group_pressed_again_reaches_every_page(frame: Frame, qtbot: QtBot) -> None:
    frame.activateWindow()
    for number, group in enumerate(GROUPS, 1):
        assert group.keys == f"Ctrl+{number}"
        if frame.page_shown == group.pages[-1]:
            frame.show_page("history")
        seen = []
        for _ in group.pages:
            qtbot.keyClick(frame, Qt.Key(Qt.Key.Key_0 + number), Qt.KeyboardModifier.ControlModifier)
            seen.append(frame.page_shown)
        assert sorted(seen) == sorted(group.pages)


def test_a_group_turns_to_its_page_last_shown(frame: Frame) -> None:
    frame.show_page("making")
    frame.show_page("bench")
    frame.header.pages.ask_group("make")
    assert frame.page_shown == "making"


def test_no_name_is_hidden_or_cut_at_1280(frame: Frame) -> None:
    """And the names of the groups stand where they stood: a name that moves is clicked beside."""
    frame.resize(1280, 800)
    stood = set[tuple[int, ...]]()
    for page in frame.pages:
        frame.show_page(page.key)
        QApplication.processEvents()
        chooser = frame.header.pages
        assert chooser.hidden == [], page.key
        stood.add(tuple(name.mapTo(frame, QPoint()).x() for name in chooser.groups.names))
        assert len(stood) == 1, (page.key, stood)
        for row in (chooser.groups, *(row for row in chooser.rows.values() if row.isVisible())):
            for name in row.names:
                assert name.width() >= name.fontMetrics().horizontalAdvance(name.text()), name.text()
                right = name.mapTo(frame, name.rect().bottomRight()).x()
                assert right < frame.header.units.x(), name.text()


def test_what_does_not_fit_is_told_to_be_hidden(frame: Frame) -> None:
    frame.setMinimumWidth(0)
    frame.show_page("survey")
    frame.header.pages.groups.resize(120, 30)
    assert frame.header.pages.hidden != []
