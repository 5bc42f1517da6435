"""Which list a table is and which of its columns means what: guessed by the headings, changed with a list each."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QGridLayout, QScrollArea, QVBoxLayout, QWidget

from rebuild.exchange.columns import mapping
from rebuild.exchange.guess import lines
from rebuild.exchange.tables import Table
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.lists.acts import Batch
from rebuild.work.lists.fields import COLUMNS, What

_NOT_TAKEN = "not taken"
_ACROSS = 3


class ImportColumns(QWidget):
    """A list for the kind of table and one for each of its columns; hidden while there is nothing to choose."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._table: Table | None = None
        self.kind = QComboBox()
        self.kind.setAccessibleName("What the table is")
        for what in What:
            self.kind.addItem(what.value, what)
        self.choices: list[QComboBox] = []
        self._grid_holder = QWidget()
        self._grid = QGridLayout(self._grid_holder)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._area = QScrollArea()
        self._area.setWidgetResizable(True)
        self._area.setWidget(self._grid_holder)
        self._area.setMaximumHeight(170)
        self._area.setFrameShape(QScrollArea.Shape.NoFrame)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.kind)
        layout.addWidget(self._area)
        self.kind.currentIndexChanged.connect(self._other_kind)
        self.setVisible(False)

    def show_table(self, table: Table | None, what: What | None) -> None:
        """Show the columns of a table, guessed as a list of that kind."""
        self._table = table
        if what is not None:
            was = self.kind.blockSignals(True)
            self.kind.setCurrentIndex(list(What).index(what))
            self.kind.blockSignals(was)
        self._fill()
        self.setVisible(table is not None)

    def _what(self) -> What:
        return list(What)[self.kind.currentIndex()]

    def _other_kind(self) -> None:
        self._fill()
        self.changed.emit()

    def _fill(self) -> None:
        for widget in self._grid_holder.findChildren(QWidget):
            self._grid.removeWidget(widget)
            widget.hide()
            widget.deleteLater()
        self.choices = []
        if self._table is None:
            return
        guessed = mapping(self._what(), self._table.heads, self._table.rows, alone=True)
        known = COLUMNS[self._what()]
        for at, head in enumerate(self._table.heads):
            choice = QComboBox()
            choice.setAccessibleName(f"Column {head} means")
            choice.addItem(_NOT_TAKEN, "")
            for column in known:
                choice.addItem(column.head, column.name)
            choice.setCurrentIndex(
                next((i for i, one in enumerate(known, 1) if one.name == guessed.get(at)), 0)
            )
            choice.currentIndexChanged.connect(self.changed)
            label = PlainLabel(head or f"column {at + 1}")
            label.setBuddy(choice)
            row, across = divmod(at, _ACROSS)
            self._grid.addWidget(label, row, 2 * across)
            self._grid.addWidget(choice, row, 2 * across + 1)
            self.choices.append(choice)

    def batch(self) -> Batch | None:
        """The rows as they are meant now; None while there is no single table."""
        if self._table is None:
            return None
        columns: dict[int, str] = {}
        for at, choice in enumerate(self.choices):
            name = str(choice.currentData())
            if name and name not in columns.values():
                columns[at] = name
        return Batch(self._what(), lines(self._table, columns, self._what()))
