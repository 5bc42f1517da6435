"""Ctrl+Z in a line that an act emptied takes back what was stored, not the typing."""

from __future__ import annotations

import warnings
from typing import cast

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QLineEdit, QPushButton
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


def test_a_line_emptied_while_the_keyboard_was_elsewhere_hands_undo_on(
    frame: Frame, shop: Shop, qtbot: QtBot
) -> None:
    """Found in a trial by a stranger: a question answered on its button, a dialog left, and old words came back."""
    frame.show()
    frame.activateWindow()
    store = frame.desk.store
    frame.desk.choose(subassembly_id=shop.headstock)
    off = cast(TeardownPage, frame.page("teardown")).off
    frame.show_page("teardown")
    off.line.setFocus()
    for _time in range(2):
        qtbot.keyClicks(off.line, "cap l")
        qtbot.keyClick(off.line, Qt.Key.Key_Return)
    before = store.undo_label()
    button = next(one for one in off.ways.findChildren(QPushButton) if "alike" in one.text())
    button.setFocus()
    qtbot.keyClick(button, Qt.Key.Key_Space)
    assert off.line.text() == ""
    dialog = QDialog(frame)
    field = QLineEdit(dialog)
    dialog.open()
    field.setFocus()
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        dialog.reject()
    off.line.setFocus()
    stored = store.undo_label()
    qtbot.keyClick(off.line, Qt.Key.Key_Z, CTRL)
    assert (off.line.text(), store.undo_label()) == ("", before)
    assert stored is not None
    qtbot.keyClick(off.line, Qt.Key.Key_Z, CTRL | Qt.KeyboardModifier.ShiftModifier)
    assert (off.line.text(), store.undo_label()) == ("", stored), "and redo is the file's too"
