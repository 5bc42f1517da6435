"""Bench mode: one key, the entry line and its read-back, digits of 20 mm; and the line comes home as it was."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics, QImage
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from rebuild.window.bench.bench_mode import BenchMode
from rebuild.window.bench.page import BenchPage
from rebuild.window.entry.line import EntryLine
from rebuild.window.shell.frame import Frame
from tests.conftest import Shop
from tests.support import readings_of

#: A screen of 96 dots an inch, 25.4 mm each.
DOTS_A_MM = 96 / 25.4


def in_bench_mode(frame: Frame, shop: Shop) -> tuple[BenchPage, EntryLine, BenchMode]:
    frame.resize(1920, 1080)
    page = frame.page("bench")
    assert isinstance(page, BenchPage)
    frame.desk.choose(subassembly_id=shop.headstock, part_ids=(shop.spindle,), key=(shop.journal, shop.near))
    frame.do("bench_mode")
    QApplication.processEvents()
    assert isinstance(page.entry, EntryLine)
    mode = frame.findChild(BenchMode)
    assert mode is not None
    return page, page.entry, mode


def test_digits_stand_20_mm_high_and_nothing_else_is_seen(frame: Frame, shop: Shop) -> None:
    _, line, mode = in_bench_mode(frame, shop)
    for widget in (line.field, mode.stored):
        assert QFontMetrics(widget.font()).capHeight() >= 20 * DOTS_A_MM, widget.accessibleName()
    assert mode.geometry() == frame.rect()
    assert line.controls.instrument.isVisible()
    assert line.field.height() > 76


def inked_rows(widget: QWidget, left: int, right: int) -> int:
    """How many rows of pixels of a widget's picture bear ink between two columns: the height of what is drawn."""
    picture = widget.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)
    at = range(left, right)
    dark = [min(picture.pixelColor(x, y).value() for x in at) for y in range(picture.height())]
    dark = [0 if value < 128 else 1 for value in dark]  # the light scheme: ink is dark on a light ground
    rows = [y for y, light in enumerate(dark) if not light]
    return rows[-1] - rows[0] + 1 if rows else 0


def test_the_digits_drawn_are_20_mm_high_at_1920_by_1080(frame: Frame, shop: Shop, qtbot: QtBot) -> None:
    """Counted on the picture itself, in the line and in the value read back; a figure without a tail is measured."""
    _, line, mode = in_bench_mode(frame, shop)
    qtbot.keyClicks(line.field, "59.985")
    wide = QFontMetrics(line.field.font())
    # From the second figure on: the first may touch the frame of the field.
    edge = line.field.rect().x() + 12
    typed = inked_rows_of_text(line.field, edge, edge + wide.horizontalAdvance("59"))
    assert typed >= 20 * DOTS_A_MM, typed
    qtbot.keyClick(line.field, Qt.Key.Key_Return)
    assert mode.stored.text().startswith("59.985 mm")
    read = inked_rows(mode.stored, 0, QFontMetrics(mode.stored.font()).horizontalAdvance("59.985"))
    assert read >= 20 * DOTS_A_MM, read


def inked_rows_of_text(field: QWidget, left: int, right: int) -> int:
    """As ``inked_rows``, without the frame around a field: the run of inked rows in its middle."""
    picture = field.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)
    inked = [
        any(picture.pixelColor(x, y).value() < 128 for x in range(left, right))
        for y in range(picture.height())
    ]
    above = below = picture.height() // 2
    while above > 0 and inked[above]:
        above -= 1
    while below < picture.height() and inked[below]:
        below += 1
    return below - above - 1


def test_a_value_is_stored_and_read_back_large(frame: Frame, shop: Shop, qtbot: QtBot) -> None:
    page, line, mode = in_bench_mode(frame, shop)
    qtbot.keyClicks(line.field, "59.985")
    qtbot.keyClick(line.field, Qt.Key.Key_Return)
    assert mode.stored.text().startswith("59.985 mm")
    with frame.desk.store.read() as connection:
        assert len(readings_of(connection, (shop.journal, shop.near))) == 1
    assert line.course.key == (shop.journal, shop.far), "it goes on in the order of the grid"
    assert page.grid is not None


def test_a_held_value_is_the_largest_and_long_words_stay_on_the_page(
    frame: Frame, shop: Shop, qtbot: QtBot
) -> None:
    """A value was held while the largest text was another row's, with *stored*; a pitch diameter ran off the page."""
    _, line, mode = in_bench_mode(frame, shop)
    qtbot.keyClicks(line.field, "59.985")
    qtbot.keyClick(line.field, Qt.Key.Key_Return)
    qtbot.keyClicks(line.field, "25.083")
    qtbot.keyClick(line.field, Qt.Key.Key_Return)
    assert "far from" in line.answer.sentence.text()
    assert mode.stored.text() == "25.083 ?"
    assert mode.verdict.text().startswith("Not stored yet on HS-01 spindle  ·  front journal  ·  far")
    qtbot.keyClick(line.field, Qt.Key.Key_Escape)
    assert mode.stored.text().startswith("59.985 mm")
    mode.stored.setText("pitch diameter 0.6385 in / 16.218 mm, from 0.6885 in over 0.0645 in wires")
    mode._fit()
    QApplication.processEvents()
    assert QFontMetrics(mode.stored.font()).horizontalAdvance(mode.stored.text()) <= mode.stored.width()


def test_the_same_key_leads_back_to_the_bench_as_it_was(frame: Frame, shop: Shop) -> None:
    page = frame.page("bench")
    assert isinstance(page, BenchPage)
    assert isinstance(page.entry, EntryLine)
    home, font = page.entry.parentWidget(), page.entry.field.font()
    in_bench_mode(frame, shop)
    assert page.entry.parentWidget() is not home
    frame.do("bench_mode")
    QApplication.processEvents()
    assert page.entry.parentWidget() is home
    assert page.entry.field.font() == font
    assert page.entry.controls.instrument.isVisible()


def test_turning_to_another_page_ends_it(frame: Frame, shop: Shop) -> None:
    page, line, _ = in_bench_mode(frame, shop)
    frame.show_page("plan")
    QApplication.processEvents()
    assert page.isAncestorOf(line)
