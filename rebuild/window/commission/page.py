"""The Run-in page: before power, the run-in and the cut tests as views of one row of buttons."""

from __future__ import annotations

from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QStackedWidget, QToolButton, QVBoxLayout, QWidget

from rebuild.store.changed import Changed
from rebuild.window.commission.cuts_pane import CutsPane
from rebuild.window.commission.gate_pane import GatePane
from rebuild.window.commission.steps_pane import StepsPane
from rebuild.window.desk import Desk

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
        self.views = QStackedWidget()
        self._buttons = QButtonGroup(self)
        row = QHBoxLayout()
        named = (("Before power", self.gate), ("Run-in", self.steps), ("Cut tests", self.cuts))
        for at, (words, view) in enumerate(named):
            button = QToolButton()
            button.setText(words)
            button.setAccessibleName(f"Show {words.lower()}")
            button.setCheckable(True)
            button.setAutoRaise(True)
            button.setShortcut(f"Alt+{at + 1}")
            self._buttons.addButton(button, at)
            row.addWidget(button)
            self.views.addWidget(view)
        row.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 6, 8, 8)
        layout.addLayout(row)
        layout.addWidget(self.views, 1)
        self._buttons.button(0).setChecked(True)
        self._buttons.idClicked.connect(self.show_view)
        for signal in (desk.opened, desk.closed, desk.machine_changed):
            signal.connect(self._refresh_if_seen)
        desk.changed.connect(self._hear)

    def show_view(self, at: int) -> None:
        """Show one of the views."""
        self.views.setCurrentIndex(at)
        self._buttons.button(at).setChecked(True)
        self.refresh()

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
        (self.gate, self.steps, self.cuts)[self.views.currentIndex()].refresh()
