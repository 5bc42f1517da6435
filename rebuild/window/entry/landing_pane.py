"""Base of the surfaces that take values without an entry line: chart, levelling, survey, run-in and cut tests."""

from __future__ import annotations

from PySide6.QtGui import QHideEvent, QShowEvent

from rebuild.window.desk.live_page import LivePage
from rebuild.window.entry.strip import LandingStrip
from rebuild.work.landings.stored import How, Stored
from rebuild.work.readings.landing import Landing


class LandingPane(LivePage):
    """While it is seen the next value lands where it says; its ``strip`` shows that, and the last values."""

    strip: LandingStrip

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

    def _landing(self) -> Landing | None:
        """The row in hand; None when there is none."""
        raise NotImplementedError

    def take_burst(self, text: str) -> None:
        """A value a gauge sent: to the row in hand, or kept."""
        raise NotImplementedError

    def how(self) -> How:
        """How a value is taken now."""
        raise NotImplementedError

    def value_put(self, stored: Stored) -> None:
        """A value was put on the row in hand: read it back and move on."""
        raise NotImplementedError
