"""How each row of a list would go, with a cell to mend what stops it where it stands."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QWidget

from rebuild.window.lists.plain_table import PlainModel, PlainTable

_HEADINGS = ("Row", "Would become", "Stopped by", "Mend it here")
_MEND = 3

_Index = QModelIndex | QPersistentModelIndex


class MendModel(PlainModel):
    """Rows whose last cell can be typed over, where it holds what stops the row."""

    typed = Signal(int, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(_HEADINGS, parent)
        self._can: frozenset[int] = frozenset()

    def fill_with(self, rows: Sequence[tuple[int, tuple[str, ...]]], can: frozenset[int]) -> None:
        """Fill; ``can`` are the ids of the rows that can be mended."""
        self._can = can
        self.fill(rows)

    def flags(self, index: _Index) -> Qt.ItemFlag:
        flags = super().flags(index)
        mendable = index.isValid() and index.column() == _MEND and self.ids[index.row()] in self._can
        return flags | Qt.ItemFlag.ItemIsEditable if mendable else flags

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """The text as it stands is what is edited."""
        return super().data(index, Qt.ItemDataRole.DisplayRole if role == Qt.ItemDataRole.EditRole else role)

    def setData(self, index: _Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """Hand on what was typed; the rows are looked over again with it."""
        if role != Qt.ItemDataRole.EditRole or str(value) == self.text(index.row())[_MEND]:
            return False
        self.typed.emit(self.ids[index.row()], str(value))
        return True


class MendTable(PlainTable):
    """Typing, F2 or a double click anywhere in a row mends it: there is one cell to type in."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        self.mending = MendModel(parent)
        super().__init__(name, _HEADINGS, parent, model=self.mending)
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
            | QAbstractItemView.EditTrigger.AnyKeyPressed
        )

    def edit(  # type: ignore[override]
        self,
        index: _Index,
        trigger: QAbstractItemView.EditTrigger = QAbstractItemView.EditTrigger.AllEditTriggers,
        event: QEvent | None = None,
    ) -> bool:
        """Whatever cell of the row was meant, the last is typed in."""
        last = self.plain.index(index.row(), _MEND)
        return bool(super().edit(last, trigger, event))  # type: ignore[arg-type]

    def mend(self, key: int) -> None:
        """Open the cell of a row."""
        if key in self.plain.ids:
            self.choose(key)
            self.edit(self.plain.index(self.plain.ids.index(key), _MEND))
