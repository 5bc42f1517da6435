"""One table: filled first and sized once, order kept, empty lists say what they are for."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import QObject, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QTableWidget, QTableWidgetItem
from pytestqt.qtbot import QtBot

from rebuild.window.ink import theme
from rebuild.window.ink.shapes import Shape, shape_icon
from rebuild.window.lists.fitted import FittedColumns
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.said import day
from rebuild.window.lists.tree_list import line, tree_list
from rebuild.window.lists.wrapped import wrapped
from rebuild.window.lists.wrapping_delegate import row_height
from tests.window.walk import settle

ROWS = [(1, ("cap", "10 in")), (2, ("bush", "9 in")), (3, ("arbor", "30 in"))]


def table_of(qtbot: QtBot, sortable: bool = True) -> PlainTable:
    table = PlainTable("Parts", ("Part", "Long"), sortable=sortable)
    qtbot.addWidget(table)
    table.plain.fill(ROWS)
    with qtbot.waitExposed(table):
        table.show()
    settle()
    return table


def click_heading(table: PlainTable, column: int) -> None:
    header = table.horizontalHeader()
    spot = header.viewport().rect().center()
    spot.setX(header.sectionViewportPosition(column) + 8)
    QTest.mouseClick(header.viewport(), Qt.MouseButton.LeftButton, pos=spot)


def test_the_order_asked_for_is_kept_over_a_refresh_and_so_is_the_row(qtbot: QtBot) -> None:
    table = table_of(qtbot)
    table.choose(1)
    click_heading(table, 1)
    assert table.plain.ids == [2, 1, 3]
    table.plain.fill([*ROWS, (4, ("door", "2 in"))])
    assert table.plain.ids == [4, 2, 1, 3]
    click_heading(table, 1)
    assert table.plain.ids == [3, 1, 2, 4]
    click_heading(table, 1)
    assert table.plain.ids == [1, 2, 3, 4]


def test_a_list_whose_order_means_something_is_not_sorted_by_a_click(qtbot: QtBot) -> None:
    table = table_of(qtbot, sortable=False)
    click_heading(table, 0)
    assert table.plain.ids == [1, 2, 3]


def test_every_row_of_one_line_is_as_high_as_any_other(qtbot: QtBot) -> None:
    table = table_of(qtbot)
    assert {table.rowHeight(row) for row in range(3)} == {row_height(table.fontMetrics())}


def test_a_thousand_rows_are_sized_once(qtbot: QtBot) -> None:
    """Pitfall 18: a header under ResizeToContents measures every row again at each cell set."""
    table = QTableWidget(0, 3)
    qtbot.addWidget(table)
    fitted = FittedColumns(table)
    with qtbot.waitExposed(table):
        table.show()
    settle()
    counted = _Resizes(table)
    table.setRowCount(1000)
    for row in range(1000):
        for column in range(3):
            table.setItem(row, column, QTableWidgetItem(f"cell {row} {column}"))
    assert counted.seen == 0
    settle(400)
    assert 0 < counted.seen <= 6
    assert table.columnWidth(0) >= table.fontMetrics().horizontalAdvance("cell 999 0")
    assert fitted.parent() is table


class _Resizes(QObject):
    def __init__(self, table: QTableWidget) -> None:
        super().__init__(table)
        self.seen = 0
        table.horizontalHeader().sectionResized.connect(self._count)

    def _count(self, _column: int, _old: int, _new: int) -> None:
        self.seen += 1


def test_an_empty_list_says_what_it_is_for_and_offers_the_first_act(qtbot: QtBot) -> None:
    table = PlainTable("Orders", ("What",))
    qtbot.addWidget(table)
    done: list[bool] = []
    empty = table.when_empty(
        "What is ordered, sent out or lent stands here.", "New order", lambda: done.append(True)
    )
    with qtbot.waitExposed(table):
        table.show()
    assert empty.isVisible()
    assert empty.button is not None
    qtbot.mouseClick(empty.button, Qt.MouseButton.LeftButton)
    assert done == [True]
    table.plain.fill([(1, ("bar",))])
    assert not empty.isVisible()
    table.plain.fill([])
    assert empty.isVisible()


def test_words_are_wrapped_without_losing_a_letter(qtbot: QtBot) -> None:
    table = PlainTable("Any", ("One",))
    qtbot.addWidget(table)
    metrics = table.fontMetrics()
    text = "an old screw, " + "W" * 50 + " and its nut"
    for room in (40, 90, 200, 2000):
        lines = wrapped(text, room, metrics)
        assert "".join(lines).replace(" ", "") == text.replace(" ", "")
        assert all(metrics.horizontalAdvance(one) <= room for one in lines)


def test_the_shape_of_a_chosen_line_is_drawn_in_the_ink_of_what_is_chosen(qtbot: QtBot) -> None:
    """It kept the ink of the sheet: dark on dark, 1.1 to 1."""
    listed = tree_list("Steps", ("What",))
    qtbot.addWidget(listed)
    listed.resize(300, 120)
    made = line(("oil the ram",), icon=shape_icon(Shape.OPEN))
    listed.addTopLevelItem(made)
    with qtbot.waitExposed(listed):
        listed.show()

    def inks() -> set[int]:
        image = listed.viewport().grab().toImage()
        return {image.pixel(x, y) for x in range(2, 18) for y in range(2, 22)}

    plain = theme.ink().ink.rgba()
    assert plain in inks()
    listed.setCurrentItem(made)
    assert theme.ink().chosen_ink.rgba() in inks()
    assert plain not in inks()


def test_a_day_is_said_and_told_to_the_minute_and_numbers_stand_under_each_other(qtbot: QtBot) -> None:
    table = PlainTable("Readings", ("On", "Reads"))
    qtbot.addWidget(table)
    table.plain.fill(
        [
            (1, (day(dt.datetime(2026, 11, 2, 8, 5)), "0.625 in")),
            (2, (day(dt.datetime(2026, 3, 9, 7, 0)), "12.5 in")),
        ]
    )
    first = table.plain.index(0, 0)
    assert first.data() == "2 Nov 2026"
    assert "2026-11-02 08:05" in str(first.data(Qt.ItemDataRole.ToolTipRole))
    right = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
    assert table.plain.index(0, 1).data(Qt.ItemDataRole.TextAlignmentRole) == right
    assert first.data(Qt.ItemDataRole.TextAlignmentRole) is None
    table.plain.order_by(0)
    assert [table.plain.text(row)[0] for row in range(2)] == ["9 Mar 2026", "2 Nov 2026"], (
        "by the day, not the word"
    )
