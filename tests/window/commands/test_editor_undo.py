"""Ctrl+Z in a line that an act emptied takes back what was stored, not the typing."""

from __future__ import annotations

from typing import cast

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from rebuild.window.shell.frame import Frame
from rebuild.window.teardown.page import TeardownPage
from rebuild.window.waiting.page import WaitingPage
from tests.conftest import Shop

CTRL = Qt.KeyboardModifier.ControlModifier


def test_a_line_emptied_by_enter_hands_undo_on(frame: Frame, shop: Shop, qtbot: QtBot) -> None:
    frame.show()
    frame.activateWindow()
    store = frame.desk.store
    before = store.undo_label()
    frame.desk.choose(subassembly_id=shop.headstock)
    teardown = cast(TeardownPage, frame.page("teardown"))
    waiting = cast(WaitingPage, frame.page("waiting"))
    for key, line, words in (
        ("teardown", teardown.off.line, "cap l"),
        ("waiting", waiting.orders.line.line, "oil"),
    ):
        frame.show_page(key)
        line.setFocus()
        QTest.keyClicks(line, words)
        qtbot.keyClick(line, Qt.Key.Key_Z, CTRL)
        assert line.text() != words
        assert store.undo_label() == before, "half typed it is the words' own"
        line.setText(words)
        qtbot.keyClick(line, Qt.Key.Key_Return)
        assert line.text() == ""
        assert store.undo_label() != before
        qtbot.keyClick(line, Qt.Key.Key_Z, CTRL)
        assert (line.text(), store.undo_label()) == ("", before), "what was stored is taken back"
    qtbot.keyClicks(line, "o")
    qtbot.keyClick(line, Qt.Key.Key_Backspace)
    qtbot.keyClick(line, Qt.Key.Key_Z, CTRL)
    assert line.text() == "o", "what the hand itself deleted comes back"
