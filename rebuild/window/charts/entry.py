"""Type what was read at the chosen position: value with its sign, length, instrument, temperature, what was turned."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QComboBox, QGridLayout, QLineEdit, QPushButton, QWidget

from rebuild.errors import Implausible, RebuildError
from rebuild.trade.charts.corrections import WAYS_BAR, WAYS_COLLARS
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.gauge_keys import GIVES_BACK
from rebuild.window.entry.bursts_kept import keep
from rebuild.window.forms.field_box import Trouble
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.words.charts import ChartStage
from rebuild.work.charts.rows_tests import LineRow
from rebuild.work.landings.acts import put
from rebuild.work.landings.stored import How
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.records.rows import choices

#: The letters a short field is to have room for.
SHORT = 14


class ReadingEntry(QWidget):
    """One reading; Enter in any field stores it. What cannot be stored stays, with the sentence beneath."""

    stored = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._line: LineRow | None = None
        self._held = ""
        self._called = ""
        self.stage = QComboBox()
        for stage in ChartStage:
            self.stage.addItem(stage.value)
        self.stage.setCurrentIndex(1)
        self.value = QLineEdit()
        self.over = QLineEdit()
        self.instrument = QComboBox()
        self.division = QLineEdit()
        self.temperature = QLineEdit()
        self.adjusted = QLineEdit()
        self.store = QPushButton("Sto&re reading")
        self._trouble: Trouble | None = None
        self._grid = QGridLayout(self)
        self._lay_out()
        for edit in (self.value, self.over, self.division, self.temperature, self.adjusted):
            edit.returnPressed.connect(self.enter)
        self.store.clicked.connect(self.enter)
        self.show_line(None)

    def _lay_out(self) -> None:
        self._grid.setContentsMargins(0, 4, 0, 0)
        self._grid.setHorizontalSpacing(6)
        self._grid.setVerticalSpacing(3)
        named: tuple[tuple[str, QWidget], ...] = (
            ("Reading", self.value),
            ("Stage", self.stage),
            ("Instrument", self.instrument),
            ("Read over", self.over),
            ("Temperature", self.temperature),
            ("One division", self.division),
            ("Adjusted then", self.adjusted),
        )
        self._named = [(PlainLabel(words, self), widget) for words, widget in named]
        for (words, widget), (label, _) in zip(named, self._named, strict=True):
            label.setBuddy(widget)
            widget.setAccessibleName(words)
        self._grid.setColumnStretch(1, 1)
        self._two_abreast: bool | None = None
        self.flow(0)
        for edit in (self.over, self.temperature, self.division, self.adjusted):
            edit.setProperty(GIVES_BACK, True)  # what a gauge sends is the reading
        self.temperature.setPlaceholderText("in C or F")
        self.division.setPlaceholderText("of a level")
        self.adjusted.setPlaceholderText("what was turned, and how far")
        for box in (self.stage, self.instrument):
            box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
            box.setMinimumContentsLength(6)

    def flow(self, room: int) -> None:
        """Lay the fields out in a room [px]: the short ones two abreast where their names and some letters fit."""
        letter, gap = self.fontMetrics().averageCharWidth(), self._grid.horizontalSpacing()
        widest = max(self.fontMetrics().horizontalAdvance(label.text()) for label, _ in self._named)
        two = room >= 2 * (widest + 2 * gap + SHORT * letter)
        if two == self._two_abreast:
            return
        self._two_abreast = two
        row = column = 0
        for label, widget in self._named:
            short = two and widget in (self.stage, self.instrument, self.over, self.temperature)
            self._grid.addWidget(label, row, column)
            self._grid.addWidget(widget, row, column + 1, 1, 1 if short else 3)
            row, column = (row, 2) if short and not column else (row + 1, 0)
        self._grid.addWidget(self.store, row, 1, 1, 3, Qt.AlignmentFlag.AlignLeft)
        self._grid.setColumnStretch(3, 1 if two else 0)

    def offer_instruments(self) -> None:
        """Read the shop's instruments again; the chosen one stays."""
        chosen = self.instrument.currentData()
        self.instrument.clear()
        self.instrument.addItem("", None)
        if self._desk.is_open:
            with self._desk.store.read() as connection:
                for choice in choices(connection, "instrument", 0):
                    self.instrument.addItem(choice.label, choice.id)
        self.instrument.setCurrentIndex(max(0, self.instrument.findData(chosen)))

    def show_line(self, line: LineRow | None, called: str = "") -> None:
        """Turn to another position; a half-typed value is not carried over, it waits among those without a row."""
        self._called = called
        if line is None or self._line is None or line.id != self._line.id:
            if self.value.text().strip() and self._desk.is_open:
                keep(self._desk, self.value.text(), "the test chart", self.how())
            self.value.clear()
            self._say(None)
            self._held = ""
        self._line = line
        self.setEnabled(line is not None)
        if line is None:
            return
        words = line.words
        self.value.setPlaceholderText(
            f"+ {words.plus}, - {words.minus} [{line.unit}]" if words.plus else f"whole swing [{line.unit}]"
        )
        self.value.setToolTip(plain_tip(_ways(words.plus)))
        self.division.setPlaceholderText(
            f"of a level, as {'0.0005 in/ft' if line.unit == 'in' else '0.02 mm/m'}"
        )
        per = (
            f"{line.limit.per_mm / (25.4 if line.unit == 'in' else 1):g} {line.unit}"
            if line.limit.per_mm
            else "the whole"
        )
        self.over.setPlaceholderText(f"over {per}" if per else "")

    def enter(self) -> None:
        """Store what is typed; a doubtful value asks for Enter once more."""
        line, text = self._line, self.value.text()
        if line is None or not text.strip():
            return
        landing = self.landing()
        if landing is None:
            return
        try:
            stored = put(self._desk.store, text, landing, self.how(), confirmed=self._held == text)
        except Implausible as odd:
            self._held = text
            self._say(odd)
            return
        except RebuildError as trouble:
            self._say(trouble)
            return
        self.value.clear()
        self.adjusted.clear()
        self._held = ""
        self._say(None)
        self._desk.remember(stored)
        self.stored.emit(stored)

    def landing(self) -> Landing | None:
        """Where the next value goes: the chosen position at the chosen stage."""
        if self._line is None:
            return None
        stage = self.stage.currentText()
        words = "  ·  ".join(word for word in (self._called, self._line.name, stage) if word)
        return Landing(Surface.CHART, (self._line.id,), stage, words=words)

    def how(self) -> How:
        """How a value is taken now."""
        return How(
            self.instrument.currentData(),
            self.temperature.text(),
            over=self.over.text(),
            division=self.division.text(),
            adjusted=self.adjusted.text(),
        )

    def _say(self, error: RebuildError | None) -> None:
        if self._trouble is not None:
            self._trouble.hide()
            self._trouble.deleteLater()
            self._trouble = None
        if error is not None:
            self._trouble = Trouble(error, self)
            self._trouble.retyped.connect(self._take)
            self._grid.addWidget(self._trouble, 6, 0, 1, 4)
            self.value.setFocus()
            self.value.setAccessibleDescription(str(error))

    def _take(self, text: str) -> None:
        self.value.setText(text)
        self.enter()

    @property
    def trouble(self) -> str:
        """The sentence shown, or an empty text."""
        return self._trouble.sentence if self._trouble is not None else ""


def _ways(plus: str) -> str:
    """What may be typed besides a number, at a position whose plus means this."""
    if "rising" in plus or "falling" in plus:
        return f"The sag of a test bar is taken out when it is named. {WAYS_BAR}"
    return f"Two collars turned at one setting will do as well. {WAYS_COLLARS}" if "tool" in plus else ""
