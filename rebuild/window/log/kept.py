"""Kept entries: what was typed but could not be stored where it was meant, until it is dealt with."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.hearing import Hearing
from rebuild.window.lists.plain_table import PlainTable
from rebuild.work.records import rows_kept
from rebuild.work.records.rows_kept import kept_entries


class KeptEntries(QDialog):
    """The list of kept entries; each can be copied, and marked as dealt with."""

    def __init__(self, desk: Desk, parent: QWidget | None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setWindowTitle("Kept entries")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.table = PlainTable("Kept entries", ("When", "Meant for", "Typed", "Why it was kept"), self)
        self.table.fit((19, 34, 24, 50))
        self.empty = QLabel("Nothing is kept: everything typed was stored where it was meant.", self)
        self.copy = QPushButton("Copy what was typed", self)
        self.settle = QPushButton("Dealt with", self)
        self.settle.setToolTip("Takes the entry off this list; type it where it belongs first")
        self.copy.clicked.connect(self._copy)
        self.settle.clicked.connect(self._settle)
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        close.rejected.connect(self.reject)
        line = QHBoxLayout()
        line.addWidget(self.copy)
        line.addWidget(self.settle)
        line.addStretch(1)
        line.addWidget(close)
        layout = QVBoxLayout(self)
        layout.addWidget(self.empty)
        layout.addWidget(self.table, 1)
        layout.addLayout(line)
        self.resize(860, 340)
        desk.closed.connect(self.close)
        self._hearing = Hearing(desk, self, (rows_kept,), lambda _changed: self.read(), while_hidden=True)
        self.read()

    def read(self) -> None:
        """Read the list again."""
        if not self._desk.is_open:
            return
        with self._desk.store.read() as connection:
            kept = kept_entries(connection)
        self.table.plain.fill([(row.id, (row.at, row.meant_for, row.typed, row.why)) for row in kept])
        if kept:
            self.table.selectRow(0)
        self.empty.setVisible(not kept)
        self.table.setVisible(bool(kept))
        self.copy.setEnabled(bool(kept))
        self.settle.setEnabled(bool(kept))

    def _copy(self) -> None:
        key = self.table.chosen()
        if key is not None:
            place = self.table.plain.ids.index(key)
            QGuiApplication.clipboard().setText(self.table.plain.text(place)[2])

    def _settle(self) -> None:
        key = self.table.chosen()
        if key is not None:
            self._desk.attempt(lambda: self._desk.store.settle_kept(key))


def show_kept(desk: Desk, window: QWidget | None) -> KeptEntries:
    """Open the list of kept entries."""
    dialog = KeptEntries(desk, window)
    dialog.open()
    return dialog
