"""A copy being made beside the window: how far it is, and a button that stops it."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QWidget

from rebuild.window.desk.how_far import HowFar
from rebuild.window.desk.job import Job, Work


class Copying(HowFar):
    """Runs one piece of work and closes when it ends; ``done`` hears its value, ``failed`` its sentence."""

    def __init__(
        self,
        title: str,
        work: Work,
        done: Callable[[object], None],
        failed: Callable[[str], None],
        parent: QWidget | None,
    ) -> None:
        super().__init__(title, parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._done, self._failed = done, failed
        self.job = Job(self)
        self.stop.rejected.connect(self.job.cancel)
        self.job.progressed.connect(self.far)
        self.job.done.connect(self._end_well)
        self.job.failed.connect(self._end_badly)
        self.job.start(work)

    def reject(self) -> None:
        """Escape asks to stop; the dialog goes when the work has ended."""
        if self.job.running:
            self.job.cancel()
        else:
            super().reject()

    def closeEvent(self, event: QCloseEvent) -> None:
        self.job.finish()
        super().closeEvent(event)

    def _end_well(self, value: object) -> None:
        self.accept()  # not close(): that asks reject() first, and stays when it is refused
        self._done(value)

    def _end_badly(self, sentence: str) -> None:
        self.accept()
        self._failed(sentence)
