"""The controls of the entry line: the field with its live reading, and how the value is taken."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import Ambiguous, RebuildError
from rebuild.trade.sizes.quantity import parse_repeats
from rebuild.trade.sizes.show import show_both
from rebuild.trade.threads.taken import split_taken
from rebuild.window.desk.gauge_keys import GIVES_BACK
from rebuild.window.entry.field import EntryField
from rebuild.window.entry.thread_way import ThreadWay
from rebuild.window.ink import theme
from rebuild.window.layout.elided_label import ElidedLabel
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.layout.two_rows import TwoRows
from rebuild.words.readings import STAGES, Stage
from rebuild.work.records.rows import Choice

NO_INSTRUMENT = "no instrument named"
NEW_INSTRUMENT = "New instrument…"


class EntryControls(QWidget):
    """Field, unit, live reading; stage, instrument, temperature, number of readings, gauge."""

    taken_otherwise = Signal()
    stage_chosen = Signal(Stage)
    gauge_turned = Signal(bool)
    instrument_wanted = Signal()  #: one the shop has, but not in the list yet

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.field = EntryField(self)
        self.unit = PlainLabel(self)
        self.unit.setFont(theme.large(self.font(), 1.6))
        self.live = ElidedLabel(self)
        self.live.setAccessibleName("The value as it is read")
        self.stage = QComboBox(self)
        self.stage.setAccessibleName("Stage")
        for stage in STAGES:
            self.stage.addItem(stage.value)
        self.instrument = QComboBox(self)
        self.instrument.setAccessibleName("Instrument")
        self.instrument.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.instrument.setMinimumContentsLength(8)
        self.temperature = QLineEdit(self)
        self.temperature.setAccessibleName("Temperature of the part")
        self.temperature.setPlaceholderText("°C or °F")
        self.temperature.setToolTip("Temperature of the part, °C or °F; empty when not noted")
        self.fit_temperature()
        self.thread_way = ThreadWay(self)
        self.note = QLineEdit(self)
        self.note.setAccessibleName("Note on the reading")
        self.note.setPlaceholderText("note")
        self.note.setToolTip("Goes with the next value, then it is cleared")
        self.repeats = QSpinBox(self)
        self.repeats.setRange(1, 20)
        self.repeats.setAccessibleName("How many readings make one value")
        self.repeats.setToolTip("How many readings are taken and averaged")
        self.repeats.setSuffix(" reading")
        self.repeats.setProperty(GIVES_BACK, True)  # it counts readings; what a gauge sends is one
        self.repeats.valueChanged.connect(
            lambda n: self.repeats.setSuffix(" reading" if n == 1 else " readings")
        )
        self.again = QPushButton("&Again", self)
        self.again.setToolTip("Back to the row stored last, to measure it once more")
        self.gauge = QCheckBox("From ga&uge", self)
        self.gauge.setToolTip(
            "A gauge's values go to the row in hand, wherever the keyboard is; without one they are kept"
        )
        self.gauge.setChecked(True)
        self._ids: list[int | None] = [None]
        self._named = 0
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        value = self._value = QHBoxLayout()
        value.setSpacing(8)
        self.field.setMinimumWidth(150)
        value.addWidget(self.field, 3)
        value.addWidget(self.unit)
        value.addWidget(self.live, 4)
        how = TwoRows(
            (self.stage, self.instrument, self.temperature, self.thread_way),
            (self.note, self.repeats, self.again, self.gauge),
            stretched=(self.instrument, self.note),
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(value)
        layout.addWidget(how)
        for keys, widget in (
            ("Alt+G", self.stage),
            ("Alt+I", self.instrument),
            ("Alt+T", self.temperature),
            ("Alt+D", self.repeats),
            ("Alt+J", self.note),
            ("Alt+Y", self.thread_way.way),
        ):
            QShortcut(QKeySequence(keys), self, widget.setFocus)
            widget.setToolTip(f"{widget.toolTip() or widget.accessibleName()} ({keys})")

    def widen_field(self, wide: bool) -> None:
        """Give the field more of its line, where the digits are large, or its usual share."""
        self._value.setStretch(0, 8 if wide else 3)

    def fit_temperature(self) -> None:
        """As wide as a temperature in its own type."""
        self.temperature.setFixedWidth(self.temperature.fontMetrics().horizontalAdvance("-00.0 °C") + 14)

    def _connect(self) -> None:
        self.stage.currentIndexChanged.connect(self._stage_changed)
        self.instrument.currentIndexChanged.connect(self._instrument_changed)
        self.instrument.activated.connect(self._instrument_asked)
        self.temperature.textChanged.connect(self._otherwise)
        self.thread_way.changed.connect(self._otherwise)
        self.note.textChanged.connect(self._otherwise)
        self.gauge.toggled.connect(self._gauge_turned)

    def _otherwise(self) -> None:
        self.taken_otherwise.emit()

    def _instrument_changed(self, at: int) -> None:
        if at < len(self._ids):
            self._named = max(0, at)
            self._otherwise()

    def _instrument_asked(self, at: int) -> None:
        """The last line adds one; until it is there the one named before stays."""
        if at == len(self._ids):
            self.instrument.setCurrentIndex(self._named)
            self.instrument_wanted.emit()

    def _stage_changed(self) -> None:
        self.stage_chosen.emit(self.chosen_stage)

    def _gauge_turned(self, on: bool) -> None:
        self.field.from_gauge = on
        self.gauge_turned.emit(on)

    def show_gauge(self, on: bool) -> None:
        """Whether values from gauges are taken, as it stands for the whole window."""
        was = self.gauge.blockSignals(True)
        self.gauge.setChecked(on)
        self.field.from_gauge = on
        self.gauge.blockSignals(was)

    @property
    def chosen_stage(self) -> Stage:
        """The stage chosen."""
        return STAGES[max(0, self.stage.currentIndex())]

    @property
    def chosen_instrument(self) -> int | None:
        """The instrument chosen, or None."""
        return self._ids[self._named] if self._named < len(self._ids) else None

    def choose_stage(self, stage: Stage) -> None:
        """Measure at another stage."""
        self.stage.setCurrentIndex(STAGES.index(stage))

    def choose_instrument(self, name: str) -> None:
        """Choose an instrument by its name, if the shop has it."""
        place = self.instrument.findText(name)
        if 0 <= place < len(self._ids):
            self.instrument.setCurrentIndex(place)

    def take_instrument(self, key: int) -> None:
        """Choose an instrument just added."""
        if key in self._ids:
            self.instrument.setCurrentIndex(self._ids.index(key))

    def fill_instruments(self, choices: Sequence[Choice]) -> None:
        """Offer the shop's instruments; the one chosen stays chosen while it is there."""
        chosen = self.chosen_instrument
        was = self.instrument.blockSignals(True)
        self.instrument.clear()
        self._ids = [None, *(choice.id for choice in choices)]
        self.instrument.addItem(NO_INSTRUMENT)
        for choice in choices:
            self.instrument.addItem(choice.label)
        self.instrument.addItem(NEW_INSTRUMENT)
        self._named = self._ids.index(chosen) if chosen in self._ids else 0
        self.instrument.setCurrentIndex(self._named)
        self.instrument.blockSignals(was)
        self.taken_otherwise.emit()

    def show_landing(self, stage: Stage | None, unit: str, *, thread: str | None = None) -> None:
        """The stage in hand and the unit a bare number is in; with no row in hand no value is taken.

        ``thread`` is what is written on a thread (empty: nothing), None where the row is none.
        """
        self.thread_way.show_thread(thread, unit)
        was = self.stage.blockSignals(True)
        if stage is not None:
            self.stage.setCurrentIndex(STAGES.index(stage))
        self.stage.blockSignals(was)
        self.unit.setText(unit)
        for widget in (self.field, self.stage):
            widget.setEnabled(stage is not None)

    def read_live(self, text: str, unit: str, decimal_comma: bool | None) -> None:
        """How the text reads so far, in both units; quiet while it is no size yet."""
        words = ""
        if text.strip():
            number, behind = split_taken(text)
            try:
                sizes = parse_repeats(number, unit, decimal_comma=decimal_comma)
                mean = sum(size.mm for size in sizes) / len(sizes)
                words = self.thread_way.meaning(mean, behind, decimal_comma) or "= " + show_both(mean, unit)
                if len(sizes) > 1:
                    words += f", mean of {len(sizes)}"
            except Ambiguous:
                words = "can be read in two ways; Enter asks"
            except RebuildError:
                words = ""
        self.live.setText(words)
