"""A list is measured when its cells, its width or its font differ, and not because its page is shown again."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from rebuild.window.lists import fitted
from rebuild.window.lists.plain_table import PlainTable


def test_only_what_changes_a_width_is_measured(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    table = PlainTable("Acts", ("When", "What"))
    qtbot.addWidget(table)
    table.plain.fill([(n, (f"day {n}", "short")) for n in range(20)])
    table.resize(500, 300)
    fits: list[int] = []
    whole = fitted.FittedColumns.fit

    def counted(columns: fitted.FittedColumns) -> None:
        fits.append(table.viewport().width())
        whole(columns)

    monkeypatch.setattr(fitted.FittedColumns, "fit", counted)

    def seen() -> int:
        for _ in range(3):
            QApplication.processEvents()
        count = len(fits)
        fits.clear()
        return count

    with qtbot.waitExposed(table):
        table.show()
    assert seen() >= 1
    for _ in range(3):
        table.hide()
        table.show()
        assert seen() == 0
    table.plain.fill([(n, (f"day {n}", "a good deal longer than before")) for n in range(20)])
    assert seen() == 1
    assert table.columnWidth(1) > table.fontMetrics().horizontalAdvance("a good deal longer than before")
    table.resize(700, 300)
    assert seen() >= 1
    font = table.font()
    font.setPointSize(font.pointSize() + 4)
    table.setFont(font)
    assert seen() >= 1
    table.hide()
    table.plain.fill([(1, ("day", "only one"))])
    assert seen() == 0
    table.show()
    assert seen() == 1


def test_a_value_is_not_parted_from_its_unit(qtbot: QtBot) -> None:
    table = PlainTable("Fits", ("To be", "What"))
    qtbot.addWidget(table)
    value = "0.0025–0.0045\N{NO-BREAK SPACE}in tight"
    table.plain.fill([(1, (value, "a good many words that want the room for themselves and take it"))])
    table.resize(160, 200)
    with qtbot.waitExposed(table):
        table.show()
    for _ in range(3):
        QApplication.processEvents()
    size = value.removesuffix(" tight")
    assert table.columnWidth(0) > table.fontMetrics().horizontalAdvance(size)
    assert table.columnWidth(0) < table.fontMetrics().horizontalAdvance(value) + 2 * fitted.SIDE
