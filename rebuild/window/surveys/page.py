"""The Survey page: surveys on the left, readings in the middle, plot and results beside."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QInputDialog,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from rebuild.store.changed import Changed
from rebuild.trade.geometry.straightness import Reference
from rebuild.window.desk.desk import Desk
from rebuild.window.entry.bursts_kept import HALF_TYPED, keep
from rebuild.window.entry.landing_pane import LandingPane
from rebuild.window.entry.strip import LandingStrip
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.layout.views import Views
from rebuild.window.layout.wrapped_row import WrappedRow
from rebuild.window.photos.attached import AttachedPhotos
from rebuild.window.surveys.curve_sets import Shown
from rebuild.window.surveys.curves import Curves
from rebuild.window.surveys.heading import heading, own_unit
from rebuild.window.surveys.plate_plan import PlatePlan
from rebuild.window.surveys.results import Results
from rebuild.window.surveys.run_table import RunTable
from rebuild.window.surveys.station_table import StationTable
from rebuild.window.surveys.survey_list import SurveyList
from rebuild.words.surveys import BETWEEN_STATIONS, SurveyMethod
from rebuild.work.editing.acts import edit
from rebuild.work.landings.stored import How, Stored
from rebuild.work.photos import rows_shown
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.records import rows_settings
from rebuild.work.records.rows_settings import verdict_rule
from rebuild.work.surveys import rows as survey_rows
from rebuild.work.surveys.data import SurveyData, SurveyResult
from rebuild.work.surveys.rows import SurveyRow, survey_data, surveys
from rebuild.work.surveys.worked import work_out


class SurveyPage(LandingPane):
    """Way and plate surveys of the chosen machine."""

    shows = (survey_rows, rows_settings, rows_shown)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Survey", parent)
        self._result: SurveyResult | None = None
        self.reference = QComboBox()
        self.reference.setAccessibleName("Reference")
        for reference in (Reference.MINIMUM_ZONE, Reference.LEAST_SQUARES, Reference.ENDS):
            self.reference.addItem(reference.value, reference)
        self.two_runs = QCheckBox("There and &back")
        self.table = RunTable(desk, self.how, self)
        self.model = self.table.runs
        self._columns = 0
        self.strip = LandingStrip(desk, self)
        self.photos = AttachedPhotos(desk, "survey", "Photos", self)
        self.surveys = SurveyList(desk, self.photos, self)
        self.list = self.surveys.list
        self.heading = PlainLabel()
        self.heading.setWordWrap(True)
        self.shown = QComboBox()
        self.shown.setAccessibleName("Picture")
        for shown in Shown:
            self.shown.addItem(shown.value, shown)
        self.curves, self.plan = Curves(), PlatePlan()
        self.pictures = QStackedWidget()
        self.results, self.stations = Results(), StationTable()
        self.tables = Views((("Lines", self.results), ("Stations", self.stations)), keys=False)
        self.tables.setMinimumHeight(self.fontMetrics().lineSpacing() * 9)
        self._buttons = {"working": QPushButton("&Working")}
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
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
        whole.addWidget(self.surveys)
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
        self.surveys.chosen.connect(self._show)
        self.table.selectionModel().currentChanged.connect(lambda _new, _old: self._land())
        self.model.modelReset.connect(self._land)
        self.reference.currentIndexChanged.connect(self._show)
        self.shown.currentIndexChanged.connect(self._show)
        self.two_runs.toggled.connect(self._show)
        self.table.horizontalHeader().sectionDoubleClicked.connect(self._rename)
        self._buttons["working"].clicked.connect(self._open_working)

    def mend(self, changed: Changed) -> None:
        """A reading or the rule moves the chosen survey only."""
        self.refresh() if changed.touches("survey", "survey_line") else self._show()

    def show_row(self, _table: str, key: int) -> None:
        """Choose one survey."""
        self.surveys.choose(key)

    def refresh(self) -> None:
        """Read the list again."""
        rows: list[SurveyRow] = []
        if self._desk.is_open and self._desk.machine_id is not None:
            with self._desk.store.read() as connection:
                rows = surveys(connection, self._desk.machine_id)
        self.surveys.fill(rows)
        self._show()

    def _give_room(self) -> None:
        """The readings as wide as their lines, up to half: a line cut at the edge is read as another's."""
        columns = self.model.columnCount()
        if columns == self._columns:
            return
        self._columns = columns
        whole = sum(self.upper.sizes())
        wide = min(self.table.wanted_width, whole // 2)
        self.upper.setSizes([wide, whole - wide])

    def _show(self) -> None:
        key = self.surveys.current_id()
        self.photos.show_row(key)
        data, before = self._read(key) if key is not None and self._desk.is_open else (None, None)
        self.surveys.show_one(data is not None)
        self._buttons["working"].setEnabled(data is not None)
        if data is None:
            self._result = None
            self.table.show_survey(None)
            self.model.show_data(None, two_runs=False, by_steps=True)
            self.heading.setText("No survey yet: New survey sets one up.")
            self.curves.show_results(None, None, "mm")
            self.plan.show_plate(None, "mm")
            self._show_tables(None, "mm")
            return
        has_back = any(line.runs.get(2) for line in data.lines)
        is_plate = data.method is SurveyMethod.PLATE
        self.table.show_survey(self.surveys.name, data.stage.value)
        self.model.show_data(
            data,
            two_runs=has_back or (not is_plate and self.two_runs.isChecked()),
            by_steps=data.method in BETWEEN_STATIONS,
        )
        self._give_room()
        rule = verdict_rule(self._desk.store)
        reference = Reference(self.reference.currentData())
        self._result = work_out(data, reference, rule)
        unit = self._unit(data)
        self.heading.setText(heading(data))
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
        return self.table.landing_at(self.table.currentIndex())

    def stand_on(self, landing: Landing) -> bool:
        """The cell of a place, when its survey is the one shown."""
        return landing.surface is Surface.SURVEY and self.table.stand_on(landing)

    def field_in_hand(self) -> QWidget | None:
        """Where a value typed by hand goes."""
        return self.table

    def take_burst(self, text: str) -> None:
        """A gauge's value: to the chosen cell; with none, or past a text half typed, it is kept."""
        if getattr(QApplication.focusWidget(), "unsaved", False):
            keep(self._desk, text, "the survey", None, HALF_TYPED)
        elif not self.table.take_burst(text):
            keep(self._desk, text, "the survey")

    def how(self) -> How:
        """How a value is taken: a survey names its instrument itself."""
        return How()

    def value_put(self, stored: Stored) -> None:
        """A waiting value was put on the chosen cell: the next one is in hand."""
        self.table.go_on()

    def paste(self) -> None:
        """Paste a column of readings into the chosen run."""
        self.table.paste()

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
