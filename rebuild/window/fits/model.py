"""The model of the fits list: ids in order and prepared lines; it asks the file nothing by itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtGui import QIcon

from rebuild.window.fits.lines import COLUMNS, FitLine
from rebuild.window.ink import theme
from rebuild.window.ink.shapes import Shape, shape_pixmap
from rebuild.window.layout.plain import plain_tip

Index = QModelIndex | QPersistentModelIndex
_NOWHERE = QModelIndex()
STATE = COLUMNS.index("State")

_SIDE = 16


@lru_cache(maxsize=64)
def _icon(shape: Shape, dark: bool) -> QIcon:
    """The shape in ink, and in the chosen row's ink where the row is chosen."""
    ink = theme.DARK if dark else theme.LIGHT
    icon = QIcon()
    for ratio in (1.0, 2.0, 3.0):
        for mode, colour in ((QIcon.Mode.Normal, ink.ink), (QIcon.Mode.Selected, ink.chosen_ink)):
            icon.addPixmap(shape_pixmap(shape, _SIDE, colour, ratio), mode)
    return icon


Wanted = Callable[[FitLine], bool]
Rank = Callable[[FitLine], tuple[int, ...]]


class FitModel(QAbstractTableModel):
    """All lines are kept; those that are wanted are shown, in the order asked for."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._lines: dict[int, FitLine] = {}
        self._shown: list[int] = []
        self._wanted: Wanted = lambda _line: True
        self._rank: Rank = lambda _line: ()

    def set_lines(self, lines: Iterable[FitLine]) -> None:
        """Show another machine's fits."""
        self.beginResetModel()
        self._lines = {line.id: line for line in lines}
        self._arrange()
        self.endResetModel()

    def ask(self, wanted: Wanted, rank: Rank) -> None:
        """Which lines are wanted, and what they are put in order by."""
        self.beginResetModel()
        self._wanted, self._rank = wanted, rank
        self._arrange()
        self.endResetModel()

    def _arrange(self) -> None:
        kept = [line for line in self._lines.values() if self._wanted(line)]
        self._shown = [line.id for line in sorted(kept, key=self._rank)]

    def update_lines(self, lines: Mapping[int, FitLine | None]) -> None:
        """New lines for some fits (None: gone). A line stays where it is until the list is asked anew."""
        for key, line in lines.items():
            at = self.row_of(key)
            if line is None:
                self._drop(key, at)
            elif at >= 0:
                self._lines[key] = line
                self.dataChanged.emit(self.index(at, 0), self.index(at, len(COLUMNS) - 1))
            else:
                self._add(key, line)

    def _drop(self, key: int, at: int) -> None:
        self._lines.pop(key, None)
        if at >= 0:
            self.beginRemoveRows(_NOWHERE, at, at)
            del self._shown[at]
            self.endRemoveRows()

    def _add(self, key: int, line: FitLine) -> None:
        self._lines[key] = line
        if self._wanted(line):
            last = len(self._shown)
            self.beginInsertRows(_NOWHERE, last, last)
            self._shown.append(key)
            self.endInsertRows()

    def key_at(self, row: int) -> int | None:
        """The fit of a row."""
        return self._shown[row] if 0 <= row < len(self._shown) else None

    def row_of(self, key: int) -> int:
        """The row of a fit, or -1."""
        return self._shown.index(key) if key in self._shown else -1

    @property
    def ids(self) -> list[int]:
        """What is shown, in order."""
        return list(self._shown)

    def count(self, wanted: Wanted) -> int:
        """How many of all lines are such."""
        return sum(1 for line in self._lines.values() if wanted(line))

    def rowCount(self, parent: Index = _NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._shown)

    def columnCount(self, parent: Index = _NOWHERE) -> int:
        return 0 if parent.isValid() else len(COLUMNS)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> str | QIcon | None:
        """Prepared words and shapes only."""
        if not index.isValid():
            return None
        line = self._lines[self._shown[index.row()]]
        if role == Qt.ItemDataRole.DisplayRole:
            return line.texts[index.column()]
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip(line.tip)
        if role == Qt.ItemDataRole.DecorationRole and index.column() == STATE:
            return _icon(line.shape, theme.is_dark())
        return None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> str | None:
        if orientation is Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return COLUMNS[section]
        return None
