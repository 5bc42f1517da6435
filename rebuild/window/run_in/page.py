"""The Run-in page: before power, the run-in and the cut tests as views of one page."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.layout.views import Views
from rebuild.window.run_in.cuts_pane import CutsPane
from rebuild.window.run_in.gate_pane import GatePane
from rebuild.window.run_in.steps_pane import StepsPane


class RunInPage(QWidget):
    """Before power · Run-in · Cut tests; each view hears for itself."""

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

    def put_by(self) -> None:
        """What is typed of a cut test is kept before the file closes."""
        self.cuts.put_by()

    def show_row(self, table: str, key: int) -> None:
        """Turn to what is checked, run or cut; a check, and a step of the run-in, is chosen."""
        self.show_view({"run_look": 0, "override": 0, "cut_test": 2}.get(table, 1))
        if table == "run_look":
            self.gate.choose_check(key)
        if table == "override":
            self.gate.gone_on.table.choose(key)
        if table in ("run_step", "run_reading"):
            self.steps.table.choose(key)

    def show_view(self, at: int) -> None:
        """Show one of the views."""
        self.views.show_view(at)
