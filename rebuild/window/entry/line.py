"""The entry line under the grid: where the next value lands, the value, and its answer.

Typed and gauge-sent values go the same way: to the row in hand of the surface it follows. A text begun on one
row and finished on another is held for one keypress. ``follow(grid)`` lets it move on in the order of the grid.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication, QHideEvent, QShowEvent
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

from rebuild.errors import Ambiguous, Implausible, RebuildError
from rebuild.store.changed import Changed
from rebuild.trade.sizes.quantity import is_bare, parse_repeats
from rebuild.trade.threads.taken import split_taken
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.entry.answer import EntryAnswer
from rebuild.window.entry.bursts import Bursts
from rebuild.window.entry.bursts_kept import keep
from rebuild.window.entry.controls import EntryControls
from rebuild.window.entry.course import Course
from rebuild.window.entry.head import EntryHead
from rebuild.window.entry.place import EntryPlace
from rebuild.window.entry.questions import EntryQuestions
from rebuild.window.entry.recent import RecentValues
from rebuild.window.ink.shapes import Shape
from rebuild.window.readings.clipboard import to_cells
from rebuild.window.readings.grid import MeasurementGrid
from rebuild.words.readings import Stage
from rebuild.work.landings.stored import How, Stored, replaces
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.readings.rows_destination import read_back
from rebuild.work.readings.rows_grid import GridRow, Key
from rebuild.work.records.rows_settings import decimal_comma, verdict_rule

#: An Enter this soon after a value was held does not confirm it: gauges may send two.
SETTLE_S = 0.15


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
        self._held: str | None = None
        self._asked: str | None = None
        self._let_go = ""
        self._held_at = 0.0
        self._said_on: tuple[int, ...] | None = None
        self._told: Stored | None = None
        self._show_stage: Callable[[Stage], None] = lambda _stage: None
        self._say_row: Callable[[], None] = lambda: None
        #: What is still to be seen to behind the last row, as a sentence.
        self.left: Callable[[], str] = str
        self._home: QWidget | None = None
        self._paste_block: Callable[[], None] | None = None
        self._questions = EntryQuestions(
            desk, self.field, self.answer, lambda: self._enter(gauge=False), self._keep
        )
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
        field.entered_now.connect(lambda: self._enter(gauge=False, now=True))
        field.textChanged.connect(self._edited)
        field.several.connect(self._several)
        field.given_up.connect(self._give_up)
        field.chosen.connect(self.answer.take)
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
        if self._let_go and self.field.text() == self._let_go:
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
        if self._held is not None:
            self._let_go_of_held()
        self._held = self._asked = None
        landing = self.course.landing
        row, self._said_on = self._said_on, landing.row if landing is not None else None
        if row != self._said_on and not (self.answer.tells_stored or self._questions.open):
            self.answer.show_words("")  # it was said of the row in hand before
        if not self.field.text():
            self.field.setText("")  # a text given up on another row does not come back on this one
        if self.course.landing is None and self.field.hasFocus() and self._home is not None:
            self._home.setFocus()
        self.place.show()
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
        """Undo took a value off its row: that row is in hand again. Redo put it there: on to the row behind."""
        landing = stored.landing
        if self._desk.surface is not self or landing.row not in list(self.course.order()):
            return
        self.place.go_on_to((landing.row[0], landing.row[1]), landing.part_stage)
        if undone:
            self.answer.show_words(f"{stored.said} taken back. The line is on its row again.")
        else:
            self._read_back(stored, "Stored again on")

    def _values_changed(self) -> None:
        """What the answer says is stored was taken back or moved meanwhile."""
        told, self._told = self._told, self._told if self._told in self._desk.recent else None
        if told is not None and self._told is None and self._desk.is_open and self.answer.tells_stored:
            self.answer.show_words(f"{told.said} is no longer on {told.landing.words}.")

    def _add_instrument(self) -> None:
        from rebuild.window.forms.new import new_instrument

        if self._desk.is_open:
            new_instrument(self._desk, self.window(), self.controls.take_instrument)

    def _gauge_turned(self, on: bool) -> None:
        self._desk.from_gauge = on

    # Typing

    def _edited(self, text: str) -> None:
        self._desk.hand.touched()
        if self._held is not None and text.strip() != self._held:
            self._held = None
            self.answer.show_words("")
        if self._questions.open:
            self._questions.close()
        elif not self.answer.tells_stored:
            self.answer.show_words("")
        comma = decimal_comma(self._desk.store) if self._desk.is_open and "," in text else None
        self.controls.read_live(text, self.course.unit, comma)
        self.place.text_touched()

    def _several(self) -> None:
        """A column pasted here belongs into the grid; the line takes one value."""
        cells = [cell for row in to_cells(QGuiApplication.clipboard().text()) for cell in row if cell.strip()]
        self._questions.ask_whole_column(cells, self._paste_block if self.course.landing else None)

    def _give_up(self) -> None:
        """Esc: first out of a question, back to the text; then the text itself (Ctrl+Z brings it back).

        A text that was held is chosen then, so that what is typed next takes its place.
        """
        if self._questions.open or self._held is not None:
            was_held, self._held = self._held is not None, None
            self._questions.close()
            self.answer.show_words("")
            if was_held:
                self._let_go_of_held()
        else:
            self.field.clear()

    def _let_go_of_held(self) -> None:
        """What was questioned is not stored: what is typed next, here or on another row, is a text of its own."""
        self._let_go = self.field.text()
        self.field.selectAll()

    def _enter(self, gauge: bool, now: bool = False) -> None:
        if gauge and self._clash_in_field():
            return
        text = self.field.text().strip().rstrip(";").strip()
        if self._questions.open:
            self.answer.sentence.setText("Press the number of one of these, or Esc to go back to the text.")
            return
        if not text:
            return
        if self.course.landing is None:
            self.answer.show_words("Choose the row it belongs to first; the value waits here.", Shape.ASKED)
            return
        if self.place.typed_for:
            self._ask_whose(text)
            return
        confirmed = self._held == text
        if text in (self._held, self._asked) and time.monotonic() - self._held_at < SETTLE_S:
            return
        if now or confirmed or not self._wants_more(text):
            with self._desk.reading_together(), self._desk.hand.putting():
                self._store(text, confirmed=confirmed)

    def _ask_whose(self, text: str) -> None:
        """A text begun on another row is held for one keypress: it goes where the eye is, but never unseen."""
        landing = self.course.landing
        words = landing.words if landing is not None else ""
        self.answer.show_words(
            f"“{text}” was typed for {self.place.typed_for}. Press Enter again to store it on {words}.",
            Shape.ASKED,
        )
        self.place.means_this_row()
        self._asked, self._held_at = text, time.monotonic()

    def _wants_more(self, text: str) -> bool:
        """With several readings asked for: check the last one and wait for the next."""
        asked = self.controls.repeats.value()
        parts = [part.strip() for part in text.split(";") if part.strip()]
        if len(parts) >= asked or self.course.row is None:
            return False
        try:
            parse_repeats(
                split_taken(parts[-1])[0],
                self.course.unit,
                "Reading",
                decimal_comma=decimal_comma(self._desk.store),
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
        from rebuild.work.landings.acts import put

        landing = self.course.landing
        if landing is None:
            return
        try:
            stored = put(self._desk.store, text, landing, self.course.how, confirmed=confirmed)
        except Implausible as trouble:
            self._held, self._held_at = text, time.monotonic()
            self.answer.show_words(str(trouble), Shape.ASKED)
        except Ambiguous as trouble:
            self._questions.ask_which(trouble)
        except RebuildError as trouble:
            self.answer.show_words(str(trouble), Shape.CAUTION)
        else:
            self._held = None
            self.field.setText("")
            self._desk.remember(stored)
            self.value_put(stored)

    def value_put(self, stored: Stored) -> None:
        """Read a value back that was just stored on the row in hand, and move on."""
        self.controls.note.clear()
        self._read_back(stored, "Stored on")
        self.stored.emit(stored)

    def _cell_stored(self, stored: Stored) -> None:
        """A value typed into a cell is read back as one from here is; the grid itself goes on down its column."""
        self.controls.note.clear()
        self._tell(stored, f"Stored on {stored.landing.words}.{replaces(stored)}")

    def _column_pasted(self, stored: Stored) -> None:
        """The first of a pasted column is read back; the sentence does not go on about the value before it."""
        more = len(stored.behind)
        below = f", and {more} more below it" if more else ""
        self._tell(stored, f"Pasted on {stored.landing.words}{below}.")

    def _read_back(self, stored: Stored, done: str) -> None:
        on = f"{done} {stored.landing.words}.{replaces(stored)}"
        if not self.place.move_on(corrected=bool(stored.replaced)):
            on += self.left() or " It was the last row here: choose a row."
        self._tell(stored, on)

    def _tell(self, stored: Stored, on: str) -> None:
        with self._desk.store.read() as connection:
            back = read_back(connection, stored.id, verdict_rule(self._desk.store))
        self.answer.show_stored(back, on)
        self._told = stored

    def how(self) -> How:
        """How a value is taken now."""
        return self.course.how

    def rows_from(self, landing: Landing, like: Sequence[Landing]) -> list[Landing]:
        """The rows of a column begun on a landing, as far apart as those it lay on."""
        return self.course.rows_from(landing, like)

    # Gauges

    def take_burst(self, text: str) -> None:
        """A value a gauge sent: to the row in hand; with none, or past a text half typed in a cell, it is kept."""
        held = self.field.text().strip()
        if self._questions.open:
            self._questions.sent_meanwhile(text)
        elif self.course.landing is None or getattr(QApplication.focusWidget(), "unsaved", False):
            self._keep(text)
        elif held and not held.endswith(";"):
            self._held = None
            self._questions.ask_gauge_or_typed(held, text, self.head.place.text())
        else:
            self.field.burst.forget()  # keys typed here before are no part of it
            self.field.end(False)
            self.field.insert(text)
            self._enter(gauge=True)
        if self.place.pending and self.course.landing is not None:
            self.focus_entry()  # it asks something, or waits for more: its keys work only there

    def _keep(self, text: str) -> None:
        keep(self._desk, text, self.course.surface.value, self.course.how)

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
