"""What a gauge sends to the line: into its field and stored, asked about beside a typed text, or kept without a row."""

from __future__ import annotations

from PySide6.QtWidgets import QApplication

from rebuild.window.desk.desk import Desk
from rebuild.window.entry.bursts_kept import HALF_TYPED, NO_ROW, keep
from rebuild.window.entry.course import Course
from rebuild.window.entry.entering import Entering
from rebuild.window.entry.field import EntryField
from rebuild.window.entry.head import EntryHead
from rebuild.window.entry.questions import EntryQuestions


class SentValues:
    """Takes the bursts of a gauge for one entry line."""

    def __init__(
        self,
        desk: Desk,
        course: Course,
        field: EntryField,
        head: EntryHead,
        questions: EntryQuestions,
        entering: Entering,
    ) -> None:
        self._desk, self._course, self._field, self._head = desk, course, field, head
        self._questions, self._entering = questions, entering

    def take(self, text: str) -> None:
        """A value sent: to the row in hand; with none, or past a text half typed in a cell, it is kept."""
        held = self._field.text().strip()
        no_row = self._course.landing is None  # a question may still be open then, of a row nobody looks at
        if self._questions.open and not no_row:
            self._questions.sent_meanwhile(text)
        elif no_row or getattr(QApplication.focusWidget(), "unsaved", False):
            why = NO_ROW if no_row else HALF_TYPED
            keep(self._desk, text, self._course.surface.value, self._course.how, why)
        elif held and held != text.strip() and not held.endswith(";"):
            self._ask_which(held, text)
        else:
            self._field.burst.forget()  # keys typed here before are no part of it
            if held != text.strip():
                self._field.end(False)
                self._field.insert(text)
            self.enter()

    def enter(self) -> None:
        """A burst in the field ended: store it, unless it ran into something already typed."""
        if not self._clash_in_field():
            self._entering.enter()

    def _clash_in_field(self) -> bool:
        """Whether a burst ran into something already typed; then it is asked which one is meant."""
        start, end = self._field.burst.start, self._field.cursorPosition()
        whole = self._field.text()
        typed, sent = (whole[:start] + whole[end:]).strip(), whole[start:end].strip()
        if not typed or typed.endswith(";") or not sent:
            return False
        self._entering.no_longer_holds()
        self._field.setText(typed)
        self._questions.ask_gauge_or_typed(typed, sent, self._head.place.text())
        return True

    def _ask_which(self, typed: str, sent: str) -> None:
        self._entering.no_longer_holds()
        self._questions.ask_gauge_or_typed(typed, sent, self._head.place.text())
