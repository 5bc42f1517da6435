"""The list model of steps: prepared lines by row; dropping puts them in a new order."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import (
    QAbstractListModel,
    QByteArray,
    QMimeData,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
    Signal,
)

from rebuild.trade.waiting.days_said import exact_days
from rebuild.window.layout.plain import plain_tip
from rebuild.window.steps.lines import StepLine
from rebuild.work.records.wall_clock import now

Index = QModelIndex | QPersistentModelIndex
LINE = Qt.ItemDataRole.UserRole
MIME = "application/x-rebuild-steps"
_NO_PARENT = QModelIndex()


class StepModel(QAbstractListModel):
    """Steps of one list in order. ``moved`` asks for step ids at an index among the others."""

    moved = Signal(list, int)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._lines: list[StepLine] = []

    def set_lines(self, lines: Sequence[StepLine]) -> None:
        """Show these lines, telling views only of what differs."""
        new = list(lines)
        if [line.id for line in new] == [line.id for line in self._lines]:
            changed = [at for at, line in enumerate(new) if line != self._lines[at]]
            self._lines = new
            for at in changed:
                self.dataChanged.emit(self.index(at), self.index(at))
            return
        self.beginResetModel()
        self._lines = new
        self.endResetModel()

    def line(self, row: int) -> StepLine | None:
        """The line of a row, or None outside the list."""
        return self._lines[row] if 0 <= row < len(self._lines) else None

    def row_of(self, task_id: int) -> int:
        """The row of a step, or -1."""
        return next((at for at, line in enumerate(self._lines) if line.id == task_id), -1)

    def rowCount(self, parent: Index = _NO_PARENT) -> int:
        """How many steps."""
        return 0 if parent.isValid() else len(self._lines)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """Prepared words only."""
        line = self.line(index.row())
        if line is None:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return line.title
        if role == LINE:
            return line
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip("\n".join(filter(None, (line.tip, exact_days(line.about, now())))))
        if role in (Qt.ItemDataRole.AccessibleTextRole, Qt.ItemDataRole.AccessibleDescriptionRole):
            return line.spoken
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Every step can be dragged; drops land between steps."""
        if not index.isValid():
            return Qt.ItemFlag.ItemIsDropEnabled
        return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsDragEnabled

    def supportedDropActions(self) -> Qt.DropAction:
        """Steps are moved, never copied."""
        return Qt.DropAction.MoveAction

    def mimeTypes(self) -> list[str]:
        """Only steps of this list."""
        return [MIME]

    def mimeData(self, indexes: Sequence[QModelIndex]) -> QMimeData:
        """The ids being dragged."""
        ids = [str(line.id) for index in indexes if (line := self.line(index.row()))]
        data = QMimeData()
        data.setData(MIME, QByteArray(" ".join(ids).encode()))
        return data

    def dropMimeData(
        self, data: QMimeData, action: Qt.DropAction, row: int, column: int, parent: Index
    ) -> bool:
        """Ask for the move; the rows themselves come back through the store's report."""
        if action != Qt.DropAction.MoveAction or not data.hasFormat(MIME):
            return False
        at = row if row >= 0 else (parent.row() if parent.isValid() else len(self._lines))
        ids = [int(word) for word in bytes(data.data(MIME).data()).decode().split()]
        before = sum(1 for key in ids if 0 <= self.row_of(key) < at)
        self.moved.emit(ids, at - before)
        return False
