"""Columns as wide as what they hold over all rows; what does not fit goes on a second line, never to dots.

A table is filled first and measured once afterwards, however many cells were set. A width the user drags holds
for that column until the list is made anew.
"""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QAbstractItemModel, QEvent, QModelIndex, QObject, QTimer
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QHeaderView, QStyleOptionViewItem, QTableView, QTreeView
from shiboken6 import isValid

from rebuild.window.lists.shares import Need, share_widths
from rebuild.window.lists.wrapped import wide
from rebuild.window.lists.wrapping_delegate import SIDE, WrappingDelegate, indent_of, row_height

#: A word longer than this many average letters may be broken, or no table with it would fit a window.
LONGEST_WORD = 22
#: A text with a digit and no more letters than this is a value: it stays on one line.
VALUE = 13
_ROOT = QModelIndex()


class FittedColumns(QObject):
    """Keeps a view's columns fitted. ``pictures`` are least widths [px] of columns that draw instead of writing."""

    def __init__(self, view: QTableView | QTreeView, pictures: dict[int, int] | None = None) -> None:
        super().__init__(view)
        self._view = view
        self._pictures = pictures or {}
        self._held: dict[int, int] = {}
        self._sizing = False
        self._delegate = WrappingDelegate(view)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.timeout.connect(self.fit)
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
        kind = event.type()
        if kind == QEvent.Type.Show:
            self.fit()
        elif kind in (QEvent.Type.Resize, QEvent.Type.FontChange):
            self.fit_later()
        return False

    def fit_later(self) -> None:
        """Fit once the list has been filled."""
        if isValid(self._view) and self._view.isVisible():
            self._later.start()

    def _dragged(self, column: int, old: int, new: int) -> None:
        if not self._sizing and old and new:
            self._held[column] = new
            self._later.start()

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
        needs = [self._need(column, rows, option) for column in shown]
        self._sizing = True
        widths = share_widths(needs, self._view.viewport().width())
        for column, width in zip(shown, widths, strict=True):
            self._view.setColumnWidth(column, width)
        self._set_heights(rows, shown)
        self._sizing = False

    def _need(self, column: int, rows: list[QModelIndex], base: QStyleOptionViewItem) -> Need:
        if column in self._held:
            return Need(self._held[column], self._held[column])
        metrics = QFontMetrics(self._header.font())
        title = str(self._view.model().headerData(column, self._header.orientation()) or "")
        arrow = 16 if self._header.isSortIndicatorShown() or self._header.sectionsClickable() else 0
        natural = least = wide(title, metrics, self._header.font().key()) + 3 * SIDE + arrow
        if self._header.isHidden():
            natural = least = 0
        if column in self._pictures:
            natural = least = max(least, self._pictures[column])
        for row in rows:
            if isinstance(self._view, QTreeView) and self._view.isFirstColumnSpanned(row.row(), row.parent()):
                continue
            index = row.siblingAtColumn(column)
            asks = self._ask(index, QStyleOptionViewItem(base))
            natural, least = max(natural, asks.natural), max(least, asks.least)
        return Need(natural, least)

    def _ask(self, index: QModelIndex, option: QStyleOptionViewItem) -> Need:
        option = self._delegate.prepared(option, index)
        if not option.text and option.icon.isNull():
            return Need(0, 0)
        metrics, font = QFontMetrics(option.font), option.font.key()
        inner = indent_of(self._view, index) if isinstance(self._view, QTreeView) else 0
        natural = self._delegate.natural(option) + inner + 1
        if len(option.text) <= VALUE and any(letter.isdigit() for letter in option.text):
            return Need(natural, natural)
        longest = max((wide(word, metrics, font) for word in option.text.split()), default=0)
        around = natural - max((wide(part, metrics, font) for part in option.text.split("\n")), default=0)
        return Need(natural, around + min(longest, LONGEST_WORD * metrics.averageCharWidth()))

    def _set_heights(self, rows: list[QModelIndex], shown: list[int]) -> None:
        view = self._view
        if isinstance(view, QTreeView):
            view.scheduleDelayedItemsLayout()
            return
        option = QStyleOptionViewItem()
        view.initViewItemOption(option)
        metrics = view.fontMetrics()
        for row in rows:
            most = 1
            for column in shown:
                asked = self._delegate.prepared(QStyleOptionViewItem(option), row.siblingAtColumn(column))
                if asked.text:
                    most = max(most, len(self._delegate.lines_in(asked, view.columnWidth(column))))
            height = row_height(metrics, most)
            if view.rowHeight(row.row()) != height:
                view.setRowHeight(row.row(), height)


def _rows(model: QAbstractItemModel, parent: QModelIndex) -> Iterator[QModelIndex]:
    """Every row, those inside others too."""
    for at in range(model.rowCount(parent)):
        index = model.index(at, 0, parent)
        yield index
        yield from _rows(model, index)
