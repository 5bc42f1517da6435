"""On a survey, chart or run-in: where the next value lands, what was sent last, and what waits for a row."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.entry.bursts import Bursts
from rebuild.window.entry.head import CHOOSE
from rebuild.window.entry.recent import RecentValues
from rebuild.window.ink import theme
from rebuild.window.layout.elided_label import ElidedLabel


class LandingStrip(QWidget):
    """Two lines: the landing in larger type, and the last values under it."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.place = ElidedLabel(self)
        self.place.setFont(theme.large(self.font(), 1.25))
        self.place.setAccessibleName("The next value lands on")
        self.recent = RecentValues(desk, self)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        layout.addWidget(self.place)
        layout.addWidget(self.recent)
        desk.landing_changed.connect(self._show_landing)
        self._show_landing()

    def come_into_view(self) -> None:
        """Its window takes bursts from now on."""
        Bursts.at(self._desk, self.window())

    def _show_landing(self) -> None:
        landing = self._desk.landing
        self.place.setText(landing.words if landing is not None else CHOOSE)
