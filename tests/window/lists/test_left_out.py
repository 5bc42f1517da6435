"""Columns that may be left out are, while they hold nothing and the others would be scrolled past them."""

from __future__ import annotations

from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from rebuild.window.lists.plain_table import PlainTable

HEADS = ("No.", "What", "Which way round", "Match marks", "Fasteners and shims")
SHORT = [(n, (str(n), "gib", "", "", "socket screw 3/8-16 with a jam nut")) for n in (1, 2)]


def hidden(table: PlainTable) -> list[int]:
    for _ in range(3):
        QApplication.processEvents()
    return [at for at in range(len(HEADS)) if table.isColumnHidden(at)]


def test_an_empty_column_goes_only_where_others_would_be_out_of_sight(qtbot: QtBot) -> None:
    table = PlainTable("Removal log", HEADS)
    qtbot.addWidget(table)
    table.columns.leave_out((2, 3))
    table.plain.fill(SHORT)
    table.resize(900, 200)
    with qtbot.waitExposed(table):
        table.show()
    assert hidden(table) == []
    table.resize(300, 200)
    assert hidden(table) == [2, 3]
    assert table.horizontalScrollBar().maximum() == 0
    table.plain.fill([*SHORT, (3, ("3", "ram", "thick end to the rear", "", ""))])
    assert hidden(table) == [3], "what holds something is never left out"
    table.resize(900, 200)
    assert hidden(table) == []
