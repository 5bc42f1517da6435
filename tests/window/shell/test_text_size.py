"""Text from 80 to 200 %: live, remembered, and at 150 % every page holds in 1280x800 with nothing cut."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QSize, Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QAbstractScrollArea,
    QAbstractSpinBox,
    QApplication,
    QCheckBox,
    QComboBox,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QWidget,
)

from rebuild.window.bench.page import BenchPage
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.readings.grid import MeasurementGrid
from rebuild.window.shell.frame import Frame
from rebuild.window.shell.text_size import SIZES, USUAL, TextSize
from tests.conftest import Shop, demo_copy
from tests.window.conftest import close_all_windows
from tests.window.cut_cells import cut_cells, cut_lines, numbers_broken
from tests.window.walk import every_page, settle

AT_150 = QSize(1280, 800)
TREE_LETTERS = 14
#: How many lines of readings stand in sight on the bench at 150 %, on the smallest screen.
LEAST_ROWS = 7
TYPED_INTO = (QLineEdit, QComboBox, QAbstractSpinBox, QPushButton, QCheckBox, QAbstractItemView)


@pytest.fixture
def usual_after(qapp: QApplication) -> Iterator[None]:
    yield
    TextSize(lambda _percent: None).choose(USUAL)


@pytest.fixture
def demo_frame(qapp: QApplication, demo_template: Path, tmp_path: Path, usual_after: None) -> Iterator[Frame]:
    desk = Desk()
    frame = Frame(desk, Memory(tmp_path / "window.ini"))
    frame.resize(AT_150)
    frame.show()
    desk.open(demo_copy(demo_template, tmp_path / "demo"))
    yield frame
    close_all_windows()
    desk.close()


def test_text_grows_at_once_and_is_remembered(
    frame: Frame, shop: Shop, qapp: QApplication, usual_after: None
) -> None:
    frame.show_page("bench")
    usual = qapp.font().pointSizeF()
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    large = bench.entry.findChildren(QWidget)[0].fontMetrics().height()
    for _ in range(3):
        frame.do("text_larger")
    assert frame.text_size.percent == 150
    assert qapp.font().pointSizeF() == pytest.approx(1.5 * usual)
    again = frame.page("bench")
    assert isinstance(again, BenchPage)
    assert again.entry.findChildren(QWidget)[0].fontMetrics().height() > 1.3 * large
    frame.remember()
    assert frame.memory.text("text_size") == "150"
    frame.do("text_smaller")
    assert frame.text_size.percent == 125
    frame.do("text_usual")
    assert qapp.font().pointSizeF() == pytest.approx(usual)
    Frame(frame.desk, frame.memory).close()


def test_the_ends_of_the_row_hold(qapp: QApplication, usual_after: None) -> None:
    told: list[int] = []
    size = TextSize(told.append)
    size.choose(500)
    size.step(1)
    size.choose(10)
    size.step(-1)
    assert told == [SIZES[-1], SIZES[0]]


def _out_of_reach(frame: Frame) -> list[str]:
    """Controls of the page in sight that Tab, the arrows of their list or a key of their own never reach."""
    found = []
    for kind in TYPED_INTO:
        for control in frame.stack.currentWidget().findChildren(kind):
            inner = isinstance(control.parent(), QComboBox | QAbstractSpinBox | QAbstractItemView)
            if not control.isVisible() or not control.isEnabled() or inner or control.window() is not frame:
                continue
            if not control.accessibleName() and not getattr(control, "text", lambda: "")():
                found.append(f"no name: {type(control).__name__}")
            policy = control.focusPolicy()
            if not policy & Qt.FocusPolicy.TabFocus and control.focusProxy() is None:
                found.append(f"no key: {control.accessibleName()}")
    return found


def _cut_off(frame: Frame) -> list[str]:
    """Buttons and fields that stand outside their page, or are too narrow for their words."""
    found = []
    page = frame.stack.currentWidget()
    for button in page.findChildren(QPushButton):
        if not button.isVisible():
            continue
        words = button.text().replace("&", "")
        if button.width() < button.fontMetrics().horizontalAdvance(words):
            found.append(f"narrow: {words}")
        scrolled = any(isinstance(above, QAbstractScrollArea) for above in _above(button, page))
        corner = button.mapTo(page, QPoint(button.width(), button.height()))
        if not scrolled and (corner.x() > page.width() or corner.y() > page.height()):
            found.append(f"outside: {words}")
    return found


def _wide(frame: Frame) -> list[str]:
    """What is scrolled up and down only, and is wider than its room: its right side is never seen."""
    return [
        f"{area.accessibleName()} is {inner.width()} wide, its room {area.viewport().width()}"
        for area in frame.findChildren(QScrollArea)
        if area.isVisible()
        and (inner := area.widget()) is not None
        and area.horizontalScrollBarPolicy() is Qt.ScrollBarPolicy.ScrollBarAlwaysOff
        and inner.width() > area.viewport().width()
    ]


def _above(widget: QWidget, page: QWidget) -> Iterator[QWidget]:
    above = widget.parentWidget()
    while above is not None and above is not page:
        yield above
        above = above.parentWidget()


def test_at_150_percent_every_page_holds_and_every_control_is_named_and_reached(demo_frame: Frame) -> None:
    frame = demo_frame
    frame.text_size.choose(150)
    wrong: list[str] = []
    for page in every_page(frame):
        cells, _seen = cut_cells(frame)
        if cut_lines(frame):
            settle(120)  # a form in a card is laid out in some turns
        lines = cut_lines(frame)
        broken = [
            *cells,
            *numbers_broken(frame),
            *_cut_off(frame),
            *_out_of_reach(frame),
            *lines,
            *_wide(frame),
        ]
        wrong += [f"{page}: {what}" for what in broken]
        if frame.size() != AT_150:
            wrong.append(f"{page}: the window is {frame.size()}")
            frame.resize(AT_150)
    assert wrong == []
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    assert bench.tree.width() >= TREE_LETTERS * frame.fontMetrics().averageCharWidth()
    whole = bench.grid.view.viewport().height() if isinstance(bench.grid, MeasurementGrid) else 0
    assert whole >= LEAST_ROWS * frame.fontMetrics().height(), "the readings are not pressed to two rows"
