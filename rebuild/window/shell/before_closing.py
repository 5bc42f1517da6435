"""What is said once before the window goes, and then no more: the only copy left, readings without a row."""

from __future__ import annotations

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.files import Files


class BeforeClosing:
    """What one window has said already before it closes."""

    def __init__(self, desk: Desk, files: Files) -> None:
        self._desk = desk
        self._files = files
        self._warned_of_last_copy = False
        self._told_waiting = ""

    def must_wait(self) -> bool:
        """Say what was not said yet; True when something was, and the window stays."""
        last_copy = self._desk.last_copy
        if last_copy is not None and not self._warned_of_last_copy:
            self._warned_of_last_copy = True
            self._files.lost(last_copy)
            return True
        return self._tells_of_waiting()

    def _tells_of_waiting(self) -> bool:
        """Say once, before the window goes, what has no row yet; it stays in the file either way."""
        if not self._desk.is_open or self._desk.store.unreadable:
            return False
        from rebuild.work.landings.rows import unplaced, waiting_words

        with self._desk.store.read() as connection:
            said = waiting_words(unplaced(connection))
        if not said or said == self._told_waiting:
            return False
        self._told_waiting = said
        self._desk.say(f"{said} It is kept in the file. Close once more to leave it so.", Say.ASK)
        return True
