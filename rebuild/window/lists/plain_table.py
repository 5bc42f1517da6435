"""A table of prepared strings: a model that only looks up, and a quiet view for it."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from PySide6.QtCore import QAbstractTableModel, QItemSelectionModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtWidgets import QAbstractItemView, QTableView, QWidget

from rebuild.window.layout.plain import plain_tip
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.fitted import FittedColumns
from rebuild.window.lists.points import TAILS, tails
from rebuild.window.lists.said import exact

_RIGHT = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
_NUMBER = re.compile(
    r"[-+±≤≥]? ?\d[\d.,]*(?: ?(?:mm|in|µm|thou|%|°C|h|min|d|rpm|kg|N·m|lb-ft|mm/m|in/ft|strokes/min))?"
)
AnyIndex = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()


def sort_key(text: str) -> tuple[tuple[int, float, str], ...]:
    """Words by letters and the numbers in them by size.

    >>> sorted(["10 qt", "9 qt", "cup"], key=sort_key)
    ['9 qt', '10 qt', 'cup']
    """
    pieces = re.findall(r"\d+(?:\.\d+)?|[^\d]+", text.casefold())
    return tuple((0, float(piece), "") if piece[0].isdecimal() else (1, 0.0, piece) for piece in pieces)


def numeric(rows: Sequence[Sequence[str]]) -> frozenset[int]:
    """The columns that hold numbers (with their units) and nothing else.

    >>> sorted(numeric([("bore", "0.625 in", ""), ("2 keys", "12.5 in", "")]))
    [1]
    """
    held: dict[int, bool] = {}
    for texts in rows:
        for column, text in enumerate(texts):
            if text:
                held[column] = held.get(column, True) and _NUMBER.fullmatch(text) is not None
    return frozenset(column for column, only in held.items() if only)


class PlainModel(QAbstractTableModel):
    """Rows of strings with an id each."""

    def __init__(self, headings: Sequence[str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._headings = list(headings)
        self._rows: list[tuple[str, ...]] = []
        self._given: list[tuple[int, tuple[str, ...]]] = []
        self.ids: list[int] = []
        #: The columns of numbers, whose decimals stand under each other.
        self.numbers: frozenset[int] = frozenset()
        self.tails: dict[int, frozenset[str]] = {}
        self.ordered: tuple[int | None, bool] = (None, False)

    def order_by(self, column: int | None, down: bool = False) -> None:
        """Put the rows in the order of a column from now on; with None in the order they were given."""
        self.ordered = (column, down)
        self.fill(self._given)

    def _in_order(self) -> list[tuple[int, tuple[str, ...]]]:
        column, down = self.ordered
        if column is None:
            return self._given
        return sorted(self._given, key=lambda row: sort_key(exact(row[1][column])), reverse=down)

    def fill(self, rows: Sequence[tuple[int, tuple[str, ...]]]) -> None:
        """Show other rows; only what differs is announced when the ids are the same."""
        self._given = list(rows)
        self.numbers = numeric([texts for _, texts in rows])
        self.tails = {column: tails([texts[column] for _, texts in rows]) for column in self.numbers}
        rows = self._in_order()
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

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        if role == TAILS:
            return self.tails.get(index.column())
        if role == Qt.ItemDataRole.DisplayRole:
            return self._rows[index.row()][index.column()]
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip(exact(self._rows[index.row()][index.column()]))
        if role == Qt.ItemDataRole.TextAlignmentRole and index.column() in self.numbers:
            return _RIGHT
        return None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> str | int | None:
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.TextAlignmentRole and section in self.numbers:
            return _RIGHT
        return self._headings[section] if role == Qt.ItemDataRole.DisplayRole else None


class PlainTable(QTableView):
    """A dense read-only table, one row chosen at a time; its columns fit what they hold.

    ``sortable``: a click on a heading puts the rows in its order, another turns it round, a third gives the
    list's own order back; the order holds when the list is filled again.
    """

    def __init__(
        self,
        name: str,
        headings: Sequence[str],
        parent: QWidget | None = None,
        *,
        sortable: bool = False,
        model: PlainModel | None = None,
        pictures: dict[int, int] | None = None,
    ) -> None:
        super().__init__(parent)
        self.plain = model if model is not None else PlainModel(headings, self)
        self.setModel(self.plain)
        self.setAccessibleName(name)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setShowGrid(False)
        self.setAlternatingRowColors(True)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        header = self.horizontalHeader()
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        header.setHighlightSections(False)
        header.setSectionsClickable(sortable)
        if sortable:
            header.sectionClicked.connect(self._order)
        self.columns = FittedColumns(self, pictures)

    def when_empty(self, words: str, offer: str = "", act: Callable[[], object] | None = None) -> EmptyState:
        """Say what the list is for while it has no row, and offer the first act."""
        self.empty = EmptyState(self, words, offer, act)
        return self.empty

    def stand_whole(self) -> None:
        """From now on as tall as its rows, which are few: nothing of it is scrolled."""
        rows = self.verticalHeader()
        rows.sectionResized.connect(lambda *_: self._take_height())
        rows.sectionCountChanged.connect(lambda *_: self._take_height())
        self._take_height()

    def _take_height(self) -> None:
        edges = 2 * self.frameWidth() + 2
        self.setFixedHeight(
            self.verticalHeader().length() + self.horizontalHeader().sizeHint().height() + edges
        )

    def _order(self, column: int) -> None:
        here = self.chosen()
        was, down = self.plain.ordered
        if was != column:
            order: tuple[int | None, bool] = (column, False)
        else:
            order = (None, False) if down else (column, True)
        self.plain.order_by(*order)
        header = self.horizontalHeader()
        header.setSortIndicatorShown(order[0] is not None)
        if order[0] is not None:
            way = Qt.SortOrder.DescendingOrder if order[1] else Qt.SortOrder.AscendingOrder
            header.setSortIndicator(column, way)
        if here is not None:
            self.choose(here)

    def chosen(self) -> int | None:
        """The id of the chosen row."""
        rows = self.selectionModel().selectedRows()
        return self.plain.ids[rows[0].row()] if rows else None

    def all_chosen(self) -> list[int]:
        """The ids of every chosen row, where the table lets several be chosen, in the order of the list."""
        rows = sorted(index.row() for index in self.selectionModel().selectedRows())
        return [self.plain.ids[row] for row in rows]

    def choose_too(self, keys: Sequence[int]) -> None:
        """Add the rows of these ids, as far as they are there, to what is chosen."""
        flags = QItemSelectionModel.SelectionFlag
        for row, key in enumerate(self.plain.ids):
            if key in keys:
                self.selectionModel().select(self.plain.index(row, 0), flags.Select | flags.Rows)

    def selectRow(self, row: int) -> None:
        """Choose one row and no other: Qt would add it to those chosen while Ctrl or Shift is held."""
        index = self.plain.index(row, 0)
        if index.isValid():
            flags = QItemSelectionModel.SelectionFlag
            self.selectionModel().setCurrentIndex(index, flags.ClearAndSelect | flags.Rows)

    def choose(self, key: int) -> None:
        """Choose the row of an id, if it is there."""
        if key in self.plain.ids:
            self.selectRow(self.plain.ids.index(key))
