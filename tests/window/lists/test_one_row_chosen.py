"""A list that may have several rows chosen is given one by the program, whatever keys are held meanwhile."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractItemView, QApplication
from pytestqt.qtbot import QtBot

from rebuild.window.lists.plain_table import PlainTable


def test_a_key_held_while_a_list_is_filled_chooses_no_second_row(qtbot: QtBot) -> None:
    """Ctrl+1 led to Places, whose list chose its row beside the one before: two looked chosen, one was shown."""
    table = PlainTable("Places", ("Place",))
    table.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
    qtbot.addWidget(table)
    with qtbot.waitExposed(table):
        table.show()
    table.plain.fill([(1, ("bag 1",)), (2, ("bag 2",)), (3, ("tote 3",))])
    table.choose(1)
    window = table.windowHandle()
    assert window is not None
    for key, held in (
        (Qt.Key.Key_Control, Qt.KeyboardModifier.ControlModifier),
        (Qt.Key.Key_Shift, Qt.KeyboardModifier.ShiftModifier),
    ):
        QTest.keyPress(window, key, held)
        assert QApplication.keyboardModifiers() == held
        table.choose(3)
        assert table.all_chosen() == [3]
        table.selectRow(1)
        assert table.all_chosen() == [2]
        table.selectRow(7)
        assert table.all_chosen() == [2]
        QTest.keyRelease(window, key, Qt.KeyboardModifier.NoModifier)
