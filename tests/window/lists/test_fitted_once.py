"""A list is measured when its cells, its width or its font differ, and not because its page is shown again."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QModelIndex
from PySide6.QtWidgets import QApplication, QStyleOptionViewItem
from pytestqt.qtbot import QtBot

from rebuild.window.lists import fitted
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.tree_list import line, tree_list
from rebuild.window.lists.wrapping_delegate import WrappingDelegate, row_height


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


def test_a_trees_cells_are_measured_once_and_again_after_each_thing_they_rest_on(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is kept of a cell's size rests on its words, its column's width, the font, and which item it is of."""
    tree = tree_list("Acts", ("When", "What"))
    qtbot.addWidget(tree)
    tree.addTopLevelItems(
        [line((f"day {n}", "some words that go on and on for two lines")) for n in range(40)]
    )
    tree.resize(300, 300)
    asked: list[int] = []
    prepare = WrappingDelegate.initStyleOption

    def counted(delegate: WrappingDelegate, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        asked.append(index.row())
        prepare(delegate, option, index)

    monkeypatch.setattr(WrappingDelegate, "initStyleOption", counted)
    with qtbot.waitExposed(tree):
        tree.show()
    for _ in range(3):
        QApplication.processEvents()
    painted = 2 * 20  # of what is in sight
    assert 80 <= len(asked) <= 80 + 2 * painted, (
        "each cell once for its size, those in sight once to be painted"
    )
    first = tree.topLevelItem(0)
    assert first is not None

    def height() -> int:
        for _ in range(3):
            QApplication.processEvents()
        kept, delegate.sizes = delegate.sizes, {}
        option = QStyleOptionViewItem()
        tree.initViewItemOption(option)
        model = tree.model()
        anew = max(delegate.sizeHint(option, model.index(0, column)).height() for column in range(2))
        delegate.sizes = kept
        assert tree.visualItemRect(first).height() == anew, "what is kept is not what would be measured"
        return anew

    delegate = tree.itemDelegate()
    assert isinstance(delegate, WrappingDelegate)
    two = height()
    assert two > row_height(tree.fontMetrics())
    first.setText(1, "short")
    assert height() == row_height(tree.fontMetrics())
    first.setText(1, "some words that go on and on for two lines")
    assert height() == two
    tree.resize(900, 300)
    assert height() == row_height(tree.fontMetrics())
    tree.header().resizeSection(0, 500)
    tree.header().resizeSection(1, 60)
    assert tree.columnWidth(1) < 400
    height()
    tree.resize(300, 300)
    font = tree.font()
    font.setPointSize(font.pointSize() + 6)
    tree.setFont(font)
    assert height() > 3 * row_height(tree.fontMetrics())
    tree.clear()
    first = line(("day", "short"))
    tree.addTopLevelItem(first)
    assert height() == row_height(tree.fontMetrics())
    assert tree.sizeHintForColumn(1) >= tree.fontMetrics().horizontalAdvance("short")


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


def test_a_long_list_is_measured_in_slices_and_ends_as_if_measured_at_once(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The widest and the tallest cell stand far below the first slice; a change on the way begins anew."""
    monkeypatch.setattr(fitted, "SLICE", 10)
    taken: list[int] = []
    measure = fitted.FittedColumns._cell

    def counted(columns: fitted.FittedColumns, row: QModelIndex, *more: object) -> object:
        taken.append(row.row())
        return measure(columns, row, *more)  # type: ignore[arg-type]

    monkeypatch.setattr(fitted.FittedColumns, "_cell", counted)
    long = "words that do not fit on one line of this narrow table whatever is done " * 2

    def words(place: int) -> tuple[str, ...]:
        return (f"item {place}", "", "a good deal wider than the rest" if place == 33 else "short",
                long if place == 35 else "x")  # fmt: skip

    table, tree = PlainTable("Acts", ("a", "b", "c", "d")), tree_list("Acts", ("a", "b", "c", "d"))
    for view in (table, tree):
        qtbot.addWidget(view)
        view.resize(420, 300)
        if isinstance(view, PlainTable):
            view.plain.fill([(n, words(n)) for n in range(40)])
        else:
            view.addTopLevelItems([line(words(n)) for n in range(40)])
        taken.clear()
        with qtbot.waitExposed(view):
            view.show()
        turns: list[int] = []
        for _ in range(60):
            before = len(taken)
            QApplication.processEvents()
            turns.append(len(taken) - before)
        assert 0 < max(turns) <= 2 * 10 * 4, "no turn measures more than the slice begun and the one after"
        assert sum(turns) >= 2 * 10 * 4, "what was not in the first slice came in turns of its own"
        assert len(taken) >= 40 * 4
        wide = view.fontMetrics().horizontalAdvance("a good deal wider than the rest")
        assert view.columnWidth(2) >= min(wide, 100)
        heights = [
            view.rowHeight(n) if isinstance(view, PlainTable) else tree.visualItemRect(tree.topLevelItem(n)).height()
            for n in (0, 35)
        ]  # fmt: skip
        assert heights[0] == row_height(view.fontMetrics())
        assert heights[1] > 2 * heights[0]
        delegate = view.itemDelegate()
        assert isinstance(delegate, WrappingDelegate)
        assert not delegate.unfinished
        widths = [view.columnWidth(at) for at in range(4)]
        monkeypatch.setattr(fitted, "SLICE", 1_000)
        view.resize(421, 300)
        view.resize(420, 300)
        for _ in range(5):
            QApplication.processEvents()
        assert [view.columnWidth(at) for at in range(4)] == widths
        monkeypatch.setattr(fitted, "SLICE", 10)
