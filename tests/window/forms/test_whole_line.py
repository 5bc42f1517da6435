"""A line of a form shows the whole of its text; typed in, it is Qt's own line."""

from __future__ import annotations

from PySide6.QtGui import QImage
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from rebuild.window.forms.whole_line import WholeLine
from tests.window.cut_cells import cut_lines, needed

LONG = "crank pushed onto the square, ram standing, the guard swung over it"


def _shown(qtbot: QtBot, kind: type[QLineEdit], width: int) -> tuple[QWidget, QLineEdit, QLineEdit]:
    top = QWidget()
    qtbot.addWidget(top)
    column = QVBoxLayout(top)
    one, other = kind(), QLineEdit()
    column.addWidget(other)
    column.addWidget(one)
    column.addStretch(1)
    top.resize(width, 300)
    with qtbot.waitExposed(top):
        top.show()
    return top, one, other


def _dark_rows(line: QLineEdit) -> int:
    """How many rows of pixels hold letters [px], without the frame."""
    image: QImage = line.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)
    inside = range(4, image.width() - 4)
    paper = image.pixelColor(image.width() - 5, 4).value()
    return sum(
        any(abs(image.pixelColor(x, y).value() - paper) > 90 for x in inside)
        for y in range(4, image.height() - 4)
    )


def test_a_text_too_long_goes_on_beneath(qtbot: QtBot) -> None:
    top, line, other = _shown(qtbot, WholeLine, 200)
    other.setFocus()
    line.setText("short")
    qtbot.wait(1)
    one_line, one_rows = line.height(), _dark_rows(line)
    line.setText(LONG)
    qtbot.wait(1)
    need = needed(LONG, line.font(), line.width() - 12).height()
    assert line.height() >= need
    assert _dark_rows(line) > 2 * one_rows
    assert cut_lines(top) == []
    line.setText("short")
    qtbot.wait(1)
    assert line.height() == one_line


def test_it_keeps_its_height_while_typed_in_and_is_one_line_then(qtbot: QtBot) -> None:
    _top, line, other = _shown(qtbot, WholeLine, 200)
    line.setFocus()
    tall = line.height()
    qtbot.keyClicks(line, LONG)
    assert line.text() == LONG
    assert line.height() == tall
    other.setFocus()
    qtbot.wait(1)
    assert line.height() > tall


def test_a_plain_line_too_narrow_is_found(qtbot: QtBot) -> None:
    top, line, other = _shown(qtbot, QLineEdit, 120)
    other.setFocus()
    line.setAccessibleName("Engages")
    line.setText(LONG)
    assert len(cut_lines(top)) == 1
    assert "Engages" in cut_lines(top)[0]
