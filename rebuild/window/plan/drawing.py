"""The simulated schedules of a large machine, drawn beside the window; who shows them reads again when they came."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from rebuild.window.desk.job import Job, Tell
from rebuild.work.plan.rows_graph import Work
from rebuild.work.plan.rows_input import draw, is_to_be_drawn


class Drawing(QObject):
    """``came`` says that the schedules of the work last looked at are drawn."""

    came = Signal()

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.job = Job(self)
        self._asked: Work | None = None
        self.job.done.connect(self._came)

    def look(self, work: Work) -> None:
        """Have the schedules of some work drawn, when that takes long; once for the same work."""
        if self._asked is work or not is_to_be_drawn(work):
            return
        self._asked = work

        def do(_tell: Tell) -> object:
            draw(work)
            return work

        self.job.ask(do)

    def drop(self) -> None:
        """What is under way is not told any more."""
        self._asked = None
        self.job.drop()

    def _came(self, _work: object) -> None:
        self._asked = None
        self.came.emit()
