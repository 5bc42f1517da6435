"""The tests of a chart: the table on the left, the chosen position on the right."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSplitter, QVBoxLayout, QWidget

from rebuild.store.changed import Changed
from rebuild.window.charts.added import ask_for_test, new_position
from rebuild.window.charts.panel import PositionPanel
from rebuild.window.charts.table import ChartTable
from rebuild.window.desk.desk import Desk
from rebuild.window.entry.bursts_kept import HALF_TYPED, NO_ROW, keep
from rebuild.window.entry.landing_pane import LandingPane
from rebuild.window.entry.strip import LandingStrip
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.charts import ChartStage
from rebuild.words.counted import counted
from rebuild.work.charts import rows as chart_rows
from rebuild.work.charts.acts import lay_out
from rebuild.work.charts.rows import chart, reading_working
from rebuild.work.charts.rows_tests import LineRow, TestRow
from rebuild.work.editing.acts import remove
from rebuild.work.landings.stored import How, Stored
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.records import rows_settings
from rebuild.work.records.rows_settings import verdict_rule


class TestsPane(LandingPane):
    """Table and panel."""

    shows = (chart_rows, rows_settings)
    __test__ = False

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent=parent)
        self._where: dict[int, tuple[TestRow, LineRow]] = {}
        self.table = ChartTable(self)
        self.panel = PositionPanel(desk)
        self.foot = PlainLabel()
        self.strip = LandingStrip(desk, self)
        self._began = False
        self._buttons = {
            name: QPushButton(words)
            for name, words in (
                ("usual", "&Usual tests"),
                ("new", "&New test…"),
                ("position", "New p&osition…"),
                ("working", "&Working"),
                ("strike", "Remove rea&ding"),
                ("remove", "Remove &test"),
            )
        }
        self.table.when_empty(
            "Geometry tests of the machine, as found and after.",
            "Put the usual tests on it",
            self._buttons["usual"].click,
        )
        self._lay_out()
        self._wire()
        desk.unit_changed.connect(self.look_again)

    def _lay_out(self) -> None:
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.table, 1)
        column.addWidget(self.foot)
        row = QHBoxLayout()
        for button in self._buttons.values():
            row.addWidget(button)
        row.addStretch(1)
        column.addLayout(row)
        column.addWidget(self.strip)
        whole = QSplitter(Qt.Orientation.Horizontal)
        whole.addWidget(left)
        whole.addWidget(self.panel)
        whole.setSizes([812, 448])
        whole.setStretchFactor(0, 3)
        whole.setStretchFactor(1, 2)
        whole.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(whole)

    def _wire(self) -> None:
        self.table.selectionModel().selectionChanged.connect(lambda _new, _old: self._show())
        self.table.doubleClicked.connect(lambda _index: self.panel.entry.value.setFocus())
        self.panel.entry.stored.connect(self.value_put)
        self.panel.entry.stage.currentIndexChanged.connect(lambda _at: self._land())
        self._buttons["usual"].clicked.connect(self._lay_out_usual)
        self._buttons["new"].clicked.connect(lambda: ask_for_test(self._desk, self, self.choose_test))
        self._buttons["position"].clicked.connect(self._new_position)
        self._buttons["working"].clicked.connect(self._working)
        self._buttons["strike"].clicked.connect(self._remove_reading)
        self._buttons["remove"].clicked.connect(self._remove_test)
        enter = QShortcut(QKeySequence(Qt.Key.Key_Return), self.table)
        enter.setContext(Qt.ShortcutContext.WidgetShortcut)
        enter.activated.connect(self.panel.entry.value.setFocus)

    def mend(self, changed: Changed) -> None:
        """The instruments are offered anew only when they have changed."""
        if changed.touches("instrument"):
            self.panel.entry.offer_instruments()
        self._read()

    def refresh(self) -> None:
        """Read the chart again; the chosen position stays chosen."""
        self.panel.entry.offer_instruments()
        self._read()

    def _read(self) -> None:
        chosen = self.table.chosen()
        if not self._desk.is_open or self._desk.machine_id is None:
            tests: list[TestRow] = []
        else:
            with self._desk.store.read() as connection:
                tests = chart(connection, self._desk.machine_id, verdict_rule(self._desk.store))
        self._where = {line.id: (test, line) for test in tests for line in test.lines}
        self.table.chart.show_chart(tests, self._desk)
        if chosen in self._where:
            self.table.choose(chosen)
        elif self._where and not self._began:
            self._began = True
            self.table.selectRow(0)
        self.foot.setText(_foot(tests))
        self._show()

    def _show(self) -> None:
        key = self.table.chosen()
        test, line = self._where.get(key, (None, None)) if key is not None else (None, None)
        self.panel.show_position(test, line)
        self._land()
        for name in ("position", "remove", "working", "strike"):
            self._buttons[name].setEnabled(line is not None)

    # Where the next value lands

    def _landing(self) -> Landing | None:
        return self.panel.entry.landing()

    def stand_on(self, landing: Landing) -> bool:
        """A position at its stage; a value half typed on another stays in hand."""
        entry = self.panel.entry
        if (
            landing.surface is not Surface.CHART
            or landing.row[0] not in self._where
            or entry.value.text().strip()
        ):
            return False
        self.table.choose(landing.row[0])
        entry.stage.setCurrentText(landing.stage)
        return True

    def field_in_hand(self) -> QWidget | None:
        """Where a value typed by hand goes."""
        return self.panel.entry.value

    def take_burst(self, text: str) -> None:
        """A gauge's value: to the chosen position; with none, or past a value half typed, it is kept."""
        entry = self.panel.entry
        if self._desk.landing is None or entry.value.text().strip():
            why = NO_ROW if self._desk.landing is None else HALF_TYPED
            keep(self._desk, text, "the test chart", entry.how(), why)
            return
        entry.value.setText(text)
        entry.enter()
        if entry.trouble:
            entry.value.setFocus()

    def how(self) -> How:
        """How a value is taken now."""
        return self.panel.entry.how()

    def value_put(self, stored: Stored) -> None:
        """On to the next position not read at this stage, round once; with all of them read, to the one behind.

        Behind a position that was read anew it is the very next one.
        """
        here, stage, order = stored.landing.row[0], ChartStage(stored.landing.stage), list(self._where)
        at = order.index(here) + 1 if here in order else 0
        unread = [key for key in (*order[at:], *order[:at]) if self._where[key][1].newest(stage) is None]
        anew = self._tell_anew(stored, stage)
        ahead = order[at : at + 1] if anew else []
        ahead = ahead or [key for key in unread if key != here] or order[at : at + 1]
        if ahead:
            self.table.choose(ahead[0])
        else:
            self.table.clearSelection()
            self._desk.say("It was the last position: choose another.")

    def _tell_anew(self, stored: Stored, stage: ChartStage) -> bool:
        """Say which reading of this stage spoke here before; False when there was none."""
        _test, line = self._where.get(stored.landing.row[0], (None, None))
        before = [row for row in line.readings if row.stage is stage and row.id != stored.id] if line else []
        if before:
            self._desk.say(
                f"{stored.typed} stored on {stored.landing.words}. It speaks in place of {before[0].typed}, "
                "which stays in the list."
            )
        return bool(before)

    def choose_test(self, test_id: int) -> None:
        """Choose the first position of a test."""
        for key, (test, _line) in self._where.items():
            if test.id == test_id:
                self.table.choose(key)
                return

    def _lay_out_usual(self) -> None:
        machine = self._desk.machine_id
        if machine is not None:
            made = self._desk.attempt(lambda: lay_out(self._desk.store, machine))
            if made is not None:
                self._desk.say(
                    f"{counted(len(made), 'test')} put on the chart."
                    if made
                    else "They are all on the chart already."
                )

    def _chosen(self) -> tuple[TestRow, LineRow] | None:
        key = self.table.chosen()
        return self._where.get(key) if key is not None else None

    def _new_position(self) -> None:
        chosen = self._chosen()
        if chosen is not None:
            new_position(self._desk, self, chosen[0], self.table.choose)

    def _working(self) -> None:
        chosen = self._chosen()
        if chosen is None:
            return
        key = self.panel.readings.chosen()
        newest = chosen[1].after or chosen[1].found
        if key is None and newest is None:
            self._desk.say("Nothing has been read here yet.")
            return
        wanted = key if key is not None else newest.id if newest is not None else 0
        with self._desk.store.read() as connection:
            working = self._desk.attempt(
                lambda: reading_working(connection, wanted, verdict_rule(self._desk.store))
            )
        if working is not None:
            self._desk.ask_working(working)

    def _remove_reading(self) -> None:
        key = self.panel.readings.chosen()
        if key is None:
            self._desk.say("Choose the reading in the list on the right first.")
            return
        self._desk.attempt(
            lambda: remove(self._desk.store, "chart_reading", [key]),
            "Reading removed; Ctrl+Z brings it back.",
        )

    def _remove_test(self) -> None:
        chosen = self._chosen()
        if chosen is not None:
            self._desk.attempt(
                lambda: remove(self._desk.store, "chart_test", [chosen[0].id]),
                "Test removed; Ctrl+Z brings it back.",
            )


def _foot(tests: list[TestRow]) -> str:
    lines = [line for test in tests for line in test.lines]
    if not lines:
        return "No tests yet: put the usual ones of this machine on the chart, or add your own."
    found, after = (
        sum(line.found is not None for line in lines),
        sum(line.after is not None for line in lines),
    )
    edited = sum(line.edited for line in lines)
    own = f", {counted(edited, 'limit')} changed here" if edited else ""
    return (
        f"{counted(len(tests), 'test')}, {counted(len(lines), 'position')}: "
        f"{found} read as found, {after} after{own}."
    )
