"""Settings of the file: how a comma is read, which decision rule judges, who signs."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QDialog, QDialogButtonBox, QFormLayout, QLineEdit, QWidget

from rebuild.trade.limits.verdict import Rule
from rebuild.window.desk.desk import Desk
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.records import acts_settings, rows_settings

COMMAS = (
    ("ask each time", None),
    ("decimal: 1,250 is one and a quarter", True),
    ("thousands: 1,250 is 1250", False),
)


class FileSettings(QDialog):
    """The dialog of a file's settings; they belong to the file and are not undone."""

    def __init__(self, desk: Desk, parent: QWidget | None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setWindowTitle("Settings of this file")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.comma = QComboBox(self)
        self.comma.addItems([words for words, _ in COMMAS])
        now = rows_settings.decimal_comma(desk.store)
        self.comma.setCurrentIndex([value for _, value in COMMAS].index(now))
        self.rule = QComboBox(self)
        self.rule.addItems([rule.value for rule in Rule])
        self.rule.setCurrentIndex(list(Rule).index(rows_settings.verdict_rule(desk.store)))
        self.owner = QLineEdit(rows_settings.owner(desk.store), self)
        form = QFormLayout(self)
        for words, widget in (
            ("A comma before three digits", self.comma),
            ("Rule for verdicts", self.rule),
            ("Who signs", self.owner),
        ):
            widget.setAccessibleName(words)
            form.addRow(words, widget)
        note = PlainLabel("A change of rule judges every reading anew; no reading changes.", self)
        form.addRow("", note)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel, self
        )
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        form.addRow(buttons)

    def accept(self) -> None:
        """Store what is chosen; on trouble stay."""
        if self._desk.attempt(self._store, "Settings stored.") is not None:
            super().accept()

    def _store(self) -> bool:
        store = self._desk.store
        acts_settings.set_decimal_comma(store, COMMAS[self.comma.currentIndex()][1])
        acts_settings.set_verdict_rule(store, list(Rule)[self.rule.currentIndex()])
        acts_settings.set_owner(store, self.owner.text())
        # Not journaled, so no report comes from the store; the grid hears it as a change of unit does.
        self._desk.unit_changed.emit()
        return True


def file_settings(desk: Desk, window: QWidget | None) -> FileSettings:
    """Open the settings of the open file."""
    dialog = FileSettings(desk, window)
    dialog.open()
    return dialog
