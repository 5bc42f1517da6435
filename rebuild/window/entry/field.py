"""The entry line's field: large, and able to tell a gauge's burst from a person's typing."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, QTimer, Signal
from PySide6.QtGui import QFocusEvent, QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit, QWidget

from rebuild.window.desk.gauge_keys import LATE_END_MS, is_plain
from rebuild.window.entry.gauge import GAP_MS, IDLE_MS, LEAST, Burst, stamp
from rebuild.window.ink import theme
from rebuild.window.readings.clipboard import to_cells

#: A digit alone answers when nothing follows it for so long: a slow hand may still be typing a value [ms].
ANSWER_MS = 600


class EntryField(QLineEdit):
    """Says what was meant by its keys; decides nothing.

    ``entered(gauge)``: the text is to be stored, by a person (False) or from a gauge (True).
    ``entered_now()``: stored at once, though fewer readings are there than asked for.
    ``several``: what is pasted are several cells, which one line does not hold.
    ``chosen(n)``: key ``n`` alone while a question is open. ``sent(text)``: a gauge's value that arrived meanwhile;
    ``typed_on(text)``: what a hand begins to type past the question.
    """

    entered = Signal(bool)
    entered_now = Signal()
    chosen = Signal(int)
    sent = Signal(str)
    typed_on = Signal(str)
    given_up = Signal()
    step = Signal(int)
    stage_step = Signal(int)
    undo_wanted = Signal()
    redo_wanted = Signal()
    focused = Signal()
    several = Signal()  #: a paste of more cells than one

    keeps_its_text = True  #: what waits here is remembered when the window closes: it is never put by

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFont(theme.large(self.font(), 1.6))
        self.setAccessibleName("Reading")
        self.from_gauge = True
        self.question_open = False
        self.burst = Burst()
        self._answer, self._answered_at = "", 0.0
        self._ended_by_itself = -1e9  # the time of the last key of a burst that ended in nothing
        self._idle = QTimer(self)
        self._idle.setSingleShot(True)
        self._idle.timeout.connect(self._idled)
        self._looked_again = False

    def event(self, event: QEvent) -> bool:
        if event.type() is QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            tab = event.key() == Qt.Key.Key_Tab and not event.modifiers()
            if tab and self.from_gauge and (self._collecting() or self.burst.ends_at(stamp(event))):
                self._end(gauge=True)
                return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        ended, self._ended_by_itself = self._ended_by_itself, -1e9
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if is_plain(event) and 0 <= stamp(event) - ended <= LATE_END_MS:
                return  # the value has been sent already; this Enter confirms nothing
            if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
                self._forget()
                self.entered_now.emit()
                return
            self._end(gauge=self.from_gauge and (self._collecting() or self.burst.ends_at(stamp(event))))
        elif event.key() == Qt.Key.Key_Escape:
            self._forget()
            self.given_up.emit()
        elif event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            by = -1 if event.key() == Qt.Key.Key_Up else 1
            by_stage = event.modifiers() & Qt.KeyboardModifier.ControlModifier
            (self.stage_step if by_stage else self.step).emit(by)
        elif self._nothing(self.isUndoAvailable()) and event.matches(QKeySequence.StandardKey.Undo):
            self.undo_wanted.emit()
        elif self._nothing(self.isRedoAvailable()) and event.matches(QKeySequence.StandardKey.Redo):
            self.redo_wanted.emit()
        elif event.matches(QKeySequence.StandardKey.Paste) and _holds_several():
            self.several.emit()
        elif self.question_open and len(event.text()) == 1 and event.text().isprintable():
            self.answering(event.text(), stamp(event))
        else:
            self._typing(event)

    def _nothing(self, kept: bool) -> bool:
        """Whether undo and redo mean the file, not the text typed here."""
        return not self.text() and not kept

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.focused.emit()

    def begin_anew(self) -> bool:
        """With the whole text chosen: empty the field, so that what follows is a text of its own, not an edit."""
        whole = self.hasSelectedText() and self.selectedText() == self.text()
        if whole:
            self.del_()
        return whole

    def _typing(self, event: QKeyEvent) -> None:
        if len(event.text()) == 1 and event.text().isprintable():
            self.begin_anew()
        place = self.selectionStart() if self.hasSelectedText() else self.cursorPosition()
        super().keyPressEvent(event)
        if len(event.text()) != 1 or not event.text().isprintable() or event.isAutoRepeat():
            self._forget()
            return
        self.burst.key(stamp(event), place)
        if self.from_gauge and self.burst.is_burst:
            self._wait(IDLE_MS)
        else:
            self._idle.stop()

    def key_put(self, at: float, place: int) -> None:
        """A key pressed elsewhere [ms] was put here: it may have begun a burst whose rest comes by itself."""
        self.burst.key(at, place)
        if self.from_gauge and self.burst.is_burst:
            self._wait(IDLE_MS)

    def _wait(self, ms: int) -> None:
        self._looked_again = False
        self._idle.start(ms)

    def _idled(self) -> None:
        """A busy window hears its timers before the keys that came meanwhile: those are let in first."""
        if self._looked_again:
            self._quiet()
        else:
            self._looked_again = True
            self._idle.start(1)

    def answering(self, text: str, at: float) -> None:
        """A key at a time [ms] while a question is open.

        A digit alone answers it. More that follow are a value: of a gauge, or of a hand that types on.
        """
        by_hand = bool(self._answer) and at - self._answered_at > GAP_MS
        if by_hand and self._collecting():
            self._quiet()  # a gauge's value, and it has ended
            by_hand = False
        self._answer += text
        self._answered_at = at
        if by_hand:
            self._quiet()
        else:
            self._wait(ANSWER_MS if len(self._answer) < LEAST else IDLE_MS)

    def _collecting(self) -> bool:
        return len(self._answer) >= LEAST

    def _end(self, *, gauge: bool) -> None:
        self._idle.stop()
        if self._answer:
            typed_on = len(self._answer) > 1 and not self._collecting()
            self._quiet()
            if typed_on:
                self.entered.emit(False)
            return
        self.entered.emit(gauge)
        self.burst.forget()

    def _quiet(self) -> None:
        """Nothing came for a while."""
        answer, self._answer = self._answer, ""
        if len(answer) == 1 and answer.isdigit():
            self.chosen.emit(int(answer))
        elif len(answer) >= LEAST:
            self.sent.emit(answer)
        elif answer:
            self.typed_on.emit(answer)
        elif not answer and self.from_gauge and self.burst.is_burst:
            self._ended_by_itself = self.burst.last
            self.entered.emit(True)
            self.burst.forget()

    def _forget(self) -> None:
        self._idle.stop()
        self._answer = ""
        self.burst.forget()


def _holds_several() -> bool:
    return sum(len(row) for row in to_cells(QGuiApplication.clipboard().text())) > 1
