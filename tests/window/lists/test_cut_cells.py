"""No cell is cut: every page of the demo, every subassembly on the bench, three sizes; and a made-up longest case."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from PySide6.QtCore import QSize
from PySide6.QtWidgets import QApplication, QHeaderView, QTableWidget, QTableWidgetItem
from pytestqt.qtbot import QtBot

from rebuild.window.bench.page import BenchPage
from rebuild.window.decisions.page import DecidePage
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.tree_list import line, tree_list
from rebuild.window.shell.frame import Frame
from tests.conftest import demo_copy
from tests.depth import DEPTH
from tests.window.conftest import close_all_windows
from tests.window.cut_cells import cut_cells, numbers_broken
from tests.window.walk import all_measured, every_page, every_row, every_subassembly, settle

SIZES = (QSize(1280, 800), QSize(1366, 768), QSize(1920, 1080))
#: The pages the program cut most on, and what it held there; a walk that sees less looked at nothing.
LEAST_SEEN = {"decide": 100, "lubrication": 150, "waiting": 25, "questions": 40, "bench": 150}
#: Lists fit their columns late after they were given another width.
RESIZED_MS = 60
LONG = (
    "an old cross-feed screw and nut of the second pattern, with its own collar",
    "2.5048-2.5056",
    "0.0000123456 in",
    "W" * 60,
    "two short words",
)


def _runs_over(frame: Frame) -> bool:
    """Whether the grid is wider than its room; five stages of the shaper's rows were, at 1280."""
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    assert bench.grid is not None
    return bench.grid.view.horizontalScrollBar().maximum() > 0


def test_no_cell_of_the_demo_is_cut(qapp: QApplication, demo_template: Path, tmp_path: Path) -> None:
    """One window for all sizes: each page is looked at in each of them before the next one is turned to."""
    sizes = SIZES if DEPTH > 1 else SIZES[:1]
    desk = Desk()
    frame = Frame(desk, Memory(tmp_path / "window.ini"))
    frame.resize(sizes[0])
    frame.show()
    desk.open(demo_copy(demo_template, tmp_path / "demo"))
    decide = frame.page("decide")
    assert isinstance(decide, DecidePage)
    decide.show_all()
    cut: list[str] = []
    seen: Counter[tuple[str, int]] = Counter()

    def look(where: str, page: str) -> None:
        for size in sizes:
            if frame.size() != size:
                frame.resize(size)
                settle(RESIZED_MS)
                all_measured(frame)  # a long list takes some turns
            found, looked = cut_cells(frame)
            more = [*numbers_broken(frame)]
            if page == "bench" and where != page and _runs_over(frame):
                more.append("the grid is scrolled sideways")
            cut.extend(f"{where} at {size.width()}x{size.height()}: {one}" for one in [*found, *more])
            seen[page, size.width()] = max(seen[page, size.width()], looked)
        frame.resize(sizes[0])

    for where in every_page(frame):
        look(where, where)
    for where in every_subassembly(frame):
        look(where, "bench")
    close_all_windows()
    desk.close()
    assert not cut, f"{len(cut)} cut:\n" + "\n".join(cut[:20])
    for size in sizes:
        assert all(seen[page, size.width()] >= least for page, least in LEAST_SEEN.items()), seen


def test_no_cell_is_cut_whichever_sheet_or_fit_is_chosen(
    qapp: QApplication, demo_template: Path, tmp_path: Path
) -> None:
    desk = Desk()
    frame = Frame(desk, Memory(tmp_path / "window.ini"))
    frame.resize(SIZES[0])
    frame.show()
    desk.open(demo_copy(demo_template, tmp_path / "demo"))
    making, fits = frame.page("making"), frame.page("fits")
    settle(100)
    cut: list[str] = []
    for page, view in (("making", making.list.tree), ("fits", fits.fits.table)):  # type: ignore[attr-defined]
        frame.show_page(page)
        for where in every_row(frame, page, view):
            cut += [f"{where}: {one}" for one in cut_cells(frame)[0]]
    close_all_windows()
    desk.close()
    assert not cut, "\n".join(cut[:20])


@pytest.mark.parametrize("width", [300, 520, 900])
def test_the_longest_case_is_not_cut_in_a_table(qtbot: QtBot, width: int) -> None:
    table = PlainTable("Long", ("Part", "Limits", "Reading", "Stamped", "Note"))
    qtbot.addWidget(table)
    table.resize(width, 400)
    table.plain.fill([(1, LONG), (2, ("a", "b", "c", "d", "e")), (3, LONG[::-1])])
    with qtbot.waitExposed(table):
        table.show()
    settle()
    assert cut_cells(table)[0] == []
    assert numbers_broken(table) == []


def test_the_longest_case_is_not_cut_in_a_list_that_opens(qtbot: QtBot) -> None:
    tree = tree_list("Long", ("Part", "Limits", "Reading", "Stamped", "Note"), opens=True)
    qtbot.addWidget(tree)
    tree.resize(500, 400)
    top = line(LONG)
    tree.addTopLevelItem(top)
    top.addChild(line(LONG))
    tree.expandAll()
    with qtbot.waitExposed(tree):
        tree.show()
    settle()
    assert cut_cells(tree)[0] == []


def test_a_long_cell_in_a_narrow_column_is_found(qtbot: QtBot) -> None:
    table = QTableWidget(1, 2)
    qtbot.addWidget(table)
    table.setItem(0, 0, QTableWidgetItem("a name far too long for so narrow a column"))
    table.setItem(0, 1, QTableWidgetItem("1.23456"))
    table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
    table.horizontalHeader().hide()
    table.setColumnWidth(0, 60)
    table.setColumnWidth(1, 30)
    with qtbot.waitExposed(table):
        table.show()
    assert len(cut_cells(table)[0]) == 2
    assert len(numbers_broken(table)) == 1


def test_a_cut_heading_is_found(qtbot: QtBot) -> None:
    table = QTableWidget(0, 1)
    qtbot.addWidget(table)
    table.setHorizontalHeaderLabels(["Where it comes from"])
    table.setColumnWidth(0, 40)
    with qtbot.waitExposed(table):
        table.show()
    assert len(cut_cells(table)[0]) == 1
