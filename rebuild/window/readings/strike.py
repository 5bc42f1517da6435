"""Ask why a reading is struck; the sentence of trouble appears here and the text stays."""

from __future__ import annotations

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QLineEdit, QWidget

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.readings.acts import strike_reading


class StrikeReading(QDialog):
    """One line for the reason; the reading stays in the book but no longer speaks."""

    def __init__(self, desk: Desk, reading_id: int, words: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._reading_id = reading_id
        self.setWindowTitle("Delete entry")
        self.setModal(True)
        self.why = QLineEdit()
        self.why.setAccessibleName("Reason")
        self.why.setMinimumWidth(360)
        self.trouble = PaneTrouble(desk, (self.why,), self)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        buttons.addButton("&Delete entry", QDialogButtonBox.ButtonRole.AcceptRole)
        layout = QFormLayout(self)
        layout.addRow(PlainLabel(f"{words} will no longer count. It stays in the history."))
        layout.addRow("&Reason", self.why)
        layout.addRow(self.trouble)
        layout.addRow(buttons)
        buttons.accepted.connect(self._strike)
        buttons.rejected.connect(self.reject)

    def _strike(self) -> None:
        try:
            strike_reading(self._desk.store, self._reading_id, self.why.text())
        except RebuildError as trouble:
            self.trouble.tell(trouble)
            self.why.setFocus()
            return
        self._desk.say("Entry deleted; it stays in the history with its reason. Undo brings it back.")
        self.accept()
