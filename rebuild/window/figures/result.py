"""What a figure gives back: lines in both units, the zone picture, the working; and where to take it."""

from __future__ import annotations

from itertools import pairwise

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QGuiApplication, QPalette, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QHBoxLayout,
    QPushButton,
    QSplitter,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.trade.limits.spec_unit import with_unit
from rebuild.trade.limits.verdict import Rule
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figure_text import limits_text, read_text, unshown
from rebuild.trade.results.figured import Figured, SpecLine
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.figures.result_words import as_detail, as_spec, headings, in_order, named, shown
from rebuild.window.figures.suits import suits
from rebuild.window.ink.sketch_view import DrawingView
from rebuild.window.ink.zone_picture import FitPicture
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.lists.fitted import FittedColumns
from rebuild.window.results.working import WorkingText
from rebuild.words.making_details import DetailKind
from rebuild.words.readings import SpecOrigin
from rebuild.work.making.acts import start_sheet
from rebuild.work.making.acts_details import add_detail
from rebuild.work.making.acts_sizes import add_size
from rebuild.work.making.rows import open_of
from rebuild.work.readings.acts_features import set_spec
from rebuild.work.readings.rows_grid import GridRow, rows

EXAMPLE = "Example: worked out from the sizes in grey, not from yours. Type in any box and it goes."
TAKE, REPLACE, ANYWAY = (
    "&Take to the chosen feature",
    "&Replace the spec there",
    "&Take it there all the same",
)
HOLES = "the circle whole, with its coordinates: to the making sheet"
SEND, BEGIN = "Sen&d to the making sheet", "&Begin a making sheet with it"


class FigureResult(QWidget):
    """The answer side of the Figures page."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._figured: Figured | None = None
        self._figure: Figure | None = None
        self._unit = "mm"
        self._asked: tuple[int, str, str] | None = None
        self._by_hand = False
        self._begin_for: int | None = None
        self.setAccessibleName("Result")
        self.answers = _table()
        self.picture = FitPicture()
        self.sketch = DrawingView("Drawing")
        self.working = WorkingText()
        self._example = PlainLabel(EXAMPLE)
        self._example.setAccessibleName("Example")
        self._example.setWordWrap(True)
        self._trouble = PlainLabel()
        self._trouble.setWordWrap(True)
        self.read = PlainLabel()
        self.read.setAccessibleName("What was read")
        self.read.setWordWrap(True)
        self.read.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self._spec = QComboBox()
        self._spec.setAccessibleName("Limits to take")
        self._take = QPushButton(TAKE)
        self._send = QPushButton(SEND)
        self._target = PlainLabel()
        self._target.setAccessibleName("The chosen feature")
        self._target.setWordWrap(True)
        self._target.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self._copy = QPushButton("&Copy all")
        self._lay_out()
        self._take.clicked.connect(self._take_to_feature)
        self._send.clicked.connect(self._send_to_sheet)
        self.hold()
        self._copy.clicked.connect(self._copy_all)
        self._spec.activated.connect(self._say_target)
        for signal in (desk.selection_changed, desk.closed):
            signal.connect(self._say_target)

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        buttons.addWidget(self._spec, 1)
        buttons.addWidget(self._take)
        buttons.addWidget(self._send)
        buttons.addWidget(self._copy)
        whole = self._shares = QSplitter(Qt.Orientation.Vertical)
        whole.splitterMoved.connect(lambda *_: self._shared_by_hand())
        for widget, stretch in ((self.answers, 3), (self.picture, 2), (self.sketch, 2), (self.working, 3)):
            whole.addWidget(widget)
            whole.setStretchFactor(whole.count() - 1, stretch)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._example)
        layout.addWidget(self._trouble)
        layout.addWidget(self.read)
        layout.addWidget(whole, 1)
        layout.addWidget(self._target)
        layout.addLayout(buttons)
        for first, then in pairwise((self.answers, self.picture, self.sketch, self.working)):
            self.setTabOrder(first, then)
        self._trouble.hide()
        self._example.hide()

    def show_as_example(self) -> None:
        """What is shown is of the example, not of the user's part: headed so, and nothing of it can be taken."""
        self._example.show()
        for widget in (self._spec, self._take, self._send, self._target):
            widget.hide()
        self.hold()

    def hold(self) -> None:
        """What is shown is no longer of what is typed: nothing can be taken from it."""
        for button in (self._take, self._send, self._copy):
            button.setEnabled(False)
        self._say_target()

    def show_trouble(self, sentence: str) -> None:
        """Say what is wrong; the result before it is of other entries, so it goes, and its buttons with it."""
        self._figured = None
        self._example.hide()
        self._trouble.setText(sentence)
        self._trouble.show()
        self.read.hide()
        self.answers.setRowCount(0)
        self.answers.setEnabled(False)
        self.picture.set_zones(())
        self.picture.hide()
        self.sketch.hide()
        self.working.show_working(None)
        self.working.setEnabled(False)
        self._spec.clear()
        for widget in (self._spec, self._take, self._send, self._target):
            widget.hide()
        self.hold()

    def show_figured(self, figure: Figure, figured: Figured, unit: str = "") -> None:
        """Show a result; limits are offered in ``unit``, the machine's, mm where there is none."""
        self._figure, self._figured, self._unit = figure, figured, unit or "mm"
        self._example.hide()
        self._trouble.setText("\n".join(figured.cautions))
        self._trouble.setVisible(bool(figured.cautions))
        self.read.setText(read_text(figured))
        self.read.setVisible(bool(figured.read))
        self.answers.setEnabled(True)
        self.working.setEnabled(True)
        self._fill()
        self.picture.set_zones(figured.zones, figured.unit)
        self.picture.setVisible(bool(figured.zones))
        self.sketch.show_drawing(figured.drawing, figure.title)
        self.sketch.setVisible(figured.drawing is not None)
        self.working.show_working(figured.working)
        self._spec.clear()
        if figured.holes is not None:
            self._spec.addItem(HOLES)
        for line in figured.specs:
            self._spec.addItem(f"{line.label}: {limits_text(line, in_order(self._unit)[0])}")
        for widget in (self._spec, self._take, self._send, self._target):
            widget.setVisible(bool(self._spec.count()))
        self._send.setEnabled(bool(self._spec.count()))
        self._say_target()
        if not self._spec.count() and figured.not_taken:
            self._target.setText(figured.not_taken)
            self._target.show()
        self._copy.setEnabled(True)

    def _shared_by_hand(self) -> None:
        self._by_hand = True

    def _share(self) -> None:
        """The answers are all in sight where the rest keeps enough; until someone moved a handle himself."""
        line = self.fontMetrics().lineSpacing()
        least = {
            self.answers: 5 * line,
            self.picture: 7 * line,
            self.sketch: 9 * line,
            self.working: 9 * line,
        }
        shown = [widget for widget in least if not widget.isHidden()]
        rest = sum(least[widget] for widget in shown if widget is not self.answers)
        rows, heading = self.answers.verticalHeader(), self.answers.horizontalHeader()
        wanted = rows.length() + heading.sizeHint().height() + 2 * self.answers.frameWidth() + 2
        room = sum(self._shares.sizes())
        if self._by_hand or room <= 0:
            return
        top = max(least[self.answers], min(wanted, room - rest))
        more = max(0, room - top - rest)
        sizes = {widget: least[widget] for widget in shown} | {self.answers: top}
        sizes[self.working] += more
        self._shares.setSizes([sizes.get(widget, 0) for widget in least])

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        QTimer.singleShot(0, self, self._share)

    def _fill(self) -> None:
        self.answers.setHorizontalHeaderLabels(headings(self._figured_unit()))
        told = self._rows()
        self.answers.setRowCount(len(told))
        for row, texts in enumerate(told):
            for column, text in enumerate(texts):
                item = QTableWidgetItem(text)
                item.setToolTip(plain_tip(text))
                if column in (1, 2):
                    item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
                self.answers.setItem(row, column, item)
        self.answers.resizeRowsToContents()
        QTimer.singleShot(0, self, self._share)  # when the widgets shown with it have their places

    def _rows(self) -> list[tuple[str, ...]]:
        """What is told: the answers, and the limits that can be taken and stand in none of them."""
        if self._figured is None:
            return []
        unit = self._figured.unit
        told: list[tuple[str, ...]] = [
            (answer.label, *shown(answer, unit), answer.note) for answer in self._figured.answers
        ]
        return told + [
            (line.label, *(limits_text(line, each) for each in in_order(unit)), line.origin)
            for line in unshown(self._figured)
        ]

    def _figured_unit(self) -> str:
        return self._figured.unit if self._figured is not None else "mm"

    def _chosen(self) -> GridRow | None:
        """The row of the measurement grid in hand."""
        key = self._desk.selection.key
        if key is None or not self._desk.is_open:
            return None
        with self._desk.store.read() as connection:
            found = rows(connection, [key], Rule.SIMPLE, {})
        return found[0] if found else None

    def _say_target(self) -> None:
        """Name the feature the limits would go to; a question asked of another one, or of other limits, is over."""
        self._asked = self._begin_for = None
        self._take.setText(TAKE)
        self._send.setText(SEND)
        if self._spec.isHidden():
            return
        self._take.setEnabled(self._send.isEnabled() and self._line() is not None)
        row = self._chosen()
        chosen = named(row) if row is not None else "none; choose a row on the Bench first"
        self._target.setText(f"Chosen feature: {chosen}")

    def _line(self) -> SpecLine | None:
        """The limits chosen to be taken; None for a circle of holes whole, which no feature has."""
        if self._figured is None or not self._figured.specs:
            return None
        at = max(0, self._spec.currentIndex()) - (self._figured.holes is not None)
        return self._figured.specs[at] if at >= 0 else None

    def _take_to_feature(self) -> None:
        row, line = self._chosen(), self._line()
        if line is None or row is None:
            self._desk.say(
                "Choose a row in the measurement grid first; the limits go to its feature.", Say.ASK
            )
            return
        text = as_spec(line, row.unit)
        foreign = not suits(line.label, row.kind)
        if (foreign or row.spec_text.strip()) and self._asked != (row.feature_id, row.spec_text, text):
            self._ask_first(row, text, line.label if foreign else "")
            return
        self._desk.attempt(
            lambda: set_spec(
                self._desk.store,
                [row.feature_id],
                text,
                SpecOrigin.HANDBOOK,
                note=line.origin,
                seen=row.spec_text,
            ),
            f"Spec {text} taken to {named(row)}.",
        )
        self._say_target()

    def _ask_first(self, row: GridRow, text: str, foreign: str) -> None:
        """A feature that has a spec, or is of another kind, stays as it is until the button is pressed once more."""
        self._asked = (row.feature_id, row.spec_text, text)
        has = bool(row.spec_text.strip())
        button = REPLACE if has else ANYWAY
        self._take.setText(button)
        told = f"{named(row)} is of the kind “{row.kind}”, not a {foreign}. " if foreign else ""
        told += f"{named(row)} has the spec “{with_unit(row.spec_text, row.unit)}”. " if has else ""
        where = f"put “{text}” in its place" if has else f"take “{text}” to it"
        self._target.setText(
            f"{told}Press “{button.replace('&', '')}” to {where}; nothing is changed until then."
        )

    def _send_to_sheet(self) -> None:
        """Put what is chosen on the open making sheet of the chosen part; without one, offer to begin it."""
        row = self._chosen()
        parts = self._desk.selection.part_ids or ((row.part_id,) if row is not None else ())
        if self._figured is None or not self._desk.is_open or not parts:
            self._desk.say("Choose the part on the Bench first; the size goes to its making sheet.", Say.ASK)
            return
        line, holes = self._line(), self._figured.holes
        if line is None and holes is not None and holes.hole_mm is None:
            self._desk.say("Type the diameter of a hole first; the sheet draws the holes with it.", Say.ASK)
            return
        sheet_id = self._sheet_of(parts[0])
        if sheet_id is None:
            return
        if line is not None:
            self._send_size(sheet_id, line)
        elif holes is not None:
            self._desk.attempt(
                lambda: add_detail(
                    self._desk.store, sheet_id, DetailKind.HOLES_ON_CIRCLE, *as_detail(holes, self._unit)
                ),
                f"{holes.holes} holes on a circle put on the making sheet, under Holes and flats.",
            )
        self._say_target()

    def _sheet_of(self, part_id: int) -> int | None:
        """The open sheet of a part; one is begun when the button, which says so after the first press, is pressed."""
        with self._desk.store.read() as connection:
            sheet_id = open_of(connection, part_id)
        if sheet_id is not None:
            return sheet_id
        if self._begin_for == part_id:
            return self._desk.attempt(lambda: start_sheet(self._desk.store, part_id))
        self._begin_for = part_id
        self._send.setText(BEGIN)
        self._desk.say(
            f"That part has no open making sheet; press “{BEGIN.replace('&', '')}” to begin one.", Say.ASK
        )
        return None

    def _send_size(self, sheet_id: int, line: SpecLine) -> None:
        text = as_spec(line, self._unit)
        self._desk.attempt(
            lambda: add_size(self._desk.store, sheet_id, line.label, text, note=f"handbook: {line.origin}"),
            f"{line.label}, {text}, put on the making sheet.",
        )

    def _copy_all(self) -> None:
        if self._figured is None:
            return
        lines = ["\t".join(texts) for texts in self._rows()]
        QGuiApplication.clipboard().setText(
            "\n".join([*lines, self.read.text(), "", self._figured.working.text()])
        )
        self._desk.say("Copied with its working.")


def _table() -> QTableWidget:
    table = QTableWidget(0, 4)
    table.setAccessibleName("Answers")
    table.setHorizontalHeaderLabels(headings("mm"))
    table.verticalHeader().hide()
    table.setTabKeyNavigation(False)  # Tab goes on to the picture and the working
    table.setShowGrid(False)
    table.setAlternatingRowColors(True)
    table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    header = table.horizontalHeader()
    header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    header.setHighlightSections(False)
    FittedColumns(table)
    return table
