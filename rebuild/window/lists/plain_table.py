"""A table of prepared strings: a model that only looks up, and a quiet view for it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from rebuild.window.layout.plain import plain_tip

AnyIndex = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()


class PlainModel(QAbstractTableModel):
    """Rows of strings with an id each."""

    def __init__(self, headings: Sequence[str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._headings = list(headings)
        self._rows: list[tuple[str, ...]] = []
        self.ids: list[int] = []

    def fill(self, rows: Sequence[tuple[int, tuple[str, ...]]]) -> None:
        """Show other rows; only what differs is announced when the ids are the same."""
        ids = [key for key, _ in rows]
        texts = [text for _, text in rows]
        if ids == self.ids:
            for place, text in enumerate(texts):
                if text != self._rows[place]:
                    self._rows[place] = text
                    self.dataChanged.emit(self.index(place, 0), self.index(place, len(self._headings) - 1))
            return
        self.beginResetModel()
        self.ids, self._rows = ids, texts
        self.endResetModel()

    def text(self, row: int) -> tuple[str, ...]:
        """The strings of one row."""
        return self._rows[row]

    def rowCount(self, parent: AnyIndex = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: AnyIndex = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._headings)

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> str | None:
        if not index.isValid():
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return self._rows[index.row()][index.column()]
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip(self._rows[index.row()][index.column()])
        return None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> str | None:
        if orientation is Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return self._headings[section]
        return None


class PlainTable(QTableView):
    """A dense read-only table, one row chosen at a time."""

    def __init__(self, name: str, headings: Sequence[str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.plain = PlainModel(headings, self)
        self.setModel(self.plain)
        self.setAccessibleName(name)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        line = self.fontMetrics().lineSpacing() + 6
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setDefaultSectionSize(line)
        self.horizontalHeader().setDefaultAlignment(Qt.AlignmentFlag.AlignLeft)
        self.horizontalHeader().setHighlightSections(False)
        self.horizontalHeader().setStretchLastSection(True)

    def fit(self, widths: Sequence[int]) -> None:
        """Set column widths in average characters; the last one takes what is left."""
        unit = self.fontMetrics().averageCharWidth()
        for column, width in enumerate(widths[:-1]):
            self.setColumnWidth(column, width * unit + 12)

    def chosen(self) -> int | None:
        """The id of the chosen row."""
        rows = self.selectionModel().selectedRows()
        return self.plain.ids[rows[0].row()] if rows else None

    def choose(self, key: int) -> None:
        """Choose the row of an id, if it is there."""
        if key in self.plain.ids:
            self.selectRow(self.plain.ids.index(key))
