"""The Chart page: tests and levelling as two views of one row of buttons."""

from __future__ import annotations

from PySide6.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QPushButton,
    QStackedWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from rebuild.store.changed import Changed
from rebuild.window.chart.levelling_pane import LevellingPane
from rebuild.window.chart.tests_pane import TestsPane
from rebuild.window.desk import Desk
from rebuild.window.sheet_saving import save_sheet


class ChartPage(QWidget):
    """Tests · Levelling."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setAccessibleName("Chart")
        self.tests = TestsPane(desk)
        self.levelling = LevellingPane(desk)
        self.views = QStackedWidget()
        self.print_button = QPushButton("Print &chart…")
        self._buttons = QButtonGroup(self)
        self._lay_out()
        self._buttons.idClicked.connect(self.show_view)
        self.print_button.clicked.connect(self.print_chart)
        for signal in (desk.opened, desk.closed, desk.machine_changed, desk.unit_changed):
            signal.connect(self._refresh_if_seen)
        desk.changed.connect(self._hear)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        for at, (words, view) in enumerate((("Tests", self.tests), ("Levelling", self.levelling))):
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
        row.addWidget(self.print_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 6, 8, 8)
        layout.addLayout(row)
        layout.addWidget(self.views, 1)
        self._buttons.button(0).setChecked(True)

    def show_view(self, at: int) -> None:
        """Show the tests (0) or the levelling (1)."""
        self.views.setCurrentIndex(at)
        self._buttons.button(at).setChecked(True)
        self.refresh()

    def showEvent(self, event: object) -> None:
        """Read when first seen."""
        super().showEvent(event)  # type: ignore[arg-type]
        self.tests.panel.entry.offer_instruments()
        self.refresh()

    def _refresh_if_seen(self) -> None:
        if self.isVisible():
            self.refresh()

    def _hear(self, changed: Changed) -> None:
        if self.isVisible():
            (self.tests if self.views.currentIndex() == 0 else self.levelling).hear(changed)

    def refresh(self) -> None:
        """Read the view shown again."""
        (self.tests if self.views.currentIndex() == 0 else self.levelling).refresh()

    def print_chart(self) -> None:
        """Write the chart as a PDF where the user says."""
        machine = self._desk.machine_id
        if machine is None:
            return

        from rebuild.sheets.test_chart import write_test_chart

        save_sheet(
            self, self._desk, "Test chart", lambda path: write_test_chart(self._desk.store, machine, path)
        )
