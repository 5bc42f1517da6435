"""The readings of one survey as a table: a row a place, a column a run of a line, typed as on the bench."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from rebuild.trade.geometry.flatness import line_words
from rebuild.work.surveys.data import SurveyData

Index = QModelIndex | QPersistentModelIndex
_NO_PARENT = QModelIndex()
_MORE = 1


class RunModel(QAbstractTableModel):
    """Texts by place and run; writing goes through ``store`` (line id, place, text, run) which says if it was taken."""

    def __init__(self, store: Callable[[int, int, str, int], bool], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._store = store
        self._columns: list[tuple[int, int, str]] = []
        self._texts: list[list[str]] = []
        self._rows = 0
        self._by_steps = True

    def show_data(self, data: SurveyData | None, *, two_runs: bool, by_steps: bool) -> None:
        """Show a survey; an unchanged layout only repaints what differs."""
        columns: list[tuple[int, int, str]] = []
        texts: list[list[str]] = []
        for line in data.lines if data is not None else ():
            for run in (1, 2) if two_runs else (1,):
                name = line_words(line.name)
                columns.append((line.id, run, f"{name}, back" if run == 2 else name))
                texts.append([text for text, _ in line.runs.get(run, ())])
        rows = max((len(column) for column in texts), default=0) + _MORE
        if columns != self._columns or not columns:
            self.beginResetModel()
            self._columns, self._texts, self._rows, self._by_steps = columns, texts, rows, by_steps
            self.endResetModel()
            return
        self._texts = texts
        self._grow_to(rows)
        self.dataChanged.emit(self.index(0, 0), self.index(rows - 1, len(columns) - 1))

    def _grow_to(self, rows: int) -> None:
        """Rows come and go at the end, so that an open editor and the chosen cell stay."""
        if rows > self._rows:
            self.beginInsertRows(_NO_PARENT, self._rows, rows - 1)
            self._rows = rows
            self.endInsertRows()
        elif rows < self._rows:
            self.beginRemoveRows(_NO_PARENT, rows, self._rows - 1)
            self._rows = rows
            self.endRemoveRows()

    def rowCount(self, parent: Index = _NO_PARENT) -> int:
        """One more than the longest run, to type into."""
        return 0 if parent.isValid() or not self._columns else self._rows

    def columnCount(self, parent: Index = _NO_PARENT) -> int:
        """A column a run."""
        return 0 if parent.isValid() else len(self._columns)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """The text as typed."""
        if not index.isValid():
            return None
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            column = self._texts[index.column()]
            return column[index.row()] if index.row() < len(column) else ""
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        return None

    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """Store what was typed; refused text is said by the page and stays in its editor."""
        if role != Qt.ItemDataRole.EditRole:
            return False
        line_id, run, _ = self._columns[index.column()]
        text = str(value)
        if text == self.data(index):
            return True
        return self._store(line_id, index.row(), text, run)

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Every cell can be typed into."""
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEditable

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        """Line names across; steps or stations down."""
        if role != Qt.ItemDataRole.DisplayRole:
            return None
        if orientation == Qt.Orientation.Horizontal:
            return self._columns[section][2] if section < len(self._columns) else None
        return f"step {section + 1}" if self._by_steps else f"station {section + 1}"

    def column_key(self, column: int) -> tuple[int, int] | None:
        """The (line id, run) of a column."""
        return self._columns[column][:2] if 0 <= column < len(self._columns) else None

    def column_of(self, line_id: int, run: int) -> int:
        """The column of a run of a line, or -1."""
        return next((at for at, key in enumerate(self._columns) if key[:2] == (line_id, run)), -1)

    def texts_of(self, column: int) -> list[str]:
        """A run's texts."""
        return list(self._texts[column])
