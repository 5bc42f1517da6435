"""The level over days: enter a reading, see whether the machine still moves, and its twist."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QGridLayout,
    QLineEdit,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.trade.results.working import joined
from rebuild.window.charts.settling_picture import SettlingPicture
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.entry.bursts_kept import HALF_TYPED, NO_ROW, keep
from rebuild.window.entry.landing_pane import LandingPane
from rebuild.window.entry.strip import LandingStrip
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.said import moment
from rebuild.words.charts import LevelWay
from rebuild.work.charts import rows_levelling
from rebuild.work.charts.rows_levelling import Levelling, LevelRow, levelling
from rebuild.work.editing.acts import remove
from rebuild.work.landings.acts import put
from rebuild.work.landings.stored import How, Stored
from rebuild.work.machines.rows_card import unit_of
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.records.rows import choices

_HEADINGS = ("Read", "Lay", "Where", "Reading", "Instrument", "Adjusted afterwards")
_UNITS = ("mm/m", "in/ft", "arcsec", "div")


class LevellingPane(LandingPane):
    """Picture above, entry and readings below."""

    shows = (rows_levelling,)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent=parent)
        self._levels: Levelling | None = None
        self._unit_for: int | None = None
        self.picture = SettlingPicture()
        self.all_days = QCheckBox("&All days, not only since the last adjustment")
        self.said = PlainLabel()
        self.said.setWordWrap(True)
        self.way = QComboBox()
        for way in LevelWay:
            self.way.addItem(way.value)
        self.place = QComboBox()
        self.place.setEditable(True)
        self.value, self.at, self.division = QLineEdit(), QLineEdit(), QLineEdit()
        self.temperature, self.adjusted = QLineEdit(), QLineEdit()
        self.unit = QComboBox()
        self.unit.addItems(list(_UNITS))
        self.instrument = QComboBox()
        self.store = QPushButton("St&ore reading")
        typed = (self.value, self.at, self.division, self.temperature, self.adjusted)
        self.trouble = PaneTrouble(desk, (self.way, self.unit, *typed), self)
        self.table = PlainTable("Level readings", _HEADINGS)
        self.table.when_empty("What the level says from end to end, day by day.")
        self.strip = LandingStrip(desk, self)
        self.working = QPushButton("&Working")
        self.strike = QPushButton("Remove &reading")
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        form = QWidget()
        grid = QGridLayout(form)
        grid.setContentsMargins(0, 0, 10, 0)
        grid.setVerticalSpacing(3)
        named = (
            ("Level lay", self.way),
            ("Where", self.place),
            ("Distance along", self.at),
            ("Reading", self.value),
            ("Unit", self.unit),
            ("One division", self.division),
            ("Instrument", self.instrument),
            ("Temperature", self.temperature),
            ("Adjusted then", self.adjusted),
        )
        for row, (words, widget) in enumerate(named):
            label = PlainLabel(words)
            label.setBuddy(widget)
            widget.setAccessibleName(words)
            grid.addWidget(label, row, 0)
            grid.addWidget(widget, row, 1)
        grid.addWidget(self.store, len(named), 1, Qt.AlignmentFlag.AlignLeft)
        grid.addWidget(self.trouble, len(named) + 1, 0, 1, 2)
        grid.setRowStretch(len(named) + 2, 1)
        self.value.setPlaceholderText("+ front high")
        self.adjusted.setPlaceholderText("what was turned after this reading")
        right = QWidget()
        column = QVBoxLayout(right)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.table, 1)
        line = QGridLayout()
        line.addWidget(self.working, 0, 0)
        line.addWidget(self.strike, 0, 1)
        line.setColumnStretch(2, 1)
        line.addWidget(self.all_days, 0, 3)
        column.addLayout(line)
        below = QSplitter(Qt.Orientation.Horizontal)
        below.addWidget(form)
        below.addWidget(right)
        below.setSizes([340, 900])
        below.setStretchFactor(1, 1)
        # Without readings there is nothing to draw: the form and the list have the room.
        self.above = above = QWidget()
        top = QVBoxLayout(above)
        top.setContentsMargins(0, 0, 0, 0)
        top.addWidget(self.picture, 1)
        top.addWidget(self.said)
        whole = QSplitter(Qt.Orientation.Vertical)
        whole.addWidget(above)
        whole.addWidget(below)
        whole.setStretchFactor(0, 1)
        whole.setStretchFactor(1, 1)
        for splitter in (below, whole):
            splitter.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(whole)
        layout.addWidget(self.strip)

    def _wire(self) -> None:
        self.way.currentIndexChanged.connect(lambda _at: self._land())
        self.place.currentTextChanged.connect(lambda _text: self._land())
        for edit in (self.value, self.at, self.division, self.temperature, self.adjusted):
            edit.returnPressed.connect(self.enter)
        self.store.clicked.connect(self.enter)
        self.working.clicked.connect(self._working)
        self.strike.clicked.connect(self._remove)
        self.all_days.toggled.connect(lambda _on: self.refresh())
        self.place.currentTextChanged.connect(self._as_last_time)

    def refresh(self) -> None:
        """Read the level again."""
        if not self._desk.is_open or self._desk.machine_id is None:
            self._levels = None
            self.above.hide()
            self.table.plain.fill([])
            self.picture.show_levels(None)
            self.said.setText("")
            return
        with self._desk.store.read() as connection:
            self._levels = levelling(connection, self._desk.machine_id)
            tools = choices(connection, "instrument", 0)
            own = unit_of(connection, self._desk.machine_id)
        if self._desk.machine_id != self._unit_for:
            self._unit_for = self._desk.machine_id
            slope = "in/ft" if own == "in" else "mm/m"
            self.unit.setCurrentText(slope)
            self.division.setPlaceholderText(f"as {'0.0005' if own == 'in' else '0.02'} {slope}")
        self.at.setPlaceholderText(f"{self._levels.lying.along}, from the {self._levels.lying.ends[0]}")
        self._offer((tools and [(tool.label, tool.id) for tool in tools]) or [])
        self.table.plain.fill([(row.id, _cells(row)) for row in reversed(self._levels.rows)])
        self.picture.show_levels(self._levels, whole=self.all_days.isChecked())
        self.said.setText(_said(self._levels))
        self.above.setVisible(bool(self._levels.rows))
        self._land()

    def _offer(self, tools: list[tuple[str, int]]) -> None:
        chosen, typed = self.instrument.currentData(), self.place.currentText()
        self.instrument.clear()
        self.instrument.addItem("", None)
        for label, key in tools:
            self.instrument.addItem(label, key)
        self.instrument.setCurrentIndex(max(0, self.instrument.findData(chosen)))
        self.place.clear()
        known = dict.fromkeys(row.place for row in self._levels.rows) if self._levels else {}
        usual = self._levels.lying.ends if self._levels is not None and len(known) < 2 else ()
        self.place.addItems(list(dict.fromkeys((*known, *usual))))
        self.place.setEditText(typed or self.place.itemText(0))
        self._as_last_time(self.place.currentText())

    def _as_last_time(self, place: str) -> None:
        """Instrument, division and distance begin as they were at this place the last time."""
        rows = self._levels.rows if self._levels is not None else ()
        last = next((row for row in reversed(rows) if row.place == place), None)
        if last is None or self.at.isModified() or self.division.isModified():
            return
        self.at.setText(last.at_typed)
        self.division.setText(last.division)
        if self.instrument.currentData() is None:
            self.instrument.setCurrentIndex(max(0, self.instrument.findText(last.instrument)))

    def enter(self) -> None:
        """Store what is typed; trouble is said beneath and the text stays."""
        landing = self._landing()
        if landing is None or not self.value.text().strip():
            return
        try:
            stored = put(self._desk.store, self.value.text(), landing, self.how())
        except RebuildError as trouble:
            self.trouble.tell(trouble)
            self._desk.say(str(trouble), Say.TROUBLE)
            return
        self._desk.remember(stored)
        self._desk.say(f"{stored.typed} stored on {landing.words}.")
        self.value_put(stored)

    # Where the next value lands

    def _landing(self) -> Landing | None:
        """The place on the bed and the way the level lies there; none without a machine or a place."""
        machine, place = self.machine, self.place.currentText().strip()
        if machine is None or not place:
            return None
        way = self.way.currentText()
        return Landing(Surface.LEVEL, (machine,), way, place, "  ·  ".join(("level", place, way)))

    def stand_on(self, landing: Landing) -> bool:
        """A place on the bed, the level lying as it lay; a value half typed stays in hand."""
        if landing.surface is not Surface.LEVEL or self.value.text().strip():
            return False
        self.way.setCurrentText(landing.stage)
        self._next_place(landing.called)
        return True

    def field_in_hand(self) -> QWidget | None:
        """Where a value typed by hand goes."""
        return self.value

    def take_burst(self, text: str) -> None:
        """A value sent: to the place and way chosen; with none, or past a value half typed, it is kept."""
        if self._desk.landing is None or self.value.text().strip():
            why = NO_ROW if self._desk.landing is None else HALF_TYPED
            keep(self._desk, text, "the levelling", self.how(), why)
            return
        self.value.setText(text)
        self.enter()

    def put_by(self) -> None:
        """The window closes: a value half typed waits among those without a row."""
        if self.value.text().strip() and self._desk.is_open:
            keep(self._desk, self.value.text(), "the levelling", self.how())

    def how(self) -> How:
        """How a value is taken now."""
        return How(
            self.instrument.currentData(),
            self.temperature.text(),
            over=self.at.text(),
            division=self.division.text(),
            adjusted=self.adjusted.text(),
            unit=self.unit.currentText(),
        )

    def value_put(self, stored: Stored) -> None:
        """On to the next place along; behind the last one to the first, the level lying the other way."""
        self.trouble.end()
        self.value.clear()
        self.adjusted.clear()
        at = self.place.findText(stored.landing.called)
        if at < 0:
            return
        if at + 1 == self.place.count():
            self.way.setCurrentIndex((self.way.currentIndex() + 1) % self.way.count())
        self._next_place(self.place.itemText((at + 1) % self.place.count()))

    def _next_place(self, place: str) -> None:
        """The distance and the division are those of the place, not of the one before."""
        self.at.setModified(False)
        self.division.setModified(False)
        self.place.setEditText(place)

    def _working(self) -> None:
        if self._levels is None or not self._levels.series:
            return
        parts = [one.settled.working for one in self._levels.series]
        if self._levels.twist is not None:
            parts.append(self._levels.twist.working)
        self._desk.ask_working(joined("Level over days", parts))

    def _remove(self) -> None:
        key = self.table.chosen()
        if key is not None:
            self._desk.attempt(
                lambda: remove(self._desk.store, "level_reading", [key]),
                "Reading removed; Ctrl+Z brings it back.",
            )


def _cells(row: LevelRow) -> tuple[str, ...]:
    at = f", {row.at_typed}" if row.at_typed else ""
    return (
        moment(row.taken_at),
        row.way.value,
        f"{row.place}{at}",
        row.typed,
        row.instrument,
        row.adjusted,
    )


def _said(levels: Levelling) -> str:
    lines = [f"{one.called.capitalize()}: {one.settled.value.text}." for one in levels.series]
    if levels.twist is not None:
        lines.append(f"{levels.twist.value.text.capitalize()}.")
    elif levels.rows:
        lines.append(f"▸ {levels.twist_trouble}")
    lines.append(
        "The level need not read zero: the twist is what is taken out. Look again after hours, days and a month."
    )
    return "\n".join(lines)
