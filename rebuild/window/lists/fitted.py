"""Columns as wide as what they hold over all rows; what does not fit goes on a second line, never to dots.

A table is filled first and measured once afterwards, however many cells were set. A width the user drags holds
for that column until the list is made anew.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from PySide6.QtCore import QAbstractItemModel, QEvent, QModelIndex, QObject, QSize, Qt, QTimer
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QHeaderView, QStyleOptionViewItem, QTableView, QTreeView, QTreeWidget
from shiboken6 import isValid

from rebuild.window.lists.points import stands_in
from rebuild.window.lists.shares import Need, share_widths
from rebuild.window.lists.wrapped import wide, wrapped
from rebuild.window.lists.wrapping_delegate import SIDE, WrappingDelegate, indent_of, row_height, taken, told

#: A word longer than this many average letters may be broken, or no table with it would fit a window.
LONGEST_WORD = 22
#: A text with a digit and no more letters than this is a value: it stays on one line.
VALUE = 13
#: Under this many average letters a line of words reads badly; the list is then scrolled sideways.
FEWEST_LETTERS = 13
_ROOT = QModelIndex()


class FittedColumns(QObject):
    """Keeps a view's columns fitted. ``pictures`` are least widths [px] of columns that draw instead of writing.

    ``yields`` are columns that give way before the others where there is not room for all on one line.
    """

    def __init__(
        self,
        view: QTableView | QTreeView,
        pictures: dict[int, int] | None = None,
        yields: Sequence[int] = (),
    ) -> None:
        super().__init__(view)
        self._yields = frozenset(yields)
        self._view = view
        self._pictures = pictures or {}
        self._held: dict[int, int] = {}
        self._sizing = False
        self._fitted_to: tuple[int, str] | None = (
            None  #: width and font of the last fit, while no cell differs
        )
        self._delegate = WrappingDelegate(view)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.timeout.connect(self._fit_if_seen)
        self._header = view.horizontalHeader() if isinstance(view, QTableView) else view.header()
        self._prepare()
        self.watch()

    def _prepare(self) -> None:
        view, header = self._view, self._header
        view.setItemDelegate(self._delegate)
        header.setStretchLastSection(False)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        header.setMinimumSectionSize(20)
        header.sectionResized.connect(self._dragged)
        if isinstance(view, QTableView):
            rows = view.verticalHeader()
            rows.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
            rows.setMinimumSectionSize(8)
            rows.setDefaultSectionSize(row_height(view.fontMetrics()))
            view.setWordWrap(True)
            view.setHorizontalScrollMode(QTableView.ScrollMode.ScrollPerPixel)
            view.setVerticalScrollMode(QTableView.ScrollMode.ScrollPerPixel)
        else:
            view.setUniformRowHeights(False)
            view.setVerticalScrollMode(QTreeView.ScrollMode.ScrollPerPixel)
        view.viewport().installEventFilter(self)

    def watch(self) -> None:
        """Follow the view's model; called again when it is given another."""
        model = self._view.model()
        for signal in (
            model.modelReset,
            model.layoutChanged,
            model.rowsInserted,
            model.rowsRemoved,
            model.dataChanged,
            model.headerDataChanged,
        ):
            signal.connect(self.fit_later)
        self.fit_later()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.Show, QEvent.Type.Resize, QEvent.Type.FontChange):
            if event.type() != QEvent.Type.Show:
                self._forget_sizes()
            self._later.start()
        return False

    def fit_later(self) -> None:
        """Fit once the list has been filled and has its size."""
        self._fitted_to = None
        self._forget_sizes()
        if isValid(self._view):
            self._later.start()

    def _fit_if_seen(self) -> None:
        if isValid(self._view) and self._view.isVisible() and self._fitted_to != self._room():
            self.fit()

    def _room(self) -> tuple[int, str]:
        return self._view.viewport().width(), self._view.font().key()

    def _forget_sizes(self) -> None:
        """Something differs from what was measured: until the next fit each cell is measured when it is asked for."""
        if self._delegate.sizes:
            self._delegate.sizes = {}

    def _dragged(self, column: int, old: int, new: int) -> None:
        if not self._sizing:
            self._forget_sizes()
        if not self._sizing and old and new:
            self._held[column] = new
            self.fit_later()

    # Measuring

    def fit(self) -> None:
        """Measure every row and set the widths and the heights."""
        model = self._view.model()
        if model is None or not model.columnCount():
            return
        rows = list(_rows(model, _ROOT))
        shown = [at for at in range(model.columnCount()) if not self._view.isColumnHidden(at)]
        option = QStyleOptionViewItem()
        self._view.initViewItemOption(option)
        cells = {column: [self._cell(row, column, option) for row in rows] for column in shown}
        needs = [self._need(column, cells[column]) for column in shown]
        first = [at for at, column in enumerate(shown) if column in self._yields]
        widths = share_widths(needs, self._view.viewport().width(), first, self._spare_to(rows, shown))
        self._sizing = True
        for column, width in zip(shown, widths, strict=True):
            if self._view.columnWidth(column) != width:
                self._view.setColumnWidth(column, width)
        self._set_heights(rows, cells)
        self._sizing = False
        self._fitted_to = self._room()

    def _cell(self, row: QModelIndex, column: int, base: QStyleOptionViewItem) -> Cell | None:
        """What one cell holds, prepared once for its width and its height; None for an empty one."""
        view = self._view
        if isinstance(view, QTreeView) and view.isFirstColumnSpanned(row.row(), row.parent()):
            return None
        index = row.siblingAtColumn(column)
        option = QStyleOptionViewItem(base)
        self._delegate.initStyleOption(option, index)
        if not option.text and option.icon.isNull():
            return None
        inner = indent_of(view, index) if isinstance(view, QTreeView) else 0
        metrics, font = QFontMetrics(option.font), option.font.key()
        around = taken(option) + inner + stands_in(index, option.text, metrics, font)
        return Cell(told(option), metrics, font, around)

    def _spare_to(self, rows: list[QModelIndex], shown: list[int]) -> int:
        """Which column takes the room to spare: the last, but the first where numbers would stand far off."""
        if not rows or len(shown) < 2:
            return -1
        flags = rows[0].siblingAtColumn(shown[-1]).data(Qt.ItemDataRole.TextAlignmentRole)
        bits = getattr(flags, "value", flags) or 0  # a model gives flags or their number
        return 0 if bits & Qt.AlignmentFlag.AlignRight.value else -1

    def _need(self, column: int, cells: list[Cell | None]) -> Need:
        if column in self._held:
            return Need(self._held[column], self._held[column])
        natural = least = self._heading(column)
        for cell in cells:
            if cell is not None:
                natural, least = max(natural, cell.need.natural), max(least, cell.need.least)
        return Need(natural, least)

    def _heading(self, column: int) -> int:
        if self._header.isHidden():
            return 0
        title = str(self._view.model().headerData(column, Qt.Orientation.Horizontal) or "")
        arrow = 16 if self._header.sectionsClickable() else 0
        width = wide(title, QFontMetrics(self._header.font()), self._header.font().key()) + 3 * SIDE + arrow
        return max(width, self._pictures.get(column, 0))

    def _set_heights(self, rows: list[QModelIndex], cells: dict[int, list[Cell | None]]) -> None:
        view = self._view
        if isinstance(view, QTreeView):
            self._delegate.sizes = self._sizes(rows, cells) if isinstance(view, QTreeWidget) else {}
            view.scheduleDelayedItemsLayout()
            return
        metrics = view.fontMetrics()
        most = [1] * len(rows)
        for column, held in cells.items():
            room = view.columnWidth(column)
            for at, cell in enumerate(held):
                if cell is not None and (lines := cell.lines(room)) > most[at]:
                    most[at] = lines
        for row, lines in zip(rows, most, strict=True):
            height = row_height(metrics, lines)
            if view.rowHeight(row.row()) != height and not view.isRowHidden(row.row()):
                view.setRowHeight(row.row(), height)

    def _sizes(
        self, rows: list[QModelIndex], cells: dict[int, list[Cell | None]]
    ) -> dict[tuple[int, int], QSize]:
        """The size of each cell that holds anything, by the item it is of."""
        found: dict[tuple[int, int], QSize] = {}
        items = [row.internalId() for row in rows]
        for column, held in cells.items():
            room = self._view.columnWidth(column)
            for item, cell in zip(items, held, strict=True):
                if cell is not None:
                    height = row_height(cell.metrics, cell.lines(room))
                    found[item, column] = QSize(cell.need.natural - 1, height)
        return found


class Cell(NamedTuple):
    """The words of a cell, how they are written, and what edges and picture take beside them [px]."""

    text: str
    metrics: QFontMetrics
    font: str
    around: int

    @property
    def need(self) -> Need:
        """Its width on one line, and the width under which a word or a value would be cut."""
        natural = self.around + 1 + max(wide(part, self.metrics, self.font) for part in self.text.split("\n"))
        if len(self.text) <= VALUE and any(letter.isdigit() for letter in self.text):
            return Need(natural, natural)
        longest = max(
            (wide(word, self.metrics, self.font) for word in re.split(r"[ \n]+", self.text)), default=0
        )
        letter = self.metrics.averageCharWidth()
        least = max(min(longest, LONGEST_WORD * letter), FEWEST_LETTERS * letter)
        return Need(natural, min(natural, self.around + least + 1))

    def lines(self, room: int) -> int:
        """How many lines it goes on in a width [px]."""
        return len(wrapped(self.text, max(8, room - self.around), self.metrics, self.font))


def _rows(model: QAbstractItemModel, parent: QModelIndex) -> Iterator[QModelIndex]:
    """Every row, those inside others too."""
    for at in range(model.rowCount(parent)):
        index = model.index(at, 0, parent)
        yield index
        yield from _rows(model, index)
