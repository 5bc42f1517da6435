"""The Run-in page: before power, the run-in and the cut tests as views of one page."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from rebuild.store.changed import Changed
from rebuild.window.desk.desk import Desk
from rebuild.window.layout.views import Views
from rebuild.window.run_in.cuts_pane import CutsPane
from rebuild.window.run_in.gate_pane import GatePane
from rebuild.window.run_in.steps_pane import StepsPane

_WATCHED = (
    "run_step", "run_reading", "run_look", "cut_test", "joint", "oil_point", "instrument", "machine", "setting",
)  # fmt: skip


class RunInPage(QWidget):
    """Before power · Run-in · Cut tests."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setAccessibleName("Run-in")
        self.gate = GatePane(desk)
        self.steps = StepsPane(desk)
        self.cuts = CutsPane(desk)
        self.views = Views(
            (("Before power", self.gate), ("Run-in", self.steps), ("Cut tests", self.cuts)), self
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 4, 8, 8)
        layout.addWidget(self.views)
        self.views.turned.connect(lambda _at: self.refresh())
        for signal in (desk.opened, desk.closed, desk.machine_changed):
            signal.connect(self._refresh_if_seen)
        desk.changed.connect(self._hear)

    def show_view(self, at: int) -> None:
        """Show one of the views."""
        self.views.show_view(at)

    def showEvent(self, event: object) -> None:
        """Read when first seen."""
        super().showEvent(event)  # type: ignore[arg-type]
        self.refresh()

    def _refresh_if_seen(self) -> None:
        if self.isVisible():
            self.refresh()

    def _hear(self, changed: Changed) -> None:
        if self.isVisible() and changed.touches(*_WATCHED):
            self.refresh()

    def refresh(self) -> None:
        """Read the view shown again."""
        (self.gate, self.steps, self.cuts)[self.views.shown].refresh()
