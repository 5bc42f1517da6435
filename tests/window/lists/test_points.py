"""In a column of numbers of one unit the decimal points stand under each other, on rendered pixels."""

from __future__ import annotations

import numpy as np
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from rebuild.window.lists.plain_table import PlainTable
from tests.window.contrast import luminance, pixels


def first_ink(table: PlainTable, row: int, column: int) -> int:
    """The leftmost dark pixel of a cell."""
    rect = table.visualRect(table.plain.index(row, column))
    seen = luminance(pixels(table.viewport().grab(rect).toImage()))
    dark = np.argwhere((seen < 0.2).any(axis=0))
    return int(rect.left() + dark[0, 0])


def test_points_stand_under_each_other(qtbot: QtBot) -> None:
    table = PlainTable("Sizes", ("One unit", "Two units", "Words"))
    qtbot.addWidget(table)
    rows = [("1.5 mm", "1.5 mm", "a"), ("1.1255 mm", "1.1255 in", "b"), ("1 mm", "1 mm", "c"), ("", "", "d")]
    table.plain.fill(list(enumerate(rows)))
    table.resize(500, 200)
    table.setAlternatingRowColors(False)
    with qtbot.waitExposed(table):
        table.show()
    for _ in range(3):
        QApplication.processEvents()
    # Each begins with the same digit, so points are under each other where the digits before them are.
    begins = [first_ink(table, row, 0) for row in range(3)]
    assert max(begins) - min(begins) <= 1, "widths are whole pixels, letters are not"
    assert len({first_ink(table, row, 1) for row in range(3)}) == 3, "of two units each stands at the edge"
    edge = table.visualRect(table.plain.index(1, 0)).right()
    longest = table.fontMetrics().horizontalAdvance("1.1255 mm")
    assert first_ink(table, 0, 0) >= edge - longest - 12, "the longest reaches the edge, none is cut"
    assert table.columnWidth(0) >= longest
