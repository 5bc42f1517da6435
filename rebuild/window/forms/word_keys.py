"""Which word of a closed list the typed letters mean: its beginning first, else the beginning of any word in it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QElapsedTimer, Qt
from PySide6.QtGui import QGuiApplication, QKeyEvent


class WordKeys:
    """Letters typed one after another without a pause, and the row they mean."""

    def __init__(self) -> None:
        self._typed = ""
        self._since = QElapsedTimer()

    def row_for(self, event: QKeyEvent, words: Sequence[str], current: int) -> int | None:
        """The row a key leads to; None for a key that is no letter, or letters no word begins with."""
        text = event.text()
        held = event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier)
        if not text or not text.isprintable() or held:
            return None
        paused = not self._since.isValid() or self._since.elapsed() > _pause()
        if paused and text.isspace():
            return None
        self._typed = text.casefold() if paused else self._typed + text.casefold()
        self._since.restart()
        row = row_meant(self._typed, words, current)
        if row is None and len(self._typed) > 1:
            self._typed = text.casefold()  # a mistake before it, or another word begun
            row = row_meant(self._typed, words, current)
        return row


def row_meant(typed: str, words: Sequence[str], current: int) -> int | None:
    """The row whose words begin with what was typed; the same letter again goes on to the next.

    >>> kinds = ("lathe", "gear cutter", "surface grinder", "drill press", "drilling lathe")
    >>> [row_meant(typed, kinds, 0) for typed in ("grin", "g", "press", "drill", "x")]
    [2, 1, 3, 3, None]
    >>> row_meant("dd", kinds, 3)
    4
    """
    again = len(set(typed)) == 1 and len(typed) > 1
    for said in (typed, typed[0]) if again else (typed,):
        after = current + 1 if len(said) == 1 else current
        rows = [(after + at) % len(words) for at in range(len(words))]
        for begins in (str.startswith, _some_word):
            found = next((row for row in rows if begins(words[row].casefold(), said)), None)
            if found is not None:
                return found
    return None


def _some_word(name: str, said: str) -> bool:
    return f" {said}" in name.replace("-", " ").replace("/", " ")


def _pause() -> int:
    return QGuiApplication.styleHints().keyboardInputInterval() * 2
