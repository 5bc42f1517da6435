"""The work of a large machine, laid, timed and told in turns of its own before a page shows it."""

from __future__ import annotations

from PySide6.QtCore import QObject, QTimer, Signal

from rebuild.window.desk.gc_pause import gc_paused
from rebuild.work.plan.rows_graph import Work
from rebuild.work.plan.rows_input import MOST_DRAWN, planned
from rebuild.work.plan.rows_what_next import next_of


class Ahead(QObject):
    """``came`` says that the work last looked at is at hand: showing it takes little now.

    Laying, ranking and telling four thousand steps takes a tenth of a second and more, as one turn of the window it
    would be felt; each is a turn here. What is kept with the work makes it cheap for who asks again.
    """

    came = Signal()

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._work: Work | None = None
        self._next = QTimer(self)
        self._next.setSingleShot(True)
        self._next.timeout.connect(self._go_on)

    def look(self, work: Work) -> bool:
        """Whether some work is at hand; if not, ``came`` is told a few turns later, unless other work is looked at."""
        at_hand = len(work.graph.nodes) <= MOST_DRAWN or bool(work.planned and work.told)
        if at_hand:
            self.drop()
        elif work is not self._work or not self._next.isActive():
            self._work = work
            self._next.start()
        return at_hand

    def drop(self) -> None:
        """What is under way is not told any more."""
        self._next.stop()
        self._work = None

    def _go_on(self) -> None:
        work = self._work
        if work is None:
            return
        with gc_paused():
            if not work.planned:
                planned(work)
            elif not work.told:
                next_of(work)
        if work.told:
            self._work = None
            self.came.emit()
        else:
            self._next.start()
