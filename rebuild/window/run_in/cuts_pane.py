"""Cut tests: enter what the piece measures, see what it says and what to turn."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import (
    QComboBox,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.trade.charts.set_up_sketches import sketch
from rebuild.trade.run_in.kinds import turns_work
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.entry.bursts_kept import HALF_TYPED, NO_ROW, keep
from rebuild.window.entry.landing_pane import LandingPane
from rebuild.window.entry.strip import LandingStrip
from rebuild.window.ink.sketch_view import DrawingView
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.said import moment
from rebuild.window.lists.verdict_model import VerdictModel
from rebuild.words.charts import ChartStage
from rebuild.words.machines import MachineKind
from rebuild.words.run_in import CutKind
from rebuild.work.editing.acts import remove
from rebuild.work.landings.stored import How, Stored
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.records import rows_settings
from rebuild.work.records.rows import choices
from rebuild.work.records.rows_settings import verdict_rule
from rebuild.work.run_in import rows_cuts
from rebuild.work.run_in.acts import add_cut, set_bed_sizes
from rebuild.work.run_in.rows_cuts import CutRow, bed_sizes, cut_tests, kind_of

_HEADINGS = ("Cut", "Piece", "Stage", "What it says", "Limit", "Verdict")
_TYPED = (
    "first", "second", "apart", "allowed", "allowed_over", "allowed_origin", "temperature_c", "adjusted",
)  # fmt: skip
#: The sizes a gauge sends, in the order they are measured.
_MEASURED = ("first", "second", "apart")
_LABELS = {
    CutKind.TWO_COLLAR: ("Collar near the spindle", "Collar at the free end", "Length between"),
    CutKind.FACING: ("Hollow; minus: a high spot", "", "Diameter faced"),
}


class CutsPane(LandingPane):
    """Entry and sketch on the left, tests and what they say on the right."""

    shows = (rows_cuts, rows_settings)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent=parent)
        self._rows: dict[int, CutRow] = {}
        self.kind, self.stage, self.instrument = QComboBox(), QComboBox(), QComboBox()
        for kind in CutKind:
            self.kind.addItem(kind.value)
        for stage in ChartStage:
            self.stage.addItem(stage.value)
        self.stage.setCurrentIndex(1)
        self.fields = {name: QLineEdit() for name in _TYPED}
        self.bed = {name: QLineEdit() for name in ("height", "apart", "along")}
        self._labels = [PlainLabel() for _ in range(3)]
        self.store = QPushButton("&Store test")
        self.keep = QPushButton("Store &bed sizes")
        self.trouble = PaneTrouble(desk, (self.kind, self.stage, *self.fields.values()), self)
        self.sketch = DrawingView("Sketch of the piece")
        self.table = PlainTable("Cut tests", _HEADINGS, model=VerdictModel(_HEADINGS, self))
        self.table.when_empty("Test pieces cut and measured stand here; the first is typed beside.")
        self.said = PlainLabel()
        self.said.setWordWrap(True)
        self.said.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.strip = LandingStrip(desk, self)
        self.not_turned, self.surveys = PlainLabel(), QPushButton("Go to the s&urveys")
        self.not_turned.setWordWrap(True)
        self.not_turned.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.working, self.remove = QPushButton("&Working"), QPushButton("&Remove")
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        left = QWidget()
        grid = QGridLayout(left)
        grid.setContentsMargins(0, 0, 10, 0)
        grid.setVerticalSpacing(3)
        named: tuple[tuple[PlainLabel, QWidget], ...] = (
            (PlainLabel("Test piece"), self.kind),
            (PlainLabel("Stage"), self.stage),
            (self._labels[0], self.fields["first"]),
            (self._labels[1], self.fields["second"]),
            (self._labels[2], self.fields["apart"]),
            (PlainLabel("Limit"), self.fields["allowed"]),
            (PlainLabel("Over"), self.fields["allowed_over"]),
            (PlainLabel("Source"), self.fields["allowed_origin"]),
            (PlainLabel("Instrument"), self.instrument),
            (PlainLabel("Temperature"), self.fields["temperature_c"]),
            (PlainLabel("Adjusted then"), self.fields["adjusted"]),
        )
        for row, (label, widget) in enumerate(named):
            label.setBuddy(widget)
            grid.addWidget(label, row, 0)
            grid.addWidget(widget, row, 1)
            widget.setAccessibleName(label.text())
        grid.addWidget(self.store, len(named), 1, Qt.AlignmentFlag.AlignLeft)
        grid.addWidget(self.trouble, len(named) + 1, 0, 1, 2)
        grid.addWidget(self.sketch, len(named) + 2, 0, 1, 2)
        sizes = (
            ("Height of centres", "height"),
            ("Feet, front to rear", "apart"),
            ("Feet, along the bed", "along"),
        )
        for row, (words, name) in enumerate(sizes, start=len(named) + 3):
            label = PlainLabel(words)
            label.setBuddy(self.bed[name])
            self.bed[name].setAccessibleName(words)
            grid.addWidget(label, row, 0)
            grid.addWidget(self.bed[name], row, 1)
        grid.addWidget(self.keep, len(named) + 6, 1, Qt.AlignmentFlag.AlignLeft)
        grid.setRowStretch(len(named) + 2, 1)
        right = QWidget()
        column = QVBoxLayout(right)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.table, 2)
        column.addWidget(self.said, 1)
        row_of_buttons = QHBoxLayout()
        row_of_buttons.addWidget(self.working)
        row_of_buttons.addWidget(self.remove)
        row_of_buttons.addStretch(1)
        column.addLayout(row_of_buttons)
        whole = QSplitter(Qt.Orientation.Horizontal)
        # With large text the fields are higher than the window: they are scrolled, what was found stays in sight.
        fields = QScrollArea()
        fields.setWidget(left)
        fields.setWidgetResizable(True)
        fields.setFrameShape(QFrame.Shape.NoFrame)
        fields.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        fields.setMinimumWidth(left.minimumSizeHint().width() + fields.verticalScrollBar().sizeHint().width())
        fields.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        whole.addWidget(fields)
        whole.addWidget(right)
        whole.setSizes([380, 880])
        whole.setStretchFactor(1, 1)
        whole.setChildrenCollapsible(False)
        self._entry = whole
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addStretch(0)  # where nothing is turned the words stand in the middle, as in an empty list
        layout.addWidget(self.not_turned)
        layout.addWidget(self.surveys, 0, Qt.AlignmentFlag.AlignHCenter)
        layout.addWidget(whole, 1)
        layout.addWidget(self.strip)
        layout.addStretch(0)

    def _wire(self) -> None:
        self.stage.currentIndexChanged.connect(lambda _at: self._land())
        for name in _MEASURED:
            self.fields[name].textChanged.connect(lambda _text: self._land())
            self.fields[name].installEventFilter(self)
        self.kind.currentIndexChanged.connect(lambda _at: self._name_fields())
        self.table.selectionModel().selectionChanged.connect(lambda _new, _old: self._show())
        for edit in self.fields.values():
            edit.returnPressed.connect(self.enter)
        self.store.clicked.connect(self.enter)
        self.keep.clicked.connect(self._keep)
        self.surveys.clicked.connect(lambda _checked=False: self._desk.page_asked.emit("survey"))
        self.working.clicked.connect(self._working)
        self.remove.clicked.connect(self._remove)
        self._name_fields()

    def _name_fields(self) -> None:
        kind = CutKind(self.kind.currentText())
        for label, words, name in zip(self._labels, _LABELS[kind], ("first", "second", "apart"), strict=True):
            label.setText(words)
            label.setVisible(bool(words))
            self.fields[name].setVisible(bool(words))
            self.fields[name].setAccessibleName(words)
        self._land()
        self.sketch.show_drawing(sketch("two-collar" if kind is CutKind.TWO_COLLAR else "facing"), kind.value)

    def refresh(self) -> None:
        """Read the tests, the instruments and the bed sizes again."""
        machine = self._desk.machine_id if self._desk.is_open else None
        rows: list[CutRow] = []
        if machine is not None:
            chosen = self.instrument.currentData()
            with self._desk.store.read() as connection:
                machine_kind = kind_of(connection, machine)
                rows = cut_tests(connection, machine, verdict_rule(self._desk.store))
                tools = choices(connection, "instrument", 0)
                sizes = bed_sizes(connection, machine)
            self.instrument.clear()
            self.instrument.addItem("", None)
            for tool in tools:
                self.instrument.addItem(tool.label, tool.id)
            self.instrument.setCurrentIndex(max(0, self.instrument.findData(chosen)))
            for name, text in zip(self.bed, (sizes.height, sizes.feet_apart, sizes.feet_along), strict=True):
                if not self.bed[name].isModified():
                    self.bed[name].setText(text)
            self._offer_turned(machine_kind, is_there=bool(rows))
        self._rows = {row.id: row for row in rows}
        self.table.plain.fill([(row.id, _cells(row)) for row in rows])
        if rows and self.table.chosen() is None:
            self.table.selectRow(0)
        self._show()

    def _offer_turned(self, kind: MachineKind, *, is_there: bool) -> None:
        """Collars and discs are turned: a machine that turns nothing is led to what fits it, unless one is stored."""
        turned = is_there or turns_work(kind)
        self.not_turned.setText(
            f"The test pieces here are turned. What a {kind.value} has cut is read as a survey: take a light cut over "
            "a block, then read its face along and across, and its sides against it."
        )
        for widget in (self._entry, self.strip):
            widget.setVisible(turned)
        for instead in (self.not_turned, self.surveys):
            instead.setVisible(not turned)

    def _show(self) -> None:
        row = self._rows.get(self.table.chosen() or 0)
        if row is None:
            self.said.setText(
                "Turn two collars at one setting with the free end unsupported, or face a disc in one cut."
            )
            return
        lines = [f"{row.found.text.capitalize()}."]
        if row.judgement is not None:
            lines.append(row.judgement.sentence)
        lines += [f"▸ {words}" for words in row.found.adjust]
        self.said.setText("\n".join(lines))

    def enter(self) -> None:
        """Store the test; trouble is said beneath and the text stays."""
        machine, kind = self._desk.machine_id, CutKind(self.kind.currentText())
        if machine is None:
            return
        shown = {
            name: edit.text()
            for name, edit in self.fields.items()
            if kind is CutKind.TWO_COLLAR or name != "second"
        }
        typed = {name: text for name, text in shown.items() if text.strip()} | {
            "stage": self.stage.currentText()
        }
        tool = self.instrument.currentData()
        if tool is not None:
            typed["instrument_id"] = str(tool)
        try:
            add_cut(self._desk.store, machine, kind, typed)
        except RebuildError as trouble:
            self.trouble.tell(trouble)
            self._desk.say(str(trouble), Say.TROUBLE)
            return
        self.trouble.end()
        for name in ("first", "second", "adjusted"):
            self.fields[name].clear()
        self.fields["first"].setFocus()  # the next piece begins there

    # Where the next value lands

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.FocusIn:
            self._land()
        return False

    def _in_hand(self) -> str:
        """The size the next value is: the one with the keyboard, else the first still empty; empty when none is."""
        wanted = [name for name in _MEASURED if not self.fields[name].isHidden()]
        focused = next((name for name in wanted if self.fields[name].hasFocus()), "")
        return focused or next((name for name in wanted if not self.fields[name].text().strip()), "")

    def _landing(self) -> Landing | None:
        machine, name = self.machine, self._in_hand()
        if machine is None or not name:
            return None
        kind, stage = self.kind.currentText(), self.stage.currentText()
        words = "  ·  ".join((kind, self.fields[name].accessibleName(), stage))
        return Landing(Surface.CUT, (machine,), stage, name, words)

    def field_in_hand(self) -> QWidget | None:
        """Where a value typed by hand goes."""
        landing = self._desk.landing
        return self.fields[landing.called] if landing is not None else None

    def take_burst(self, text: str) -> None:
        """A value sent is the size in hand, and with the last of them the test is stored; with none it is kept."""
        landing = self._desk.landing
        if landing is None or self.fields[landing.called].text().strip():
            why = NO_ROW if landing is None else HALF_TYPED
            keep(self._desk, text, "the cut test", self.how(), why)
            return
        self.fields[landing.called].setText(text)
        left = [one for one in _MEASURED if not self.fields[one].isHidden() and not self.fields[one].text()]
        if left:
            self.fields[left[0]].setFocus()
        else:
            self.enter()

    def put_by(self) -> None:
        """The window closes: sizes of a test not stored yet wait among the values without a row."""
        for name in _MEASURED:
            if self.fields[name].text().strip() and self._desk.is_open:
                keep(self._desk, self.fields[name].text(), "the cut test", self.how())

    def take_waiting(self, text: str) -> bool:
        """A waiting value becomes the size in hand, unless that is typed already."""
        landing = self._desk.landing
        if landing is None or self.fields[landing.called].text().strip():
            return False
        self.take_burst(text)
        return True

    def how(self) -> How:
        """How a value is taken now."""
        return How(self.instrument.currentData(), self.fields["temperature_c"].text())

    def value_put(self, stored: Stored) -> None:
        """A test is stored whole, never value by value."""

    def _keep(self) -> None:
        machine = self._desk.machine_id
        texts = [edit.text() for edit in self.bed.values()]
        if machine is not None and self._desk.attempt(lambda: self._put(machine, texts)):
            for edit in self.bed.values():
                edit.setModified(False)
            self.refresh()

    def _put(self, machine: int, texts: list[str]) -> bool:
        set_bed_sizes(self._desk.store, machine, *texts)
        return True

    def _working(self) -> None:
        row = self._rows.get(self.table.chosen() or 0)
        if row is not None:
            self._desk.ask_working(row.working)

    def _remove(self) -> None:
        key = self.table.chosen()
        if key is not None:
            self._desk.attempt(
                lambda: remove(self._desk.store, "cut_test", [key]), "Removed; Ctrl+Z brings it back."
            )


def _cells(row: CutRow) -> tuple[str, ...]:
    verdict = row.judgement.verdict.value if row.judgement is not None else "no limit given"
    return (moment(row.taken_at), row.kind.value, row.stage.value, row.found.text, row.allowed, verdict)
