"""The Chart page: tests and levelling as two views."""

from __future__ import annotations

from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from rebuild.sheets.charts import write_test_chart
from rebuild.window.charts.levelling_pane import LevellingPane
from rebuild.window.charts.tests_pane import TestsPane
from rebuild.window.desk.desk import Desk
from rebuild.window.exchange.sheet_saving import save_sheet
from rebuild.window.layout.views import Views


class ChartPage(QWidget):
    """Tests · Levelling; each view hears for itself."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setAccessibleName("Chart")
        self.tests = TestsPane(desk)
        self.levelling = LevellingPane(desk)
        self.views = Views((("Tests", self.tests), ("Levelling", self.levelling)), self)
        self.print_button = QPushButton("Print &chart…")
        self.views.row.addWidget(self.print_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 4, 8, 8)
        layout.addWidget(self.views)
        self.print_button.clicked.connect(self.print_chart)

    def put_by(self) -> None:
        """A level's value half typed is kept before the file closes."""
        self.levelling.put_by()

    def show_row(self, table: str, key: int) -> None:
        """Choose one test; a level reading is in its own view."""
        self.show_view(1 if table == "level_reading" else 0)
        if table != "level_reading":
            self.tests.choose_test(key)

    def show_view(self, at: int) -> None:
        """Show the tests (0) or the levelling (1)."""
        self.views.show_view(at)

    def print_chart(self) -> None:
        """Write the chart as a PDF where the user says."""
        machine = self._desk.machine_id
        if machine is None:
            return

        save_sheet(
            self, self._desk, "Test chart", lambda path: write_test_chart(self._desk.store, machine, path)
        )
