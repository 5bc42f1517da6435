"""What the entry line says of a value that was stored: read back from the file, and where the line stands then."""

from __future__ import annotations

from collections.abc import Callable

from rebuild.window.desk.desk import Desk
from rebuild.window.entry.answer import EntryAnswer
from rebuild.window.entry.place import EntryPlace
from rebuild.work.landings.stored import Stored, replaces
from rebuild.work.readings.rows_destination import read_back
from rebuild.work.records.rows_settings import verdict_rule


class Told:
    """Says each value stored once, and with the last row what is ``left``; it knows which one its answer speaks of."""

    def __init__(self, desk: Desk, answer: EntryAnswer, place: EntryPlace, left: Callable[[], str]) -> None:
        self._desk, self._answer, self._place = desk, answer, place
        self._told: Stored | None = None
        self._left = left

    def put(self, stored: Stored, done: str = "Stored on") -> None:
        """A value was put on the row in hand: read it back and move on."""
        on = f"{done} {stored.landing.words}.{replaces(stored)}"
        if not self._place.move_on(corrected=bool(stored.replaced)):
            on += self._left() or " It was the last row here: choose a row."
        self._tell(stored, on)

    def put_in_cell(self, stored: Stored) -> None:
        """A value typed into a cell is read back as one from the line is; the grid itself goes on down its column."""
        self._tell(stored, f"Stored on {stored.landing.words}.{replaces(stored)}")

    def pasted(self, stored: Stored) -> None:
        """The first of a pasted column is read back; the sentence does not go on about the value before it."""
        more = len(stored.behind)
        below = f", and {more} more below it" if more else ""
        self._tell(stored, f"Pasted on {stored.landing.words}{below}.")

    def stepped(self, stored: Stored, undone: bool) -> None:
        """Undo took a value off its row: that row is in hand again. Redo put it there: on to the row behind."""
        landing = stored.landing
        self._place.go_on_to((landing.row[0], landing.row[1]), landing.part_stage)
        if undone:
            self._answer.show_words(f"{stored.said} taken back. The line is on its row again.")
        else:
            self.put(stored, "Stored again on")

    def values_changed(self) -> None:
        """What the answer says is stored was taken back or moved meanwhile."""
        told, self._told = self._told, self._told if self._told in self._desk.recent else None
        if told is not None and self._told is None and self._desk.is_open and self._answer.tells_stored:
            self._answer.show_words(f"{told.said} is no longer on {told.landing.words}.")

    def _tell(self, stored: Stored, on: str) -> None:
        with self._desk.store.read() as connection:
            back = read_back(connection, stored.id, verdict_rule(self._desk.store))
        self._answer.show_stored(back, on)
        self._told = stored
