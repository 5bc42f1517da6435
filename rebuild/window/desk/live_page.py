"""A page or pane that reads the file when it is first seen, and again when something it shows has changed."""

from __future__ import annotations

from typing import ClassVar

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QWidget

from rebuild.store.changed import Changed
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.gc_pause import gc_paused
from rebuild.window.desk.hearing import Hearing, Rows


class LivePage(QWidget):
    """Base of all that shows data: it names the rows modules it ``shows`` and hears exactly their ``READS``.

    ``refresh`` is called while the page is seen, and once when it comes to be seen again; ``mend`` may do less
    after a change. See ``Hearing`` for ``soon_ms``, ``by_the_clock`` and ``beside``.
    """

    shows: ClassVar[tuple[Rows, ...]] = ()
    soon_ms: ClassVar[int] = 0
    by_the_clock: ClassVar[bool] = False
    beside: ClassVar[bool] = False

    def __init__(self, desk: Desk, name: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        if name:
            self.setAccessibleName(name)
        self.hearing = Hearing(
            desk, self, self.shows, self._take_up,
            soon_ms=self.soon_ms, by_the_clock=self.by_the_clock, beside=self.beside,
        )  # fmt: skip

    @property
    def machine(self) -> int | None:
        """The machine shown, when a file with one is open."""
        return self._desk.machine_id if self._desk.is_open else None

    def refresh(self) -> None:
        """Read and show again."""
        raise NotImplementedError

    def mend(self, _changed: Changed) -> None:
        """Take up a change of what is shown; all is read again unless a page knows how to mend less."""
        self.refresh()

    def look_again(self) -> None:
        """What is shown may differ: read now if seen, else when the page is seen again."""
        self.hearing.look_again()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        with self._desk.reading_together():
            self.hearing.seen()

    def _take_up(self, changed: Changed | None) -> None:
        with gc_paused():
            if changed is None:
                self.refresh()
            else:
                self.mend(changed)
