"""The questions of the entry line: which reading of a text is meant, the gauge's value or the typed one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from rebuild.errors import Ambiguous
from rebuild.window.desk.desk import Desk
from rebuild.window.entry.answer import EntryAnswer, Way
from rebuild.window.entry.field import EntryField
from rebuild.work.readings.pasted import in_unit_named, is_heading, unit_named, without_heading
from rebuild.work.records.acts_settings import set_decimal_comma


class EntryQuestions:
    """Asks with numbered ways on; ``resume`` tries the mended text again. The text stays while it asks.

    What a gauge sent meanwhile and was not chosen goes to ``keep``: it is never lost.
    """

    def __init__(
        self,
        desk: Desk,
        field: EntryField,
        answer: EntryAnswer,
        resume: Callable[[], None],
        keep: Callable[[str], None],
    ) -> None:
        self._desk = desk
        self._field = field
        self._answer = answer
        self._resume = resume
        self._keep = keep
        self._meanwhile: list[str] = []
        self._beside = ""  #: the text in the line a gauge's value came beside

    @property
    def open(self) -> bool:
        """Whether a question waits for its answer."""
        return self._field.question_open

    def close(self) -> None:
        """Let the question go; the text stays."""
        self._field.question_open = False
        self._beside = ""
        meanwhile, self._meanwhile = self._meanwhile, []
        for value in meanwhile:
            self._keep(value)
        if self._answer.ways:
            self._answer.show_words("")

    def ask_which(self, trouble: Ambiguous) -> None:
        """Offer the honest readings of a text by number; a comma can be settled for the whole file."""
        ways = [self._retyping(meaning, trouble.value, retyped) for meaning, retyped in trouble.readings]
        meanings = {meaning for meaning, _ in trouble.readings}
        ways += [
            self._settling(meaning, decimal)
            for meaning, decimal in (("decimal comma", True), ("thousands", False))
            if meaning in meanings
        ]
        self._ask(f"“{trouble.value}” {trouble.what}", ways)

    def ask_gauge_or_typed(self, typed: str, sent: str, where: str) -> None:
        """A gauge sent a value while another text was in the line. Not chosen, it waits for a row."""
        value = sent.strip()
        self._meanwhile.append(value)
        self._beside = typed.strip()

        def take() -> None:
            self._meanwhile.remove(value)
            self._try(sent)

        ways = [Way(f"store {sent} from the gauge", take), Way(f"keep {typed}", self.close)]
        self._ask(f"The gauge sent “{sent}” while “{typed}” was in the line ({where}).", ways)

    def sent_meanwhile(self, text: str) -> None:
        """A value sent while a question is open: it becomes one more way on."""
        value = text.strip()
        self._meanwhile.append(value)

        def take() -> None:
            self._meanwhile.remove(value)
            self._try(value)

        asked = self._answer.sentence.text()
        self._ask(
            f"{asked} “{value}” came meanwhile.",
            [*self._answer.ways, Way(f"{value} instead", take)],
        )

    def chosen(self, number: int) -> None:
        """A digit alone: the way of that number; where there is none a value begins with it."""
        if number and number <= len(self._answer.ways):
            self._answer.take(number)
        else:
            self.typed_on(str(number))

    def typed_on(self, text: str) -> None:
        """What a hand begins to type past the question takes the place of the text in the line.

        A text the gauge's value came beside was a value of its own: it is kept as that is. Any other is only
        written anew, as the question asks; Ctrl+Z brings it back.
        """
        beside = self._beside
        self.close()
        if beside:
            self._keep(beside)
        self._field.setFocus()
        self._field.selectAll()
        self._field.insert(text)

    def ask_whole_column(self, cells: Sequence[str], paste: Callable[[], None] | None) -> None:
        """Several cells were pasted into the line: into the grid from this row on, or only the first of them."""
        heading, plain = without_heading(cells)
        plain = [in_unit_named(cell, unit_named(heading)) for cell in plain if not is_heading(cell)] or list(
            cells
        )
        if len(plain) < 2:
            self._try(plain[0]) if plain else None
            return
        ways = [Way(f"only the first, {plain[0]}", lambda: self._put_in(plain[0]))]
        if paste is not None:
            ways.insert(0, Way("into the grid, from this row down", partial(self._into_grid, paste)))
        self._ask(f"The clipboard holds {len(plain)} values; the line takes one.", ways)

    def _into_grid(self, paste: Callable[[], None]) -> None:
        self.close()
        paste()

    def _put_in(self, text: str) -> None:
        self.close()
        self._field.setText(text)
        self._field.setFocus()

    def _ask(self, sentence: str, ways: list[Way]) -> None:
        self._field.question_open = True
        self._answer.ask(sentence, ways)

    def _retyping(self, meaning: str, value: str, retyped: str) -> Way:
        def take() -> None:
            self._try(self._field.text().replace(value, retyped, 1))

        return Way(f"{retyped} ({meaning})", take)

    def _settling(self, meaning: str, decimal: bool) -> Way:
        def take() -> None:
            self._desk.attempt(lambda: set_decimal_comma(self._desk.store, decimal))
            self._try(self._field.text())

        return Way(f"{meaning}, from now on in this file", take)

    def _try(self, text: str) -> None:
        self.close()
        self._field.setText(text)
        self._field.setFocus()
        self._resume()
