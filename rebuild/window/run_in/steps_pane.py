"""The run-in: steps with their speeds, and the temperature of each bearing read into the chosen one."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFrame,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import BadEntry, RebuildError
from rebuild.trade.results.working import joined
from rebuild.trade.run_in.kinds import rate_unit
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.gauge_keys import GIVES_BACK
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.entry.bursts_kept import HALF_TYPED, NO_ROW, keep
from rebuild.window.entry.landing_pane import LandingPane
from rebuild.window.entry.strip import LandingStrip
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.layout.wrapped_row import WrappedRow
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.run_in.heat_picture import HeatPicture
from rebuild.window.run_in.new_check import new_step, run_once_more
from rebuild.window.run_in.step_words import HEADINGS, bearings, cells, standing_words
from rebuild.window.run_in.temperature_line import TemperatureLine, typed_number
from rebuild.window.steps.gate_row import GateRow
from rebuild.words.counted import counted
from rebuild.words.run_in import RunState
from rebuild.work.editing.acts import remove
from rebuild.work.landings.acts import put
from rebuild.work.landings.stored import How, Stored
from rebuild.work.power import rows as power_rows
from rebuild.work.power.rows import Stands, before_power
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.records.rows_settings import decimal_comma, owner
from rebuild.work.run_in import rows as run_in_rows
from rebuild.work.run_in.acts import begin_step, end_step, lay_out_run
from rebuild.work.run_in.rows import RunRow, kind_of, run_steps


class StepsPane(LandingPane):
    """Steps above, temperatures below, the chosen step's fields at the right."""

    shows = (run_in_rows, power_rows)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent=parent)
        self._rows: dict[int, RunRow] = {}
        self._unit = rate_unit("")
        self.stands = PlainLabel()
        self.stands.setWordWrap(True)
        self.table = PlainTable("Run-in steps", HEADINGS)
        self.picture = HeatPicture()
        self.said = PlainLabel()
        self.said.setWordWrap(True)
        self.form = EditForm(desk, "run_step", self, most_columns=1)
        self.slowest, self.top = QLineEdit(), QLineEdit()
        self.buttons = {
            name: QPushButton(words)
            for name, words in (
                ("plan", "&Lay out plan"),
                ("new", "&New step…"),
                ("begin", "&Begin"),
                ("run", "&Run through"),
                ("stopped", "&Stopped"),
                ("again", "Run a&gain…"),
                ("working", "&Working"),
                ("remove", "Remo&ve step"),
                ("store", "Store &temperature"),
            )
        }
        self.line = TemperatureLine(self.buttons["store"])
        self.bearing, self.minute, self.celsius = self.line.bearing, self.line.minute, self.line.celsius
        self.trouble = PaneTrouble(desk, (self.minute, self.celsius), self)
        self.strip = LandingStrip(desk, self)
        self.row = GateRow(desk, self)
        self.table.when_empty(
            "Speeds run in turn, with the bearing temperature at each. Say slowest and top speed, then:",
            "Lay out the plan",
            self.buttons["plan"].click,
        )
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        plan = WrappedRow()
        self.top_label = PlainLabel()
        for words, edit in (("Slowest", self.slowest), ("Top speed", self.top)):
            label = self.top_label if edit is self.top else PlainLabel(words)
            label.setBuddy(edit)
            edit.setAccessibleName(words)
            edit.setFixedWidth(edit.fontMetrics().averageCharWidth() * 11)
            plan.addWidget(label)
            plan.addWidget(edit)
        for name in ("plan", "new", "begin", "run", "stopped", "again", "working", "remove"):
            plan.addWidget(self.buttons[name])
        for edit in (self.slowest, self.top):  # a gauge sends temperatures, no speeds
            edit.setProperty(GIVES_BACK, True)
        below = QWidget()
        column = QVBoxLayout(below)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.picture, 1)
        column.addWidget(self.said)
        column.addWidget(self.line)
        column.addWidget(self.trouble)
        column.addWidget(self.strip)
        left = QSplitter(Qt.Orientation.Vertical)
        left.addWidget(self.table)
        left.addWidget(below)
        left.setSizes([240, 420])
        scroll = QScrollArea()
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        whole = QSplitter(Qt.Orientation.Horizontal)
        whole.addWidget(left)
        whole.addWidget(scroll)
        whole.setSizes([900, 360])
        whole.setStretchFactor(0, 1)
        for splitter in (left, whole):
            splitter.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(plan)
        layout.addWidget(self.stands)
        layout.addWidget(self.row)
        layout.addWidget(whole, 1)

    def _wire(self) -> None:
        self.table.selectionModel().selectionChanged.connect(lambda _new, _old: self._show())
        self.buttons["plan"].clicked.connect(self._plan)
        self.buttons["new"].clicked.connect(lambda: new_step(self._desk, self, self.table.choose))
        self.buttons["begin"].clicked.connect(self._begin)
        self.buttons["again"].clicked.connect(self._again)
        self.buttons["run"].clicked.connect(lambda: self._end(RunState.RUN))
        self.buttons["stopped"].clicked.connect(lambda: self._end(RunState.STOPPED))
        self.buttons["working"].clicked.connect(self._working)
        self.buttons["remove"].clicked.connect(self._remove)
        self.line.aimed.connect(self._land)
        self.line.entered.connect(self.enter)

    def refresh(self) -> None:
        """Read the steps again; the chosen one stays chosen."""
        chosen = self.table.chosen()
        rows: list[RunRow] = []
        standing: list[Stands] = []
        kind = ""
        if self._desk.is_open and self._desk.machine_id is not None:
            with self._desk.store.read() as connection:
                rows = run_steps(connection, self._desk.machine_id)
                kind = kind_of(connection, self._desk.machine_id)
                standing = before_power(connection, self._desk.machine_id)
        self.stands.setText(standing_words(standing) if self._desk.machine_id is not None else "")
        self._unit = rate_unit(kind)
        self.top_label.setText(f"Top speed, {self._unit}")
        self._rows = {row.id: row for row in rows}
        self.table.plain.fill([(row.id, cells(row, self._unit)) for row in rows])
        if chosen in self._rows:
            self.table.choose(chosen)
        elif rows:
            self.table.selectRow(0)
        self.line.offer(bearings(rows, kind))
        self._show()

    def _show(self) -> None:
        row = self._rows.get(self.table.chosen() or 0)
        self.picture.show_step(row)
        self.form.show_record(row.id if row is not None else None)
        for name in ("begin", "run", "stopped", "again", "working", "remove", "store"):
            self.buttons[name].setEnabled(row is not None)
        self.buttons["begin"].setEnabled(row is not None and row.state is RunState.TO_RUN)
        said = (
            [f"{course.bearing}: {course.heated.value.text}." for course in row.courses]
            if row is not None
            else []
        )
        self.said.setText("\n".join(said))
        self._land()

    def _plan(self) -> None:
        machine = self._desk.machine_id
        if machine is None:
            return
        comma = decimal_comma(self._desk.store)
        made = self._desk.attempt(
            lambda: lay_out_run(
                self._desk.store,
                machine,
                typed_number(self.slowest, "Slowest speed", comma),
                typed_number(self.top, "Top speed", comma),
            )
        )
        if made:
            self._desk.say(f"{counted(len(made), 'step')} laid out.")
            self.table.choose(made[0])

    # Where the next value lands

    def _landing(self) -> Landing | None:
        """The chosen step and bearing, at the minute typed."""
        row, bearing = self._rows.get(self.table.chosen() or 0), self.bearing.currentText().strip()
        if row is None or not bearing:
            return None
        minute = self.minute.text().strip()
        at = f"at {minute} min" if minute else "type the minute"
        return Landing(Surface.RUN_IN, (row.id,), minute, bearing, "  ·  ".join((row.name, bearing, at)))

    def stand_on(self, landing: Landing) -> bool:
        """A step's bearing at its minute; a temperature half typed stays in hand."""
        if (
            landing.surface is not Surface.RUN_IN
            or landing.row[0] not in self._rows
            or self.celsius.text().strip()
        ):
            return False
        self.table.choose(landing.row[0])
        self.minute.setText(landing.stage)
        self.bearing.setEditText(landing.called)
        return True

    def field_in_hand(self) -> QWidget | None:
        """Where a value typed by hand goes."""
        return self.celsius

    def take_burst(self, text: str) -> None:
        """A gauge's value: to the chosen step and bearing; with none, or past one half typed, it is kept."""
        if self._desk.landing is None or self.celsius.text().strip():
            why = NO_ROW if self._desk.landing is None else HALF_TYPED
            keep(self._desk, text, "the run-in", None, why)
            return
        self.celsius.setText(text)
        self.enter()

    def how(self) -> How:
        """How a value is taken now: at the minute typed, when it is one."""
        try:
            return How(minute=self.line.at_minute(decimal_comma(self._desk.store)))
        except BadEntry:
            return How()

    def value_put(self, stored: Stored) -> None:
        """On to the next bearing at this minute; behind the last one the minute is asked for again."""
        self.line.on_from(stored.landing.called)

    def enter(self) -> None:
        """Store a temperature; trouble is said beneath and the text stays."""
        landing = self._landing()
        if landing is None or not self.celsius.text().strip():
            return
        try:
            how = How(minute=self.line.at_minute(decimal_comma(self._desk.store)))
            stored = put(self._desk.store, self.celsius.text(), landing, how)
        except RebuildError as trouble:
            self.trouble.tell(trouble)
            self._desk.say(str(trouble), Say.TROUBLE)
            return
        self.trouble.end()
        self.celsius.clear()
        self._desk.remember(stored)
        self._tell_twice(stored)
        self.value_put(stored)
        self.line.next_field().setFocus()

    def _tell_twice(self, stored: Stored) -> None:
        """The same bearing read twice at one minute is no correction: both stand in the course, and it is said."""
        row, minute = self._rows.get(stored.landing.row[0]), stored.how.minute
        for course in row.courses if row is not None else ():
            there = zip(course.ids, course.minutes, course.celsius, strict=True)
            before = [f"{warm:g} °C" for key, at, warm in there if at == minute and key != stored.id]
            if course.bearing == stored.landing.called and before:
                self._desk.say(
                    f"{stored.typed} stored on {stored.landing.words}. {' and '.join(before)} stands there too; "
                    "Ctrl+Z takes the new one back."
                )

    def _begin(self) -> None:
        key = self.table.chosen()
        if key is not None:
            self.row.attempt(lambda why: begin_step(self._desk.store, key, reason=why, by=self._by()))

    def _end(self, state: RunState) -> None:
        key = self.table.chosen()
        if key is not None:
            self.row.attempt(lambda why: end_step(self._desk.store, key, state, reason=why, by=self._by()))

    def _by(self) -> str:
        return owner(self._desk.store)

    def _again(self) -> None:
        key = self.table.chosen()
        if key is not None:
            run_once_more(self._desk, self, key, self.table.choose)

    def _working(self) -> None:
        row = self._rows.get(self.table.chosen() or 0)
        if row is not None and row.courses:
            self._desk.ask_working(joined(row.name, [course.heated.working for course in row.courses]))

    def _remove(self) -> None:
        key = self.table.chosen()
        if key is not None:
            self.form.show_record(None)
            self._desk.attempt(
                lambda: remove(self._desk.store, "run_step", [key]), "Removed; Ctrl+Z brings it back."
            )
