"""The Survey page: surveys on the left, readings in the middle, plot and results beside."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QAbstractItemDelegate,
    QApplication,
    QCheckBox,
    QComboBox,
    QInputDialog,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QTableView,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.store.changed import Changed
from rebuild.trade.geometry.straightness import Reference
from rebuild.trade.sizes.show import exact_text
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.entry.bursts_kept import keep
from rebuild.window.entry.landing_pane import LandingPane
from rebuild.window.entry.strip import LandingStrip
from rebuild.window.labels.printing import print_survey
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.layout.wrapped_row import WrappedRow
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.ruled import ruled
from rebuild.window.photos.attached import AttachedPhotos
from rebuild.window.readings.cell_editor import CellDelegate, CellEditor
from rebuild.window.surveys.curve_sets import Shown
from rebuild.window.surveys.curves import Curves
from rebuild.window.surveys.model import RunModel
from rebuild.window.surveys.new_survey import SurveyDialog
from rebuild.window.surveys.plate_plan import PlatePlan
from rebuild.window.surveys.results import Results
from rebuild.window.surveys.station_table import StationTable
from rebuild.words.counted import counted
from rebuild.words.surveys import BETWEEN_STATIONS, SurveyMethod
from rebuild.work.editing.acts import edit, remove
from rebuild.work.landings.acts import put
from rebuild.work.landings.stored import How, Stored, replaces
from rebuild.work.photos import rows_shown
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.readings.pasted import in_unit_named, unit_named, units_said, without_heading
from rebuild.work.records import rows_settings
from rebuild.work.records.rows_settings import verdict_rule
from rebuild.work.surveys import rows as survey_rows
from rebuild.work.surveys.acts import add_line, enter_reading, enter_run
from rebuild.work.surveys.data import SurveyData, SurveyResult
from rebuild.work.surveys.rows import survey_data, surveys
from rebuild.work.surveys.worked import work_out

_ID = Qt.ItemDataRole.UserRole
_UNITS = {"in": "inches", "in/ft": "inches a foot"}


class SurveyPage(LandingPane):
    """Way and plate surveys of the chosen machine."""

    shows = (survey_rows, rows_settings, rows_shown)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Survey", parent)
        self._result: SurveyResult | None = None
        self._stage = ""
        self._stays = False
        self.list = ruled(QListWidget(), name_first=True)
        self.list.setAccessibleName("Surveys")
        self.reference = QComboBox()
        self.reference.setAccessibleName("Reference")
        for reference in (Reference.MINIMUM_ZONE, Reference.LEAST_SQUARES, Reference.ENDS):
            self.reference.addItem(reference.value, reference)
        self.two_runs = QCheckBox("There and &back")
        self.model = RunModel(self._enter, self)
        self._columns = 0
        self.table = QTableView()
        self.table.setAccessibleName("Readings")
        self.table.setModel(self.model)
        letters = self.table.fontMetrics()
        self.table.horizontalHeader().setDefaultSectionSize(letters.averageCharWidth() * 13)
        self.table.verticalHeader().setDefaultSectionSize(letters.lineSpacing() + 10)
        self.table.setItemDelegate(CellDelegate(self._take, self._park, self.table, self._move_on))
        self.strip = LandingStrip(desk, self)
        self.photos = AttachedPhotos(desk, "survey", "Photos", self)
        self.heading = PlainLabel()
        self.heading.setWordWrap(True)
        self.shown = QComboBox()
        self.shown.setAccessibleName("Picture")
        for shown in Shown:
            self.shown.addItem(shown.value, shown)
        self.curves, self.plan = Curves(), PlatePlan()
        self.pictures = QStackedWidget()
        self.results, self.stations = Results(), StationTable()
        self.tables = QTabWidget()
        self.tables.setAccessibleName("Tables of the survey")
        self.tables.tabBar().setAccessibleName("Which table")
        self.tables.setMinimumHeight(self.fontMetrics().lineSpacing() * 9)
        self._buttons = {
            name: QPushButton(words)
            for name, words in (
                ("new", "&New survey…"),
                ("setup", "Set-&up…"),
                ("line", "New l&ine…"),
                ("blank", "Blan&k sheet…"),
                ("working", "&Working"),
                ("remove", "&Remove"),
            )
        }
        EmptyState(
            self.list, "Ways and plates surveyed, before and after.", "New survey", self._buttons["new"].click
        )
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        left = QWidget()
        side = QVBoxLayout(left)
        side.setContentsMargins(0, 0, 0, 0)
        side.addWidget(self.list)
        for name in ("new", "setup", "line", "blank", "remove"):
            side.addWidget(self._buttons[name])
        side.addWidget(self.photos)
        row = WrappedRow()
        for widget in (
            PlainLabel("Against"),
            self.reference,
            PlainLabel("Picture"),
            self.shown,
            self.two_runs,
            self._buttons["working"],
        ):
            row.addWidget(widget)
        right = QSplitter(Qt.Orientation.Vertical)
        self.upper = upper = QSplitter(Qt.Orientation.Horizontal)
        for picture in (self.curves, self.plan):
            self.pictures.addWidget(picture)
        self.tables.addTab(self.results, "&Lines")
        self.tables.addTab(self.stations, "St&ations")
        for part, stretch in ((self.table, 2), (self.pictures, 3)):
            upper.addWidget(part)
            upper.setStretchFactor(upper.count() - 1, stretch)
        right.addWidget(upper)
        right.addWidget(self.tables)
        right.setStretchFactor(0, 4)
        right.setStretchFactor(1, 2)
        body = QWidget()
        middle = QVBoxLayout(body)
        middle.setContentsMargins(0, 0, 0, 0)
        middle.addLayout(row)
        middle.addWidget(self.heading)
        middle.addWidget(right, 1)
        middle.addWidget(self.strip)
        whole = QSplitter(Qt.Orientation.Horizontal)
        whole.addWidget(left)
        whole.addWidget(body)
        whole.setSizes([230, 1000])
        whole.setStretchFactor(1, 1)
        for splitter in (upper, right, whole):
            splitter.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addWidget(whole)

    def _wire(self) -> None:
        self._desk.unit_changed.connect(self.look_again)
        self.list.currentItemChanged.connect(self._show)
        self.table.selectionModel().currentChanged.connect(lambda _new, _old: self._land())
        self.model.modelReset.connect(self._land)
        self.reference.currentIndexChanged.connect(self._show)
        self.shown.currentIndexChanged.connect(self._show)
        self.two_runs.toggled.connect(self._show)
        self.table.horizontalHeader().sectionDoubleClicked.connect(self._rename)
        self._buttons["new"].clicked.connect(self.new_survey)
        self._buttons["setup"].clicked.connect(self._set_up)
        self._buttons["line"].clicked.connect(self._new_line)
        self._buttons["working"].clicked.connect(self._open_working)
        self._buttons["blank"].clicked.connect(self.print_blank)
        self._buttons["remove"].clicked.connect(self._remove)
        QShortcut(
            QKeySequence.StandardKey.Paste, self.table, self.paste, context=Qt.ShortcutContext.WidgetShortcut
        )

    def mend(self, changed: Changed) -> None:
        """A reading or the rule moves the chosen survey only."""
        self.refresh() if changed.touches("survey", "survey_line") else self._show()

    def current_id(self) -> int | None:
        """The chosen survey."""
        item = self.list.currentItem()
        return int(item.data(_ID)) if item is not None else None

    def show_row(self, _table: str, key: int) -> None:
        """Choose one survey."""
        for at in range(self.list.count()):
            if self.list.item(at).data(_ID) == key:
                self.list.setCurrentRow(at)

    def refresh(self) -> None:
        """Read the list again."""
        here = self.current_id()
        self.list.blockSignals(True)
        self.list.clear()
        if self._desk.is_open and self._desk.machine_id is not None:
            with self._desk.store.read() as connection:
                rows = surveys(connection, self._desk.machine_id)
            for row in rows:
                item = QListWidgetItem(f"{row.name}\n{row.method.value}, {row.stage.value}")
                item.setData(_ID, row.id)
                self.list.addItem(item)
                if row.id == here:
                    self.list.setCurrentItem(item)
            if self.list.currentItem() is None and rows:
                self.list.setCurrentRow(0)
        self.list.blockSignals(False)
        self._show()

    def _give_room(self) -> None:
        """The readings as wide as their lines, up to half: a line cut at the edge is read as another's."""
        columns = self.model.columnCount()
        if columns == self._columns:
            return
        self._columns = columns
        beside = self.table.verticalHeader().sizeHint().width() + 2 * self.table.frameWidth()
        bar = self.table.verticalScrollBar().sizeHint().width()
        wanted = beside + bar + columns * self.table.horizontalHeader().defaultSectionSize()
        whole = sum(self.upper.sizes())
        wide = min(wanted, whole // 2)
        self.upper.setSizes([wide, whole - wide])

    def _show(self) -> None:
        key = self.current_id()
        self.photos.show_row(key)
        data, before = self._read(key) if key is not None and self._desk.is_open else (None, None)
        for name in ("setup", "line", "blank", "working", "remove"):
            self._buttons[name].setEnabled(data is not None)
        if data is None:
            self._result = None
            self.model.show_data(None, two_runs=False, by_steps=True)
            self.heading.setText("No survey yet: New survey sets one up.")
            self.curves.show_results(None, None, "mm")
            self.plan.show_plate(None, "mm")
            self._show_tables(None, "mm")
            return
        has_back = any(line.runs.get(2) for line in data.lines)
        is_plate = data.method is SurveyMethod.PLATE
        self.model.show_data(
            data,
            two_runs=has_back or (not is_plate and self.two_runs.isChecked()),
            by_steps=data.method in BETWEEN_STATIONS,
        )
        self._give_room()
        self._stage = data.stage.value
        rule = verdict_rule(self._desk.store)
        reference = Reference(self.reference.currentData())
        self._result = work_out(data, reference, rule)
        unit = self._unit(data)
        self.heading.setText(_heading(data))
        compared = work_out(before, reference, rule) if before else None
        self.curves.show_results(self._result, compared, unit, Shown(self.shown.currentData()))
        self.plan.show_plate(self._result.plate, unit)
        self.pictures.setCurrentWidget(self.plan if self._result.plate is not None else self.curves)
        self._show_tables(self._result, unit)

    def _show_tables(self, result: SurveyResult | None, unit: str) -> None:
        self.results.show_result(result, unit)
        self.stations.show_result(result, unit)

    def _read(self, key: int) -> tuple[SurveyData, SurveyData | None]:
        with self._desk.store.read() as connection:
            data = survey_data(connection, key)
            return data, survey_data(connection, data.before_id) if data.before_id is not None else None

    def _unit(self, data: SurveyData) -> str:
        return self._desk.unit_for(own_unit(data))

    # Where the next value lands

    def _landing(self) -> Landing | None:
        return self._landing_at(self.table.currentIndex())

    def _landing_at(self, index: QModelIndex | QPersistentModelIndex) -> Landing | None:
        """The place of a cell, or None."""
        key, item = self.model.column_key(index.column()), self.list.currentItem()
        if not index.isValid() or key is None or item is None:
            return None
        name, stage = item.text().split("\n")[0], self._stage
        across = self.model.headerData(index.column(), Qt.Orientation.Horizontal)
        down = self.model.headerData(index.row(), Qt.Orientation.Vertical)
        words = "  ·  ".join(str(word) for word in (name, across, down, stage) if word)
        return Landing(Surface.SURVEY, (*key, index.row()), stage, words=words)

    def stand_on(self, landing: Landing) -> bool:
        """The cell of a place, when its survey is the one shown."""
        if landing.surface is not Surface.SURVEY:
            return False
        line_id, run, place = landing.row
        column = self.model.column_of(line_id, run)
        if column < 0:
            return False
        self._stays = False
        self.table.setCurrentIndex(self.model.index(place, column))
        return True

    def _enter(self, line_id: int, place: int, text: str, run: int) -> bool:
        """Store a text at a place, or say why not."""
        column = self.model.column_of(line_id, run)
        landing = self._landing_at(self.model.index(place, column))
        try:
            if landing is None or not text.strip():
                enter_reading(self._desk.store, line_id, place, text, run)
                return True
            stored = put(self._desk.store, text, landing, self.how())
        except RebuildError as trouble:
            self._desk.say(f"{trouble} “{text}” was not stored.", Say.TROUBLE)
            return False
        self._desk.remember(stored)
        self._desk.say(f"{stored.typed} stored on {landing.words}.{replaces(stored)}")
        return True

    def _take(self, index: QModelIndex | QPersistentModelIndex, text: str, _seen: str) -> bool:
        """Store what was typed into a cell; an empty text that is refused leaves the stored one on show."""
        self._stays = False
        taken = self.model.setData(self.model.index(index.row(), index.column()), text)
        if not taken and not text.strip():
            self._stays = True
            return True
        return taken

    def _park(self, index: QModelIndex | QPersistentModelIndex, text: str | None) -> None:
        """A text whose cell had to close is kept; its cell shows what is stored."""
        landing = self._landing_at(index) if index.isValid() else None
        if text and text.strip() and self._desk.is_open:
            where = landing.words if landing is not None else "a survey"
            self._desk.attempt(
                lambda: self._desk.store.keep_entry(where, text, "could not be stored when its cell was left")
            )

    def _move_on(self) -> None:
        """After Enter: the next place of the run, which has always one more."""
        here = self.table.currentIndex()
        if here.isValid() and not self._stays:
            self.table.setCurrentIndex(self.model.index(here.row() + 1, here.column()))

    def field_in_hand(self) -> QWidget | None:
        """Where a value typed by hand goes."""
        return self.table

    def take_burst(self, text: str) -> None:
        """A gauge's value: to the chosen cell; with none, or past a text half typed, it is kept."""
        landing, editor = self._desk.landing, QApplication.focusWidget()
        if landing is None or getattr(editor, "unsaved", False):
            keep(self._desk, text, "the survey")
            return
        if isinstance(editor, CellEditor):
            editor.settled = True
            self.table.closeEditor(editor, QAbstractItemDelegate.EndEditHint.RevertModelCache)
        line_id, run, place = landing.row
        if self._enter(line_id, place, text, run):
            self._stays = False
            self._move_on()
        else:
            keep(self._desk, text, "the survey")

    def how(self) -> How:
        """How a value is taken: a survey names its instrument itself."""
        return How()

    def value_put(self, stored: Stored) -> None:
        """A waiting value was put on the chosen cell: the next one is in hand."""
        self._stays = False
        self._move_on()

    def print_blank(self) -> None:
        """Write the survey's blank sheet as a PDF."""
        if self._result is not None:
            print_survey(self._desk, self, self._result.data.id)

    def paste(self) -> None:
        """Paste a column of readings into the chosen run, from the chosen place on; one bad one stops all."""
        index = self.table.currentIndex()
        key = self.model.column_key(index.column())
        rows = [row.split("\t")[0] for row in QApplication.clipboard().text().splitlines()]
        headed, rows = without_heading(rows)
        unit = unit_named(headed)
        rows = [in_unit_named(text, unit) for text in rows]
        if key is None or not rows:
            return
        texts = self.model.texts_of(index.column())[: index.row()] + rows
        left = f" Its heading “{headed}” was left out{units_said([unit])}." if headed else ""
        self._desk.attempt(
            lambda: enter_run(self._desk.store, key[0], texts, key[1]),
            f"{counted(len(rows), 'reading')} stored.{left}",
        )

    def new_survey(self) -> None:
        """Ask for a new survey's set-up."""
        if self._desk.is_open and self._desk.machine_id is not None:
            dialog = SurveyDialog(self._desk, None, self)
            dialog.accepted.connect(lambda: self._stand_on(dialog.survey_id))
            dialog.open()

    def _stand_on(self, key: int | None) -> None:
        for row in range(self.list.count()):
            if self.list.item(row).data(_ID) == key:
                self.list.setCurrentRow(row)

    def _set_up(self) -> None:
        key = self.current_id()
        if key is not None:
            SurveyDialog(self._desk, key, self).open()

    def _new_line(self) -> None:
        key = self.current_id()
        name, taken = QInputDialog.getText(self, "New line", "Name of the line")
        if key is not None and taken:
            self._desk.attempt(lambda: add_line(self._desk.store, key, name))

    def _rename(self, column: int) -> None:
        """A double click on a line's heading names it anew: its name says which way it is."""
        key = self.model.column_key(column)
        if key is None or self._result is None or self._result.data.method is SurveyMethod.PLATE:
            return
        old = next(line.name for line in self._result.data.lines if line.id == key[0])
        words = (
            "Name of the line: front V, rear V, front flat, rear flat or sideways has its effect on the work"
        )
        name, taken = QInputDialog.getText(self, "Name of the line", words, text=old)
        if taken and name.strip() != old:
            self._desk.attempt(
                lambda: edit(self._desk.store, "survey_line", [key[0]], {"name": name}, seen={"name": old})
            )

    def _open_working(self) -> None:
        if self._result is not None:
            self._desk.ask_working(self._result.working)

    def _remove(self) -> None:
        key = self.current_id()
        if key is not None:
            self._desk.attempt(
                lambda: remove(self._desk.store, "survey", [key]), "Removed; undo brings it back."
            )


def own_unit(data: SurveyData) -> str:
    """The unit a survey's lengths were meant in."""
    return "in" if data.unit in ("in", "in/ft") else "mm"


def _heading(data: SurveyData) -> str:
    words = [data.name, data.method.value, f"readings in {_UNITS.get(data.unit, data.unit)}"]
    if data.step_mm:
        words.append(f"step {exact_text(data.step_mm, own_unit(data))} {own_unit(data)}")
    if data.method in BETWEEN_STATIONS:
        words.append("n steps give n + 1 stations; the bridge length must be the step")
    return ": ".join(words[:1]) + " " + ", ".join(words[1:])
