"""Base of the surfaces that take values without an entry line: chart, levelling, survey, run-in and cut tests."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QHideEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.entry.strip import LandingStrip
from rebuild.work.landings.stored import How, Stored
from rebuild.work.readings.landing import Landing


class LandingPane(LivePage):
    """While it is seen the next value lands where it says; its ``strip`` shows that, and the last values."""

    strip: LandingStrip

    def __init__(self, desk: Desk, name: str = "", parent: QWidget | None = None) -> None:
        super().__init__(desk, name, parent)
        desk.stepped.connect(self._stepped)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.strip.come_into_view()
        self._desk.come_into_view(self)
        self._land()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        if not event.spontaneous():
            self._desk.go_out_of_view(self)

    def _land(self) -> None:
        if self._desk.surface is self:
            self._desk.land(self._landing())

    def _stepped(self, stored: Stored, undone: bool) -> None:
        """Undo took a value off its row: that row is in hand again. Redo put it there: on to the row behind."""
        if self._desk.surface is not self or not self.stand_on(stored.landing):
            return
        if not undone:
            self.value_put(stored)

    def _landing(self) -> Landing | None:
        """The row in hand; None when there is none."""
        raise NotImplementedError

    def stand_on(self, _landing: Landing) -> bool:
        """Take a row in hand again; False where it is not in view, or something half typed waits on another."""
        return False

    def take_burst(self, text: str) -> None:
        """A value a gauge sent: to the row in hand, or kept."""
        raise NotImplementedError

    def how(self) -> How:
        """How a value is taken now."""
        raise NotImplementedError

    def take_key(self, text: str, at: float = 0.0) -> bool:
        """A digit typed by hand elsewhere, at a time [ms]: it begins or goes on with the value of the row in hand."""
        into = self.field_in_hand()
        if into is None:
            return False
        into.setFocus(Qt.FocusReason.OtherFocusReason)
        if isinstance(into, QLineEdit):
            into.end(False)
        for sign in text:
            target = QApplication.focusWidget() or into  # a cell opens its editor at the first of them
            event = QKeyEvent(QEvent.Type.KeyPress, 0, Qt.KeyboardModifier.NoModifier, sign)
            event.setTimestamp(int(at))
            QApplication.sendEvent(target, event)
        return True

    def field_in_hand(self) -> QWidget | None:
        """The field, or the table whose cell in hand, takes the next value; None: there is none now."""
        return None

    def rows_from(self, landing: Landing, _like: Sequence[Landing]) -> list[Landing]:
        """A column moved here finds this one row: the act says that it does not fit."""
        return [landing]

    def value_put(self, stored: Stored) -> None:
        """A value was put on the row in hand: read it back and move on."""
        raise NotImplementedError
