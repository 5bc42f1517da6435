"""The chosen position: how the test is set up, what was read and when, what is allowed, and what warns."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QPalette, QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from rebuild.trade.charts.set_up_sketches import sketch
from rebuild.window.charts.entry import ReadingEntry
from rebuild.window.charts.limit_form import LimitForm
from rebuild.window.desk.desk import Desk
from rebuild.window.ink import theme
from rebuild.window.ink.sketch_view import DrawingView
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.said import day
from rebuild.work.charts.rows_tests import LineRow, ReadRow, TestRow, shown_value

#: What the panel keeps free at its two sides [px].
EDGES = 16
_READINGS = ("Read", "Stage", "Value", "Over", "Instrument", "Adjusted then")


class PositionPanel(QWidget):
    """Everything about one position of one test."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.title = PlainLabel()
        self.title.setFont(theme.large(self.font(), 1.2))
        self.title.setWordWrap(True)
        self.sketch = DrawingView("Sketch of the set-up")
        self.sketch.setMinimumHeight(90)
        self.set_up = PlainLabel()
        self.set_up.setWordWrap(True)
        self.set_up.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self.warnings = PlainLabel()
        self.warnings.setWordWrap(True)
        self.verdict = PlainLabel()
        self.verdict.setWordWrap(True)
        self.entry = ReadingEntry(desk)
        self.readings = PlainTable("Readings of this position", _READINGS)
        self.readings.setMinimumHeight(66)
        self.limit = LimitForm(desk)
        self._lay_out()

    def _lay_out(self) -> None:
        inner = QWidget()
        column = QVBoxLayout(inner)
        column.setContentsMargins(EDGES - 6, 0, 6, 0)
        column.setSpacing(4)
        for widget, stretch in (
            (self.title, 0),
            (self.sketch, 3),
            (self.set_up, 0),
            (self.warnings, 0),
            (self.verdict, 0),
            (self.entry, 0),
            (self.limit, 0),
            (self.readings, 2),
        ):
            column.addWidget(widget, stretch)
        scroll = self._scroll = QScrollArea()
        scroll.setAccessibleName("The chosen position")
        scroll.setWidget(inner)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(scroll)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._flow()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._flow()

    def _flow(self) -> None:
        bar = self._scroll.verticalScrollBar().sizeHint().width()
        self.entry.flow(self.width() - bar - EDGES)

    def show_position(self, test: TestRow | None, line: LineRow | None) -> None:
        """Turn to a position, or to none."""
        self.entry.show_line(line, test.called if test is not None else "")
        self.limit.show_line(line)
        if test is None or line is None:
            self.title.setText("Choose a test")
            self.sketch.show_drawing(None, instead="")
            for label in (self.set_up, self.warnings, self.verdict):
                label.setText("")
            self.readings.plain.fill([])
            return
        self.title.setText(f"{test.called}{f', {line.name}' if line.name else ''}")
        self.sketch.show_drawing(sketch(test.sketch), test.set_up)
        self.set_up.setText(test.set_up)
        self.warnings.setText("\n".join(f"▸ {words}" for words in test.warnings))
        self.warnings.setVisible(bool(test.warnings))
        newest = line.after or line.found
        self.verdict.setText(_verdict(newest))
        self.verdict.setVisible(newest is not None)
        unit = self._desk.unit_for(line.unit)
        self.readings.plain.fill([(row.id, _cells(row, unit, line.unit)) for row in line.readings])


def _verdict(row: ReadRow | None) -> str:
    if row is None:
        return ""
    if row.judgement is None:
        return f"▸ {row.trouble}"
    wrong = f" Here it is {row.wrong_way}." if row.wrong_way else ""
    return f"{row.stage.value.capitalize()}: {row.judgement.sentence}{wrong}"


def _cells(row: ReadRow, unit: str, own: str) -> tuple[str, ...]:
    over = f"{row.over_mm / (25.4 if unit == 'in' else 1):g} {unit}" if row.over_mm else ""
    warm = f", {round(row.temperature_c, 1):g} °C" if row.temperature_c is not None else ""
    return (
        day(row.taken_at),
        row.stage.value,
        shown_value(row, unit, own),
        over,
        f"{row.instrument}{warm}",
        row.adjusted,
    )
