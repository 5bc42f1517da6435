"""The entries kept from being lost, beside what is not known: each dealt with, or still to be."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QPushButton, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.tree_list import KEY, line, tree_list
from rebuild.work.records.rows_kept import Kept


class KeptBox(QWidget):
    """A list that is there while anything is kept."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.list = tree_list("Entries kept from being lost", ("Kept", "Meant for", "Typed", "Why"))
        self.list.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.settle = QPushButton("Dealt &with")
        self.settle.clicked.connect(self._settle_chosen)
        kept = QVBoxLayout(self)
        kept.setContentsMargins(0, 4, 0, 0)
        kept.addWidget(PlainLabel("Entries kept from being lost"))
        kept.addWidget(self.list)
        kept.addWidget(self.settle, 0, Qt.AlignmentFlag.AlignLeft)

    def fill(self, kept: Sequence[Kept]) -> None:
        """Show these."""
        self.list.clear()
        for entry in kept:
            self.list.addTopLevelItem(line((entry.at, entry.meant_for, entry.typed, entry.why), entry.id))
        self.setVisible(bool(kept))

    def _settle_chosen(self) -> None:
        for item in self.list.selectedItems():
            key = int(item.data(0, KEY))
            self._desk.attempt(partial(self._desk.store.settle_kept, key))
