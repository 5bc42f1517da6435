"""The entry line under the grid: where the next value lands, the value, and its answer.

Typed and gauge-sent values go the same way: to the row in hand of the surface it follows. A text begun on one
row and finished on another is held for one keypress. ``follow(grid)`` lets it move on in the order of the grid.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication, QHideEvent, QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from rebuild.store.changed import Changed
from rebuild.trade.sizes.quantity import is_bare
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.entry.answer import EntryAnswer
from rebuild.window.entry.bursts import Bursts
from rebuild.window.entry.bursts_kept import NOT_CHOSEN, keep
from rebuild.window.entry.controls import EntryControls
from rebuild.window.entry.course import Course
from rebuild.window.entry.entering import Entering
from rebuild.window.entry.head import EntryHead
from rebuild.window.entry.place import EntryPlace
from rebuild.window.entry.questions import EntryQuestions
from rebuild.window.entry.recent import RecentValues
from rebuild.window.entry.sent import SentValues
from rebuild.window.entry.told import Told
from rebuild.window.readings.clipboard import to_cells
from rebuild.window.readings.grid import MeasurementGrid
from rebuild.words.readings import Stage
from rebuild.work.landings.stored import How, Stored
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.readings.rows_grid import GridRow, Key
from rebuild.work.records.rows_settings import decimal_comma


class EntryLine(QWidget):
    """Takes readings one after another, typed or from a gauge."""

    stored = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None, surface: Surface = Surface.GRID) -> None:
        super().__init__(parent)
        self._desk = desk
        self.course = Course(desk, surface)
        self.head = EntryHead(self)
        self.controls = EntryControls(self)
        self.field = self.controls.field
        self.recent = RecentValues(desk, self)
        self.answer = EntryAnswer(self, self.recent)
        self.place = EntryPlace(desk, self.course, self.head, self.controls, lambda: desk.surface is self)
        self._said_on: tuple[int, ...] | None = None
        self._show_stage: Callable[[Stage], None] = lambda _stage: None
        self._say_row: Callable[[], None] = lambda: None
        self._home: QWidget | None = None
        self._paste_block: Callable[[], None] | None = None
        self._questions = EntryQuestions(
            desk, self.field, self.answer, lambda: self._entering.enter(), self._keep
        )
        #: What is still to be seen to behind the last row, as a sentence.
        self.left: Callable[[], str] = str
        self._told = Told(desk, self.answer, self.place, lambda: self.left())
        self._entering = Entering(
            desk, self.course, self.place, self.controls, self.answer, self._questions, self.value_put
        )
        self._sent = SentValues(desk, self.course, self.field, self.head, self._questions, self._entering)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 5, 8, 5)
        layout.setSpacing(4)
        for widget in (self.head, self.controls, self.answer):
            layout.addWidget(widget)
        self.setAccessibleName("Entry line")
        self._connect()
        self.place.other_file()

    def _connect(self) -> None:
        desk, field, controls = self._desk, self.field, self.controls
        for signal in (desk.opened, desk.closed, desk.machine_changed):
            signal.connect(self._other_file)
        desk.landing_changed.connect(self._landing_changed)
        desk.changed.connect(self._hear)
        field.entered.connect(self._enter)
        field.entered_now.connect(lambda: self._entering.enter(now=True))
        field.textChanged.connect(self._edited)
        field.several.connect(self._several)
        field.given_up.connect(self._entering.give_up)
        field.chosen.connect(self._questions.chosen)
        field.typed_on.connect(self._questions.typed_on)
        field.sent.connect(self._questions.sent_meanwhile)
        field.step.connect(self._step)
        field.stage_step.connect(lambda by: self.place.choose_stage(self.course.stage_beside(by)))
        field.undo_wanted.connect(desk.undo)
        desk.stepped.connect(self._stepped)
        desk.recent_changed.connect(self._values_changed)
        field.redo_wanted.connect(desk.redo)
        controls.taken_otherwise.connect(self.place.taken_otherwise)
        controls.stage_chosen.connect(self.place.choose_stage)
        controls.gauge_turned.connect(self._gauge_turned)
        controls.again.clicked.connect(self.again)
        controls.instrument_wanted.connect(self._add_instrument)
        self.answer.working_wanted.connect(desk.ask_working)

    # What others may ask

    def follow(self, grid: MeasurementGrid) -> None:
        """Take the grid's row in hand, move on in its order; its cells take readings the way this line does."""
        self.follow_rows(lambda: grid.keys, grid.model.row_of, grid.say_row, grid.view)
        grid.set_how_taken(self.course.entry, self.course)
        grid.stored.connect(self._cell_stored)
        grid.pasted.connect(self._column_pasted)
        grid.row_in_hand.connect(self._row_in_hand)
        grid.typed.connect(self.take_key)
        grid.entry_wanted.connect(self.focus_entry)
        self._show_stage = grid.show_stage
        self._paste_block = grid.paste_from_row_in_hand

    def follow_rows(
        self,
        order: Callable[[], Sequence[Key]],
        row_of: Callable[[Key], GridRow | None],
        say_row: Callable[[], None],
        home: QWidget,
    ) -> None:
        """Move on in this order; ``say_row`` tells ``place.row_in_hand`` anew, ``home`` is where rows are chosen."""
        self.course.follow(order, row_of)
        self._say_row, self._home = say_row, home

    def setFocus(self, reason: Qt.FocusReason = Qt.FocusReason.OtherFocusReason) -> None:
        """The keyboard comes into the line: with no row in hand it begins at the first unread one."""
        self.focus_entry()

    def focus_entry(self) -> None:
        """Put the caret in the line."""
        self.place.begin()
        self.field.setFocus(Qt.FocusReason.OtherFocusReason)

    def take_key(self, text: str, at: float = 0.0) -> bool:
        """A character typed elsewhere that is meant for the line; ``at`` is when its key was pressed [ms]."""
        self.focus_entry()
        if self._questions.open:
            self.field.answering(text, at)
            return True
        if self._entering.let_go and self.field.text() == self._entering.let_go:
            self.field.selectAll()
        if not self.field.begin_anew():
            self.field.deselect()
        place = self.field.cursorPosition()
        self.field.insert(text)
        if at:
            self.field.key_put(at, place)
        return True

    def field_in_hand(self) -> QWidget:
        """The line's own field takes the next value."""
        return self.field

    def remember(self, memory: Memory) -> None:
        """Keep how values are taken, and what is typed."""
        memory.put("entry/instrument", self.controls.instrument.currentText())
        memory.put("entry/gauge", "yes" if self._desk.from_gauge else "no")
        memory.put("entry/pending", self._with_its_unit(self.field.text()))

    def _with_its_unit(self, text: str) -> str:
        """What waits, with the unit it was typed in: the row it comes back to may go by another."""
        row, parts = self.course.row, [part.strip() for part in text.split(";") if part.strip()]
        if row is None or not parts or not all(is_bare(part) for part in parts):
            return text
        return "; ".join(f"{part} {row.unit}" for part in parts)

    def recall(self, memory: Memory) -> None:
        """Take values as they were taken last; a text that was typed waits for its row."""
        self.controls.choose_instrument(memory.text("entry/instrument"))
        self._gauge_turned(memory.text("entry/gauge", "yes") == "yes")
        self.controls.show_gauge(self._desk.from_gauge)
        if not self.place.pending:
            self.field.setText(memory.text("entry/pending"))

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if not event.spontaneous():
            Bursts.at(self._desk, self.window())
            self.controls.show_gauge(self._desk.from_gauge)
            self._desk.come_into_view(self)
            self._say_row()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        if not event.spontaneous():
            self._desk.go_out_of_view(self)

    # Where it lands

    # The desk lives longer than this line: only the methods of a widget let go of its signals by themselves.

    def _other_file(self) -> None:
        self.place.other_file()

    def _hear(self, changed: Changed) -> None:
        self.place.hear(changed)

    def _row_in_hand(self, key: Key | None, stage: Stage | None) -> None:
        self.place.row_in_hand(key, stage)

    def _landing_changed(self) -> None:
        self._entering.other_row()
        landing = self.course.landing
        row, self._said_on = self._said_on, landing.row if landing is not None else None
        if row != self._said_on and not (self.answer.tells_stored or self._questions.open):
            self.answer.show_words("")  # it was said of the row in hand before
        if not self.field.text():
            self.field.setText("")  # a text given up on another row does not come back on this one
        if self.course.landing is None and self.field.hasFocus() and self._home is not None:
            self._home.setFocus()
        self.place.show()
        self._read_live()
        if self.course.stage is not None:
            self._show_stage(self.course.stage)

    def _step(self, by: int) -> None:
        if self.place.pending:
            self.answer.show_words("Store what is typed with Enter, or clear it with Esc, before moving on.")
        else:
            self.place.step(by)

    def again(self) -> None:
        """Back to the row stored last, to measure it once more."""
        if self.place.pending:
            self._step(0)
        elif self.place.last_stored() is None:
            self.answer.show_words("Nothing has been stored from this line yet.")
        self.focus_entry()

    def _stepped(self, stored: Stored, undone: bool) -> None:
        if self._desk.surface is self and stored.landing.row in list(self.course.order()):
            self._told.stepped(stored, undone)

    def _values_changed(self) -> None:
        self._told.values_changed()

    def _add_instrument(self) -> None:
        from rebuild.window.forms.new import new_instrument

        if self._desk.is_open:
            new_instrument(self._desk, self.window(), self.controls.take_instrument)

    def _gauge_turned(self, on: bool) -> None:
        self._desk.from_gauge = on

    # Typing

    def _edited(self, text: str) -> None:
        self._desk.hand.touched()
        self._entering.edited(text)
        if self._questions.open:
            self._questions.close()
        elif not self.answer.tells_stored:
            self.answer.show_words("")
        self._read_live()
        self.place.text_touched()

    def _read_live(self) -> None:
        """Say as what the text is read on the row in hand, whose unit may be another than the one before."""
        text = self.field.text()
        comma = decimal_comma(self._desk.store) if self._desk.is_open and "," in text else None
        self.controls.read_live(text, self.course.unit, comma)

    def _several(self) -> None:
        """A column pasted here belongs into the grid; the line takes one value."""
        cells = [cell for row in to_cells(QGuiApplication.clipboard().text()) for cell in row if cell.strip()]
        self._questions.ask_whole_column(cells, self._paste_block if self.course.landing else None)

    def _enter(self, gauge: bool) -> None:
        if gauge:
            self._sent.enter()
        else:
            self._entering.enter()

    # Storing

    def value_put(self, stored: Stored) -> None:
        """Read a value back that was just stored on the row in hand, and move on."""
        self.controls.note.clear()
        self._told.put(stored)
        self.stored.emit(stored)

    def _cell_stored(self, stored: Stored) -> None:
        self.controls.note.clear()
        self._told.put_in_cell(stored)

    def _column_pasted(self, stored: Stored) -> None:
        self._told.pasted(stored)

    def how(self) -> How:
        """How a value is taken now."""
        return self.course.how

    def rows_from(self, landing: Landing, like: Sequence[Landing]) -> list[Landing]:
        """The rows of a column begun on a landing, as far apart as those it lay on."""
        return self.course.rows_from(landing, like)

    # Gauges

    def take_burst(self, text: str) -> None:
        """A value a gauge sent: to the row in hand; with none, or past a text half typed in a cell, it is kept."""
        self._sent.take(text)
        if self.place.pending and self.course.landing is not None:
            self.focus_entry()  # it asks something, or waits for more: its keys work only there

    def _keep(self, text: str) -> None:
        keep(self._desk, text, self.course.surface.value, self.course.how, NOT_CHOSEN)
