"""Where the next value goes, the surface that takes it, and the last values that were stored."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from rebuild.store.changed import Changed
from rebuild.work.landings.sent import Sent
from rebuild.work.landings.stored import How, Stored
from rebuild.work.readings.landing import Landing

#: How many values just stored stay in sight.
KEPT = 5


class TakesValues(Protocol):
    """A surface readings land on: bench, making sheet, survey, test chart, run-in."""

    def take_burst(self, text: str) -> None:
        """A value a gauge sent: it goes to the landing, or to the values without a row."""

    def how(self) -> How:
        """How a value is taken here."""

    def rows_from(self, landing: Landing, like: Sequence[Landing]) -> list[Landing]:
        """Where a column that lay on ``like`` goes when its first value goes to ``landing``."""

    def take_key(self, text: str, at: float = 0.0) -> bool:
        """A digit typed by hand elsewhere, at a time [ms]: into the field or cell of the row in hand; False: none."""

    def field_in_hand(self) -> QWidget | None:
        """The field, or the table whose cell in hand, takes the next value; None: there is none now."""

    def value_put(self, stored: Stored) -> None:
        """A waiting value was put on the row in hand: read it back and move on."""


class ValuesInHand(QObject):
    """What of a desk is about values on their way into the file."""

    landing_changed = Signal()
    recent_changed = Signal()
    stepped = Signal(
        object, bool
    )  #: a value that undo took off its row (True), or redo put there again (False)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.landing: Landing | None = None
        self.surface: TakesValues | None = None
        self.from_gauge = True
        #: How values are taken on the bench, for one that comes on a page without rows.
        self.how_in_hand = How()
        self._sent = Sent()

    # Where the next value goes

    def land(self, landing: Landing | None) -> None:
        """Let the next value go to another row; None when no row in view is in hand."""
        if landing != self.landing or (landing and self.landing and landing.words != self.landing.words):
            self.landing = landing
            self.landing_changed.emit()

    def come_into_view(self, surface: TakesValues) -> None:
        """A surface that takes readings is the one in view now; it says itself which of its rows is in hand."""
        if self.surface is not surface:
            self.surface = surface
            self.land(None)

    def go_out_of_view(self, surface: TakesValues) -> None:
        """A surface is no longer seen: its row is nobody's."""
        if self.surface is surface:
            self.surface = None
            self.land(None)

    def remember(self, stored: Stored) -> None:
        """Keep a value just stored or moved among the last five."""
        self._sent = self._sent.and_then(stored)
        self.recent_changed.emit()

    def _forget_values(self) -> None:
        self._sent = Sent()
        self.how_in_hand = How()
        self.recent_changed.emit()
        self.land(None)

    @property
    def recent(self) -> tuple[Stored, ...]:
        """The last values that stand, at most ``KEPT``; the newest is last."""
        return self._sent.standing[-KEPT:]

    def _follow_values(self, changed: Changed) -> None:
        """A value taken back or written over, here or elsewhere, goes from the last ones; brought back it returns."""
        was, self._sent = self._sent, self._sent.after(changed)
        if was is not self._sent:
            self.recent_changed.emit()

    def _tell_value(self, before: tuple[Stored, ...], *, undo: bool) -> None:
        went = [one for one in before if one not in self._sent.standing]
        came = [one for one in self.recent if one not in before]
        if undo and went:
            self.stepped.emit(went[-1], True)
        elif not undo and came:
            self.stepped.emit(came[-1], False)
