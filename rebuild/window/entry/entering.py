"""Enter on the line: what is held for one keypress, what waits for more readings, and what is stored."""

from __future__ import annotations

import time
from collections.abc import Callable

from rebuild.errors import Ambiguous, Implausible, RebuildError
from rebuild.trade.sizes.quantity import parse_repeats
from rebuild.trade.threads.taken import split_taken
from rebuild.window.desk.desk import Desk
from rebuild.window.entry.answer import EntryAnswer
from rebuild.window.entry.controls import EntryControls
from rebuild.window.entry.course import Course
from rebuild.window.entry.place import EntryPlace
from rebuild.window.entry.questions import EntryQuestions
from rebuild.window.ink.shapes import Shape
from rebuild.work.landings.stored import Stored
from rebuild.work.records.rows_settings import decimal_comma

#: An Enter this soon after a value was held does not confirm it: gauges may send two.
SETTLE_S = 0.15


class Entering:
    """Decides what Enter does with the text in the field; ``stored`` hears of a value that was put."""

    def __init__(
        self,
        desk: Desk,
        course: Course,
        place: EntryPlace,
        controls: EntryControls,
        answer: EntryAnswer,
        questions: EntryQuestions,
        stored: Callable[[Stored], None],
    ) -> None:
        self._desk, self._course, self._place = desk, course, place
        self._controls, self._field = controls, controls.field
        self._answer, self._questions, self._stored = answer, questions, stored
        self._held: str | None = None
        self._asked: str | None = None
        self._held_at = 0.0
        #: A text that was questioned or refused, and not stored: what is typed next takes its place.
        self.let_go = ""

    @property
    def holds(self) -> bool:
        """Whether a text waits for one more keypress."""
        return self._held is not None

    def no_longer_holds(self) -> None:
        """The text held is no longer what the next Enter would store."""
        self._held = None

    def other_row(self) -> None:
        """Another row is in hand: nothing that was held on the one before is confirmed there."""
        if self._held is not None:
            self._let_go_of_held()
        self._held = self._asked = None

    def edited(self, text: str) -> None:
        """The field holds another text."""
        if self._held is not None and text.strip() != self._held:
            self._held = None
            self._answer.show_words("")

    def give_up(self) -> None:
        """Esc: first out of a question, back to the text; then the text itself (Ctrl+Z brings it back).

        A text that was held is chosen then, so that what is typed next takes its place.
        """
        if self._questions.open or self._held is not None:
            was_held, self._held = self._held is not None, None
            self._questions.close()
            self._answer.show_words("")
            if was_held:
                self._let_go_of_held()
        else:
            self._field.clear()

    def _let_go_of_held(self) -> None:
        """What was questioned is not stored: what is typed next, here or on another row, is a text of its own."""
        self.let_go = self._field.text()
        self._field.selectAll()

    def enter(self, *, now: bool = False) -> None:
        """Store the text, or ask or say why not; ``now`` does not wait for more readings."""
        text = self._field.text().strip().rstrip(";").strip()
        if self._questions.open:
            self._answer.sentence.setText(
                "Press the number of one of these, type another value, or Esc to go back to the text."
            )
            return
        if not text:
            return
        if self._course.landing is None:
            self._answer.show_words("Choose the row it belongs to first; the value waits here.", Shape.ASKED)
            return
        if self._place.typed_for:
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
        landing = self._course.landing
        words = landing.words if landing is not None else ""
        self._answer.show_words(
            f"“{text}” was typed for {self._place.typed_for}. Press Enter again to store it on {words}.",
            Shape.ASKED,
        )
        self._place.means_this_row()
        self._asked, self._held_at = text, time.monotonic()

    def _wants_more(self, text: str) -> bool:
        """With several readings asked for: check the last one and wait for the next."""
        asked = self._controls.repeats.value()
        parts = [part.strip() for part in text.split(";") if part.strip()]
        if len(parts) >= asked or self._course.row is None:
            return False
        try:
            parse_repeats(
                split_taken(parts[-1])[0],
                self._course.unit,
                "Reading",
                decimal_comma=decimal_comma(self._desk.store),
            )
        except Ambiguous as trouble:
            self._questions.ask_which(trouble)
        except RebuildError as trouble:
            self._answer.show_words(str(trouble), Shape.CAUTION)
        else:
            self._field.end(False)
            if not self._field.text().rstrip().endswith(";"):
                self._field.insert("; ")
            self._answer.show_words(
                f"{len(parts)} of {asked} readings; their mean is stored when all are in. "
                "Ctrl+Enter stores what is there."
            )
        return True

    def _store(self, text: str, *, confirmed: bool = False) -> None:
        from rebuild.work.landings.acts import put

        landing = self._course.landing
        if landing is None:
            return
        try:
            stored = put(self._desk.store, text, landing, self._course.how, confirmed=confirmed)
        except Implausible as trouble:
            self._held, self._held_at = text, time.monotonic()
            self._answer.show_words(str(trouble), Shape.ASKED)
        except Ambiguous as trouble:
            self._questions.ask_which(trouble)
        except RebuildError as trouble:
            self.let_go = self._field.text()
            self._answer.show_words(str(trouble), Shape.CAUTION)
        else:
            self._held = None
            self._field.setText("")
            self._desk.remember(stored)
            self._stored(stored)
