"""What a part of the window hears of the file: exactly the tables its lookups ask, once for each change.

The only place that listens to the desk's news for what is shown. The models that mend single rows of what they
show (the grid, the tree, a form of one record) listen for themselves; a test names them.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Protocol

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QWidget

from rebuild.store.changed import Changed
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.hand import BETWEEN_MS
from rebuild.window.desk.look_over import STUMBLED
from rebuild.work.records.wall_clock import now

#: The journal tells of rows of other tables, which a lookup names beside it; the list of acts is news at every act.
_ACTS, _CHANGES = "act", "change"


class Rows(Protocol):
    """A module of lookups (``work/**/rows*.py``), by the tables they ask."""

    @property
    def READS(self) -> frozenset[str]: ...


@dataclass(frozen=True, slots=True)
class Records:
    """What ``card`` and ``choices`` ask when they are asked of some kinds of record only."""

    READS: frozenset[str]

    @classmethod
    def of(cls, *records: str) -> Records:
        """Of these kinds of record, by the names of their tables."""
        return cls(frozenset(records))


#: Takes up a change; None when everything may differ (another file, another machine, seen for the first time).
TakeUp = Callable[[Changed | None], object]


class Hearing(QObject):
    """Tells ``take_up`` of changes while its widget is seen; while hidden it keeps that one is due.

    ``soon_ms`` above zero lets changes that follow one another closely be taken up as one. ``by_the_clock`` says
    that the answer also changes with the time: it is read anew when the widget is seen in another minute.
    ``while_hidden`` is for what stands in the frame itself and is never behind another page. ``beside`` is for what
    stands beside the row values are typed on: it takes them up when the hand rests.
    """

    def __init__(
        self,
        desk: Desk,
        widget: QWidget,
        shows: Iterable[Rows],
        take_up: TakeUp,
        *,
        soon_ms: int = 0,
        by_the_clock: bool = False,
        while_hidden: bool = False,
        beside: bool = False,
    ) -> None:
        super().__init__(widget)
        self.tables = frozenset[str]().union(*(rows.READS for rows in shows)) - {_CHANGES}
        self._desk, self._widget, self._take_up = desk, widget, take_up
        self._by_the_clock, self._while_hidden, self._beside = by_the_clock, while_hidden, beside
        self._due = True
        self._turn = -1
        self._minute: dt.datetime | None = None
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(soon_ms)
        self._soon.timeout.connect(self.look_again)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.timeout.connect(self._rested)
        for signal in (desk.machine_changed, desk.closed, desk.moved):
            signal.connect(self._moved)
        desk.changed.connect(self._heard)

    def seen(self) -> None:
        """The widget comes into view: read when that is due."""
        if self._due or (self._by_the_clock and self._minute != _minute()):
            self._read(None)

    def have_read(self) -> None:
        """The widget has just read by itself."""
        self._due, self._turn, self._minute = False, self._desk.turn, _minute()

    def look_again(self) -> None:
        """What is shown may differ: read now if seen, else when it comes into view."""
        if self._while_hidden or self._widget.isVisible():
            self._read(None)
        else:
            self._due = True

    def concerns(self, changed: Changed) -> bool:
        """Whether a change touches what is shown."""
        return _ACTS in self.tables or changed.touches(*self.tables)

    def _read(self, changed: Changed | None) -> None:
        self._soon.stop()
        self._rest.stop()
        if changed is None:
            self.have_read()
        try:
            self._take_up(changed)
        except STUMBLED:
            if not self._desk.look_over_at_once():
                raise
            self._take_up(None)

    def _rested(self) -> None:
        """The hand rests: what waited is taken up; else it waits on."""
        left = self._desk.hand.left_ms()
        if left:
            self._rest.start(left)
        elif self._due and self._widget.isVisible():
            with self._desk.reading_together():
                self._read(None)
            self._desk.hand.have_looked()

    def _moved(self) -> None:
        if self._turn != self._desk.turn or self._due:
            self.look_again()

    def _heard(self, changed: Changed) -> None:
        if not self.concerns(changed):
            return
        if not (self._while_hidden or self._widget.isVisible()):
            self._due = True
        elif self._beside and self._desk.hand.at_work:
            self._due = True
            # What follows the row in hand to another part goes first: of the part before nothing need be read.
            self._rest.start(self._desk.hand.left_ms() + BETWEEN_MS)
        elif self._soon.interval():
            self._soon.start()
        elif self._turn != self._desk.turn:
            self._read(None if self._due else changed)


def _minute() -> dt.datetime:
    return now().replace(second=0, microsecond=0)
