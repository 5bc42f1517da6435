"""Bench mode: the entry line and what it reads back, in digits seen from the machine, and nothing else.

The grid stays where it is underneath, so the line goes on in its order. The same key leads out.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QFont, QFontMetrics
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.entry.line import EntryLine
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.landings.stored import Stored
from rebuild.work.readings.rows_destination import read_back
from rebuild.work.records.rows_settings import verdict_rule

#: 20 mm on a screen of 96 dots an inch is 75.6 of them.
DIGIT_PX = 76
PLACE, WORDS = 2.6, 2.0


def digits_font(base: QFont, tall_px: int = DIGIT_PX) -> QFont:
    """The base font so large that its digits stand at least ``tall_px`` high."""
    font = QFont(base)
    size = tall_px
    while True:
        font.setPixelSize(size)
        if QFontMetrics(font).capHeight() >= tall_px:
            return font
        size += 1


class BenchMode(QWidget):
    """Lies over the whole window and borrows the entry line."""

    def __init__(self, desk: Desk, line: EntryLine) -> None:
        super().__init__(line.window())
        self._desk, self._line = desk, line
        home = line.parentWidget()
        self._column = home.layout() if home is not None else None
        self._place = self._column.indexOf(line) if self._column is not None else 0
        self.setAutoFillBackground(True)
        self.setAccessibleName("Bench mode")
        self._fonts: list[tuple[QWidget, QFont]] = []
        self.way_out = PlainLabel("F8 leads back", self)
        self.stored = PlainLabel(self)
        self.stored.setAccessibleName("The value stored last")
        self.stored.setWordWrap(True)
        self.stored.setFont(digits_font(self.font()))
        self.stored.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 16, 24, 12)
        layout.addWidget(line)
        layout.addWidget(self.stored)
        layout.addStretch(1)
        layout.addWidget(self.way_out, 0, Qt.AlignmentFlag.AlignRight)
        self._aside = [
            line.controls.stage, line.controls.instrument, line.controls.temperature, line.controls.repeats,
            line.controls.again, line.controls.gauge,
        ]  # fmt: skip
        self._enlarge()
        line.stored.connect(self._read_back)
        self.window().installEventFilter(self)
        self._cover()
        self.show()
        self.raise_()
        line.show()
        line.focus_entry()

    def _enlarge(self) -> None:
        digits, base = digits_font(self.font()), self.font()
        line = self._line
        self._write(line.field, digits)
        self._write(line.controls.unit, digits)
        self._write(line.head.place, _larger(base, PLACE))
        for label in (line.head.spec, line.controls.live):
            self._write(label, _larger(base, WORDS))
        self._write(line.answer.sentence, _larger(base, WORDS))
        for widget in self._aside:
            widget.hide()

    def _write(self, widget: QWidget, font: QFont) -> None:
        self._fonts.append((widget, widget.font()))
        widget.setFont(font)

    def _read_back(self, stored: Stored) -> None:
        with self._desk.store.read() as connection:
            back = read_back(connection, stored.id, verdict_rule(self._desk.store))
        self.stored.setText(f"{back.both}\n{back.verdict.value}")

    def _cover(self) -> None:
        under = self.parentWidget()
        if under is not None:
            self.setGeometry(under.rect())

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize:
            self._cover()
        return False

    def leave(self) -> None:
        """Give the line back as it was."""
        self._line.stored.disconnect(self._read_back)
        for widget, font in self._fonts:
            widget.setFont(font)
        for widget in self._aside:
            widget.show()
        if isinstance(self._column, QVBoxLayout):
            self._column.insertWidget(self._place, self._line)
        self._line.show()
        self._line.focus_entry()
        self.hide()
        self.deleteLater()


def _larger(base: QFont, times: float) -> QFont:
    font = QFont(base)
    font.setPointSizeF(base.pointSizeF() * times)
    return font
