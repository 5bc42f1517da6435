"""Cells that cannot be read: what lies in each, what may stand there, and setting it right."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.store.changed import Changed
from rebuild.store.unreadable import BadCell
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.work.checks.bad_cells import may_stand

NONE = "Every cell of this file can be read."


class BadCells(QDialog):
    """The cells a start or a check named; each is set right by one act, and undo brings back what lay there."""

    def __init__(self, desk: Desk, parent: QWidget | None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._cells: tuple[BadCell, ...] = ()
        self.setWindowTitle("Cells that cannot be read")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.table = PlainTable(
            "Cells that cannot be read", ("Where", "Cell", "Holds", "Which is", "Until then"), self
        )
        self.empty = PlainLabel(NONE, self)
        self.told = PlainLabel(self)
        self.told.setWordWrap(True)
        self.told.setAccessibleName("What may stand there")
        self.value = QComboBox(self)
        self.value.setEditable(True)
        self.value.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.value.setAccessibleName("Value that shall stand there")
        line = self.value.lineEdit()
        assert line is not None
        line.setAccessibleName("Value that shall stand there")
        self.trouble = PaneTrouble(desk, (line, self.value), self)
        self.set_right = QPushButton("&Set it right", self)
        self.set_right.clicked.connect(self._set_right)
        self.table.selectionModel().currentRowChanged.connect(lambda _now, _before: self._show_cell())
        self._lay_out()
        desk.closed.connect(self.close)
        desk.changed.connect(self._hear)
        self.read()

    def _lay_out(self) -> None:
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        close.rejected.connect(self.reject)
        way = QHBoxLayout()
        way.addWidget(self.value, 1)
        way.addWidget(self.set_right)
        layout = QVBoxLayout(self)
        layout.addWidget(self.empty)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.told)
        layout.addLayout(way)
        layout.addWidget(self.trouble)
        layout.addWidget(close)
        self.resize(860, 380)

    def _hear(self, _changed: Changed) -> None:
        if self._desk.is_open and self._desk.store.unreadable != self._cells:
            self.read()

    def read(self) -> None:
        """Show the cells that cannot be read now."""
        self._cells = self._desk.store.unreadable if self._desk.is_open else ()
        self.table.plain.fill([(place, _row(cell)) for place, cell in enumerate(self._cells)])
        there = bool(self._cells)
        self.empty.setVisible(not there)
        for widget in (self.table, self.told, self.value, self.set_right):
            widget.setVisible(there)
        if there:
            self.table.selectRow(0)
        self._show_cell()

    @property
    def cell(self) -> BadCell | None:
        """The cell chosen."""
        place = self.table.chosen()
        return self._cells[place] if place is not None and place < len(self._cells) else None

    def _show_cell(self) -> None:
        self.trouble.end()
        cell = self.cell
        if cell is None:
            return
        with self._desk.store.read() as connection:
            stands = may_stand(connection, cell)
        known = f" The history of the file has “{stands.known}” there." if stands.known else ""
        self.told.setText(f"There may stand {stands.told}{known}")
        self.value.clear()
        self.value.addItems(stands.choices)
        self.value.setEditText(stands.known)

    def _set_right(self) -> None:
        from rebuild.work.checks.acts_cells import set_right

        cell = self.cell
        if cell is None:
            return
        try:
            set_right(self._desk.store, cell, self.value.currentText())
        except RebuildError as trouble:
            self.trouble.tell(trouble)
            return
        back = "" if cell.dangles else " Undo brings back what lay there."
        self._desk.say(f"{_where(cell)}, {cell.column}, is set right.{back}")
        self.read()


def _where(cell: BadCell) -> str:
    return f"{cell.table.replace('_', ' ').capitalize()} no. {cell.row}"


def _row(cell: BadCell) -> tuple[str, ...]:
    until = "the row is left out" if cell.leaves_row_out else f"{cell.stands_in or 'nothing'} stands for it"
    return (_where(cell), cell.column.replace("_", " "), cell.value, cell.what, until)


def show_bad_cells(desk: Desk, window: QWidget | None) -> BadCells:
    """Open the list of cells that cannot be read."""
    dialog = BadCells(desk, window)
    dialog.open()
    return dialog
