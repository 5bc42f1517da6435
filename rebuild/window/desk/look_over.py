"""A large file is looked over beside the window: the pages are there at once, and read again if anything is bad.

A page that stumbles meanwhile has it looked over at once: a bad cell of the file is no fault of the program.
"""

from __future__ import annotations

from functools import partial
from threading import Event
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from rebuild.errors import RebuildError
from rebuild.store.store import Store
from rebuild.window.desk.job import Job, Tell

if TYPE_CHECKING:
    from rebuild.store.unreadable import BadCell

#: What reading may end in when the file holds what nobody could have entered.
STUMBLED = (LookupError, ValueError, TypeError, AttributeError, ArithmeticError, RecursionError)


class LookOver(QObject):
    """Looks for cells that cannot be read on a thread of its own, through a connection of its own."""

    #: Bad cells were found, in words; reading goes round them already.
    found = Signal(str)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._store: Store | None = None
        self._closing = Event()
        self._job = Job(self)
        self._job.done.connect(self._take_up)

    @property
    def running(self) -> bool:
        """Whether it is under way."""
        return self._job.running

    def begin(self, store: Store) -> None:
        """Look a file over, unless that was done when it was opened."""
        if not store.looked_over and not self.running:
            self._store = store
            self._closing = closing = Event()
            self._job.start(partial(_look, store, closing))

    def at_once(self, store: Store) -> bool:
        """Look a file over here and now, unless that was done; True when bad cells were found, so that reading may
        be tried again.
        """
        if store.looked_over:
            return False
        self.stop()
        self._store = store
        try:
            cells = store.bad_cells()
        except RebuildError:
            return False
        self._take_up(cells)
        return bool(cells)

    def stop(self) -> None:
        """Give up: the file closes. Its connection is gone when this returns."""
        self._closing.set()
        self._job.drop()
        self._store = None

    def _take_up(self, cells: tuple[BadCell, ...]) -> None:
        from rebuild.store.unreadable import in_words

        store, self._store = self._store, None
        if store is not None:
            store.go_round(cells)
            if cells:
                self.found.emit(in_words(cells))


def _look(store: Store, closing: Event, _tell: Tell) -> tuple[BadCell, ...]:
    """On the worker's thread."""
    return store.bad_cells(closing.is_set)
