"""The entry line under the grid: where the next value lands, the value, and its answer.

Typed and gauge-sent values go the same way. What is typed stays with its row until it is stored or
cleared, whatever is chosen elsewhere. ``follow(grid)`` lets it move on in the order of the grid.
"""

from __future__ import annotations

import time

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from rebuild.errors import Ambiguous, Implausible, RebuildError
from rebuild.store.changed import Changed
from rebuild.trade.sizes.quantity import parse_repeats
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.entry.answer import EntryAnswer
from rebuild.window.entry.controls import EntryControls
from rebuild.window.entry.course import Course
from rebuild.window.entry.gauge import GaugeCatcher
from rebuild.window.entry.head import EntryHead
from rebuild.window.entry.place import EntryPlace
from rebuild.window.entry.questions import EntryQuestions
from rebuild.window.ink.shapes import Shape
from rebuild.window.readings.grid import MeasurementGrid
from rebuild.words.readings import Stage
from rebuild.work.readings.entry import Taken
from rebuild.work.readings.rows_destination import read_back
from rebuild.work.readings.rows_grid import Key
from rebuild.work.records.rows_settings import decimal_comma, verdict_rule

#: An Enter this soon after a value was held does not confirm it: gauges may send two.
SETTLE_S = 0.15


class EntryLine(QWidget):
    """Takes readings one after another, typed or from a gauge."""

    stored = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.course = Course(desk)
        self.head = EntryHead(self)
        self.controls = EntryControls(self)
        self.field = self.controls.field
        self.answer = EntryAnswer(self)
        self.place = EntryPlace(desk, self.course, self.head, self.controls)
        self._held: str | None = None
        self._held_at = 0.0
        self._storing = False
        self._questions = EntryQuestions(desk, self.field, self.answer, lambda: self._enter(gauge=False))
        self._catcher = GaugeCatcher(self._takes_bursts, self)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 5, 8, 5)
        layout.setSpacing(4)
        for widget in (self.head, self.controls, self.answer):
            layout.addWidget(widget)
        self.setFocusProxy(self.field)
        self.setAccessibleName("Entry line")
        self._connect()
        self._other_file()

    def _connect(self) -> None:
        desk, field, controls = self._desk, self.field, self.controls
        for signal in (desk.opened, desk.closed, desk.machine_changed):
            signal.connect(self._other_file)
        desk.selection_changed.connect(self._follow_selection)
        desk.changed.connect(self._hear)
        field.entered.connect(self._enter)
        field.entered_now.connect(lambda: self._enter(gauge=False, now=True))
        field.textChanged.connect(self._edited)
        field.given_up.connect(self._give_up)
        field.chosen.connect(self.answer.take)
        field.sent.connect(self._questions.sent_meanwhile)
        field.step.connect(self._step)
        field.stage_step.connect(lambda by: controls.choose_stage(self.course.stage_beside(by)))
        field.undo_wanted.connect(desk.undo)
        field.redo_wanted.connect(desk.redo)
        field.focused.connect(self.place.land_somewhere)
        controls.taken_otherwise.connect(self.place.taken_otherwise)
        controls.again.clicked.connect(self.again)
        self.answer.working_wanted.connect(desk.ask_working)
        self._catcher.caught.connect(self.take_burst)

    # What others may ask

    def follow(self, grid: MeasurementGrid) -> None:
        """Move on in the grid's order; cells of the grid take readings the way this line does."""
        self.course.follow(lambda: grid.keys, grid.model.row_of)
        grid.set_how_taken(self.course.entry)
        grid.show_stage(self.course.stage)
        grid.typed.connect(self.take_key)
        grid.entry_wanted.connect(self.focus_entry)
        self.controls.stage_chosen.connect(grid.show_stage)

    def focus_entry(self) -> None:
        """Put the caret in the line."""
        self.field.setFocus(Qt.FocusReason.OtherFocusReason)

    def take_key(self, text: str) -> None:
        """A character typed elsewhere that is meant for the line."""
        self.focus_entry()
        self.field.deselect()
        self.field.insert(text)

    def remember(self, memory: Memory) -> None:
        """Keep stage, instrument and whether gauges are taken."""
        memory.put("entry/stage", self.course.stage.name)
        memory.put("entry/instrument", self.controls.instrument.currentText())
        memory.put("entry/gauge", "yes" if self.controls.gauge.isChecked() else "no")
        memory.put("entry/pending", self.field.text())

    def recall(self, memory: Memory) -> None:
        """Take back what ``remember`` kept."""
        name = memory.text("entry/stage")
        if name in Stage.__members__:
            self.controls.choose_stage(Stage[name])
        self.controls.choose_instrument(memory.text("entry/instrument"))
        self.controls.gauge.setChecked(memory.text("entry/gauge", "yes") == "yes")
        if not self.place.pending:
            self.field.setText(memory.text("entry/pending"))

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._catcher.watch(self.window().windowHandle())

    # Where it lands

    def _other_file(self) -> None:
        self.place.other_file()
        if not self.place.pending:
            self.answer.show_words("")

    def _follow_selection(self) -> None:
        """A method of this widget, so that Qt lets go of it with the widget."""
        self.place.follow_selection()

    def _step(self, by: int) -> None:
        if self.place.pending:
            self.place.show()
            self.answer.show_words("Store what is typed with Enter, or clear it with Esc, before moving on.")
        else:
            self.place.step(by)

    def again(self) -> None:
        """Back to the row stored last, to measure it once more."""
        self.focus_entry()
        if self.place.pending:
            self._step(0)
        elif not self.place.last_stored():
            self.answer.show_words("Nothing has been stored from this line yet.")

    def _hear(self, changed: Changed) -> None:
        if not self._storing and self.place.hear(changed):
            self.answer.show_words("Taken back. The line is on that row again.")

    # Typing

    def _edited(self, text: str) -> None:
        if self._held is not None and text.strip() != self._held:
            self._held = None
            self.answer.show_words("")
        if self._questions.open:
            self._questions.close()
        row = self.course.row
        comma = decimal_comma(self._desk.store) if self._desk.is_open and "," in text else None
        self.controls.read_live(text, row.unit if row is not None else "mm", comma)
        if self.course.key != self._desk.selection.key:
            self.place.follow_selection()

    def _give_up(self) -> None:
        """Esc: first out of a question, back to the text; then the text itself (Ctrl+Z brings it back)."""
        if self._questions.open or self._held is not None:
            self._questions.close()
            self._held = None
            self.answer.show_words("")
        else:
            self.field.clear()

    def _enter(self, gauge: bool, now: bool = False) -> None:
        if gauge and self._clash_in_field():
            return
        text = self.field.text().strip().rstrip(";").strip()
        if self._questions.open:
            self.answer.sentence.setText("Press the number of one of these, or Esc to go back to the text.")
            return
        if not text:
            return
        if self.course.row is None:
            self.answer.show_words("Choose the row it belongs to first; the value waits here.", Shape.ASKED)
            return
        confirmed = self._held == text
        if confirmed and time.monotonic() - self._held_at < SETTLE_S:
            return
        if now or confirmed or not self._wants_more(text):
            with self._desk.reading_together():
                self._store(text, confirmed=confirmed)

    def _wants_more(self, text: str) -> bool:
        """With several readings asked for: check the last one and wait for the next."""
        asked = self.controls.repeats.value()
        parts = [part.strip() for part in text.split(";") if part.strip()]
        if len(parts) >= asked or self.course.row is None:
            return False
        try:
            parse_repeats(
                parts[-1], self.course.row.unit, "Reading", decimal_comma=decimal_comma(self._desk.store)
            )
        except Ambiguous as trouble:
            self._questions.ask_which(trouble)
        except RebuildError as trouble:
            self.answer.show_words(str(trouble), Shape.CAUTION)
        else:
            self.field.end(False)
            if not self.field.text().rstrip().endswith(";"):
                self.field.insert("; ")
            self.answer.show_words(
                f"{len(parts)} of {asked} readings; their mean is stored when all are in. "
                "Ctrl+Enter stores what is there."
            )
        return True

    # Storing

    def _store(self, text: str, *, confirmed: bool = False) -> None:
        from rebuild.work.readings.acts import record_reading

        there = self._desk.selection.key == self.course.key
        way_on = self.course.next_unread() if there else self._desk.selection.key
        self._storing = True
        try:
            taken = record_reading(self._desk.store, text, self.course.entry(), confirmed=confirmed)
        except Implausible as trouble:
            self._held, self._held_at = text, time.monotonic()
            self.answer.show_words(str(trouble), Shape.ASKED)
        except Ambiguous as trouble:
            self._questions.ask_which(trouble)
        except RebuildError as trouble:
            self.answer.show_words(str(trouble), Shape.CAUTION)
        else:
            self._done(taken, way_on)
        finally:
            self._storing = False

    def _done(self, taken: Taken, way_on: Key | None) -> None:
        self.course.remember(taken.reading_id)
        self._held = None
        self.field.setText("")
        with self._desk.store.read() as connection:
            back = read_back(connection, taken.reading_id, verdict_rule(self._desk.store))
        self.answer.show_stored(back)
        if way_on is None or way_on == self.course.key:
            self.place.look_again()
        else:
            self.place.go_on_to(way_on)
        self.stored.emit(taken)

    # Gauges

    def _takes_bursts(self) -> bool:
        return self.controls.gauge.isChecked() and self.isVisible() and self._desk.is_open

    def take_burst(self, text: str) -> None:
        """A value a gauge sent while nothing was being edited."""
        held = self.field.text().strip()
        if self._questions.open:
            self._questions.sent_meanwhile(text)
        elif held and not held.endswith(";"):
            self._held = None
            self._questions.ask_gauge_or_typed(held, text.strip(), self.head.place.text())
        else:
            self.place.land_somewhere()
            self.field.end(False)
            self.field.insert(text)
            self._enter(gauge=True)
        if self.place.pending:
            self.focus_entry()  # it asks something, or waits for more: its keys work only there

    def _clash_in_field(self) -> bool:
        """Whether a burst ran into something already typed; then it is asked which one is meant."""
        start, end = self.field.burst.start, self.field.cursorPosition()
        whole = self.field.text()
        typed, sent = (whole[:start] + whole[end:]).strip(), whole[start:end].strip()
        if not typed or typed.endswith(";") or not sent:
            return False
        self._held = None
        self.field.setText(typed)
        self._questions.ask_gauge_or_typed(typed, sent, self.head.place.text())
        return True
