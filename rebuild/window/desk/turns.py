"""The one owner of long work that writes: the window gets its turn in the middle of it, and a button stops it whole.

The store writes on one connection and its pages hear of it on the window's own thread, so this work stays there and
gives way every few milliseconds instead; what only reads goes beside the window (``job``). Nobody may write in the
middle of it: until something is shown no key or click is let in, and then only to the button.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from PySide6.QtCore import QElapsedTimer, QEventLoop, Qt
from PySide6.QtWidgets import QApplication, QWidget

from rebuild.store.beside import Tell
from rebuild.window.desk.how_far import HowFar

#: The window is given its turn this often.
TURN_MS = 30
#: What takes longer is shown.
SHOWN_AFTER_MS = 400

T = TypeVar("T")


class Turns:
    """Hears how far the work is, and gives the window its turn; ``shown`` is told the share when it is time to show.

    ``stop`` ends the work at its next word.
    """

    def __init__(self, shown: Callable[[float, str], None], *, keys: Callable[[], bool]) -> None:
        self._shown, self._keys = shown, keys
        self._since = QElapsedTimer()
        self._since.start()
        self.stopped = False

    def stop(self) -> None:
        """Ask the work to end."""
        self.stopped = True

    def tell(self, share: float, words: str) -> bool:
        """What the work calls, as often as it likes; False when it shall stop."""
        if self._since.elapsed() > TURN_MS:
            self._shown(share, words)
            wanted = QEventLoop.ProcessEventsFlag
            QApplication.processEvents(wanted.AllEvents if self._keys() else wanted.ExcludeUserInputEvents)
            self._since.restart()
        return not self.stopped


class Working(HowFar):
    """Work in turns with the window; it comes when the work takes longer than a glance."""

    def __init__(self, title: str, parent: QWidget | None) -> None:
        super().__init__(title, parent)
        self.setWindowModality(Qt.WindowModality.ApplicationModal)
        self.turns = Turns(self._show, keys=self.isVisible)
        self.stop.rejected.connect(self.reject)
        self._begun = QElapsedTimer()
        self._begun.start()

    def reject(self) -> None:
        """Escape asks to stop; it goes when all is rolled back."""
        self.turns.stop()

    def _show(self, share: float, words: str) -> None:
        self.far(share, words)
        if not self.isVisible() and self._begun.elapsed() > SHOWN_AFTER_MS:
            self.show()


def in_turns(title: str, parent: QWidget | None, work: Callable[[Tell], T]) -> T:
    """Do one piece of work that writes, in turns with the window. Raises what the work raises."""
    working = Working(title, parent)
    try:
        return work(working.turns.tell)
    finally:
        working.accept()
        working.deleteLater()
