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
#: How much larger than in the window the place, words and the last values stand in a window ``TALL`` high.
PLACE, WORDS, VALUES = 2.4, 1.7, 1.4
TALL = 800
#: Left and right of what is shown, and the smallest a long value is written [px].
EDGE, LEAST_PX = 24, 24
#: How far the line keeps its own things from its edge [px]: what stands below it begins there too.
LINE_EDGE = 8
NONE_YET = "The value stored last shows here."


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
        self._times = 0.0
        self.way_out = PlainLabel("F8 leads back", self)
        self.stored = PlainLabel(self)
        self.stored.setAccessibleName("The value asked about or stored last")
        self.stored.setWordWrap(True)
        self.stored.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.stored.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Expanding)
        self.verdict = PlainLabel(self)
        self.verdict.setAccessibleName("Its verdict and place")
        self.verdict.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(EDGE, 12, EDGE, 10)
        layout.addWidget(line)
        for label in (self.stored, self.verdict):
            label.setIndent(LINE_EDGE)
        layout.addWidget(self.stored, 1)
        layout.addWidget(self.verdict)
        layout.addWidget(self.way_out, 0, Qt.AlignmentFlag.AlignRight)
        self._aside: list[QWidget] = [line.controls.repeats, line.controls.again, line.controls.gauge]
        for widget in self._aside:
            widget.hide()
        self._cover()
        desk.recent_changed.connect(self._show_value)
        line.answer.told.connect(self._show_value)
        self._show_value()
        self.window().installEventFilter(self)
        self.show()
        self.raise_()
        line.show()
        line.focus_entry()

    def _enlarge(self, times: float) -> None:
        """Write everything so large that the page is filled and read from the machine."""
        line, base = self._line, self.font()
        controls, head = line.controls, line.head
        digits = digits_font(base, round(DIGIT_PX * times))
        words, values = _larger(base, WORDS * times), _larger(base, VALUES * times)
        of_words = (head.spec, head.warning, controls.live, line.answer.sentence, self.verdict)
        written: tuple[tuple[QFont, tuple[QWidget, ...]], ...] = (
            (digits, (line.field, controls.unit, self.stored)),
            (_larger(base, PLACE * times), (head.place,)),
            (values, (line.answer, line.recent, *line.recent.buttons, line.recent.waiting, self.way_out)),
            (words, (*of_words, controls.stage, controls.instrument, controls.temperature, controls.note)),
        )
        if not self._fonts:
            # All are noted before the first is written: a child would already have its parent's new one.
            self._fonts = [(widget, widget.font()) for _, widgets in written for widget in widgets]
        for font, widgets in written:
            for widget in widgets:
                widget.setFont(font)
        controls.fit_temperature()
        controls.widen_field(True)
        line.answer.keep_room()

    def _show_value(self) -> None:
        """The value asked about, which is stored nowhere yet; with none, the one stored last."""
        asked = self._line.field.text().strip() if self._line.answer.asks else ""
        if asked:
            landing = self._desk.landing
            on = f" on {landing.words}" if landing is not None else ""
            self.stored.setText(f"{asked} ?")
            self.verdict.setText(f"Not stored yet{on}: see the question above.")
        else:
            self._show_last()
        self._fit()

    def _fit(self) -> None:
        """As large as the digits may be, or as the words still fit the page: nothing runs off it."""
        font = digits_font(self.font(), round(DIGIT_PX * max(self._times, 1.0)))
        room, text = self.width() - 2 * EDGE, self.stored.text()
        wide = QFontMetrics(font).horizontalAdvance(text)
        if text and wide > room > 0:
            font.setPixelSize(max(LEAST_PX, int(font.pixelSize() * room / wide) - 1))
        self.stored.setFont(font)

    def _show_last(self) -> None:
        """The value stored last, as long as it stands."""
        last = self._desk.recent[-1] if self._desk.recent else None
        if last is not None and last.record == "reading":
            self._read_back(last)
        else:
            self.stored.setText("")
            self.verdict.setText(NONE_YET)

    def _read_back(self, stored: Stored) -> None:
        with self._desk.store.read() as connection:
            back = read_back(connection, stored.id, verdict_rule(self._desk.store))
        self.stored.setText(back.both)
        self.verdict.setText(f"{back.verdict.value.capitalize()}, stored on {stored.landing.words}")

    def _cover(self) -> None:
        under = self.parentWidget()
        if under is not None:
            self.setGeometry(under.rect())
            times = max(1.0, min(2.0, under.height() / TALL))
            if times != self._times:
                self._enlarge(times)
                self._times = times
            self._fit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize:
            self._cover()
        return False

    def leave(self) -> None:
        """Give the line back as it was."""
        self._desk.recent_changed.disconnect(self._show_value)
        self._line.answer.told.disconnect(self._show_value)
        for widget, font in self._fonts:
            widget.setFont(font)
        self._line.controls.fit_temperature()
        self._line.controls.widen_field(False)
        self._line.answer.keep_room()
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
