"""A large undo or redo: what it will do in rows by kind, then how far it is, and a button that stops it whole."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.how_far import far_bar
from rebuild.window.desk.turns import Turns
from rebuild.window.layout.plain import PlainLabel

KINDS = 6


class LongStep(QDialog):
    """Asks, then runs on this thread: the store writes on one connection, and the dialog keeps other input away."""

    def __init__(self, desk: Desk, undo: bool, touched: Mapping[str, int], parent: QWidget | None) -> None:
        super().__init__(parent)
        self._desk, self._undo = desk, undo
        self._running = False
        self._turns = Turns(lambda share, _words: self.bar.setValue(round(100 * share)), keys=lambda: True)
        words = desk.store.undo_label() if undo else desk.store.redo_label()
        verb = "Undo" if undo else "Do again"
        self.setWindowTitle(verb)
        self.setWindowModality(Qt.WindowModality.ApplicationModal)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.said = PlainLabel(f"{verb}: {words}.\n{rows_by_kind(touched)}", self)
        self.said.setWordWrap(True)
        self.bar = far_bar(self)
        self.bar.hide()
        self.go = QPushButton(verb, self)
        self.leave = QPushButton("Leave it as it is", self)
        self.go.clicked.connect(self._go)
        self.leave.clicked.connect(self.reject)
        line = QHBoxLayout()
        line.addWidget(self.go)
        line.addWidget(self.leave)
        line.addStretch(1)
        layout = QVBoxLayout(self)
        layout.addWidget(self.said)
        layout.addWidget(self.bar)
        layout.addLayout(line)
        self.setMinimumWidth(440)

    def reject(self) -> None:
        """Stop; while it runs the dialog goes when all is rolled back."""
        if self._running:
            self._turns.stop()
        else:
            super().reject()

    def _go(self) -> None:
        self.go.setEnabled(False)
        self.leave.setText("Stop")
        self.bar.show()
        self._running = True
        self._desk.take_step(undo=self._undo, tell=self._turns.tell)
        self._running = False
        self.accept()


def rows_by_kind(touched: Mapping[str, int]) -> str:
    """``34,000 rows: 20,000 reading, 6,000 feature, … and 120 of other kinds.``"""
    shown = [f"{count:,} {table.replace('_', ' ')}" for table, count in list(touched.items())[:KINDS]]
    rest = sum(touched.values()) - sum(list(touched.values())[:KINDS])
    if rest:
        shown.append(f"{rest:,} of other kinds")
    return f"{sum(touched.values()):,} rows: {', '.join(shown)}. It is done whole or not at all."
