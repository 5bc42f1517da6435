"""A page that reads the file when it is first seen, and again when something it shows has changed."""

from __future__ import annotations

from collections.abc import Collection

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QWidget

from rebuild.store.changed import Changed
from rebuild.window.desk.desk import Desk


class LivePage(QWidget):
    """Base of pages: ``refresh`` is called while the page is seen, and once when it comes to be seen again."""

    def __init__(
        self, desk: Desk, name: str, watched: Collection[str], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._desk = desk
        self._watched = tuple(watched)
        self._stale = True
        self.setAccessibleName(name)
        for signal in (desk.opened, desk.closed, desk.machine_changed):
            signal.connect(self._changed_all)
        desk.changed.connect(self._heard)

    @property
    def machine(self) -> int | None:
        """The machine shown, when a file with one is open."""
        return self._desk.machine_id if self._desk.is_open else None

    def refresh(self) -> None:
        """Read and show again."""
        raise NotImplementedError

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._stale:
            self._stale = False
            self.refresh()

    def _changed_all(self) -> None:
        self._refresh_if_seen()

    def _heard(self, changed: Changed) -> None:
        if changed.touches(*self._watched):
            self._refresh_if_seen()

    def _refresh_if_seen(self) -> None:
        if self.isVisible():
            self.refresh()
        else:
            self._stale = True
