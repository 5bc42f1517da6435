"""Columns as wide as what they hold over all rows; what does not fit goes on a second line, never to dots.

A table is filled first and measured once afterwards, however many cells were set: ``SLICE`` rows at once, the others
of a long list in the turns that follow, so that no list holds the window up. A width the user drags holds for that
column until the list is made anew.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from PySide6.QtCore import QAbstractItemModel, QEvent, QModelIndex, QObject, QSize, Qt, QTimer
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QHeaderView, QStyleOptionViewItem, QTableView, QTreeView, QTreeWidget
from shiboken6 import isValid

from rebuild.window.lists.cell import Cell
from rebuild.window.lists.headings_at_rest import choose_nothing
from rebuild.window.lists.points import stands_in
from rebuild.window.lists.shares import Need, share_widths
from rebuild.window.lists.wrapped import wide
from rebuild.window.lists.wrapping_delegate import SIDE, WrappingDelegate, indent_of, row_height, taken, told

#: So many rows are measured in one turn of the window: some hundredths of a second.
SLICE = 150
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
        self._may_go: tuple[int, ...] = ()
        self._held: dict[int, int] = {}
        self._sizing = False
        self._fitted_to: tuple[int, str] | None = (
            None  #: width and font of the last fit, while no cell differs
        )
        self._delegate = WrappingDelegate(view)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.timeout.connect(self._fit_if_seen)
        self._measuring: Iterator[None] | None = None  #: what is left of a long list
        self._next = QTimer(self)
        self._next.setSingleShot(True)
        self._next.timeout.connect(self._go_on)
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
            choose_nothing(view)
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

    def leave_out(self, columns: Sequence[int]) -> None:
        """Leave these columns out while they hold nothing and others would have to be scrolled to."""
        self._may_go = tuple(columns)
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
        self._measuring = None
        self._forget_sizes()
        if isValid(self._view):
            model = self._view.model()
            # Those of a long list are taken for one line until they are measured.
            self._delegate.unfinished = model is not None and model.rowCount() > SLICE
            self._later.start()

    def _fit_if_seen(self) -> None:
        if isValid(self._view) and self._view.isVisible() and self._fitted_to != self._room():
            self.fit()

    def _room(self) -> tuple[int, str]:
        return self._view.viewport().width(), self._view.font().key()

    @property
    def measuring(self) -> bool:
        """Whether rows of a long list are still to be measured."""
        return self._measuring is not None or self._later.isActive()

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
        """Measure the rows and set the widths and the heights; after the first slice in the turns that follow."""
        model = self._view.model()
        if model is None or not model.columnCount():
            return
        self._fitted_to = self._room()
        self._measuring = self._slices(model)
        self._go_on()

    def _go_on(self) -> None:
        """One slice more."""
        going = self._measuring
        if going is None or not isValid(self._view):
            return
        for _ in going:
            self._next.start()
            return
        if self._measuring is going:
            self._measuring = None

    def _slices(self, model: QAbstractItemModel) -> Iterator[None]:
        """First what the columns need, then the heights in them; the first slice has both at once."""
        rows = list(_rows(model, _ROOT))
        self._hide(self._may_go, hidden=False)
        shown = [at for at in range(model.columnCount()) if not self._view.isColumnHidden(at)]
        option = QStyleOptionViewItem()
        self._view.initViewItemOption(option)
        slices = [rows[at : at + SLICE] for at in range(0, len(rows), SLICE)] or [[]]
        needs = {column: self._heading(column) for column in shown}
        held: list[dict[int, list[Cell | None]]] = []
        self._delegate.unfinished = len(slices) > 1
        for part in slices:
            held.append({column: [self._cell(row, column, option) for row in part] for column in shown})
            needs = {column: self._need(column, held[-1][column], needs[column]) for column in shown}
            if part is slices[-1]:
                gone = self._not_wanted(shown, needs, held)
                shown = [column for column in shown if column not in gone]
                held = [{column: cells[column] for column in shown} for cells in held]
            if part is slices[0]:
                self._set_widths(shown, needs, rows)
                self._set_heights(part, held[0], afresh=True)
            if part is not slices[-1]:
                yield
        if len(slices) > 1:
            differs = self._set_widths(shown, needs, rows)
            for part, cells in list(zip(slices, held, strict=True))[0 if differs else 1 :]:
                self._set_heights(part, cells)
                yield
            self._delegate.unfinished = False
            if isinstance(self._view, QTreeView):
                self._view.scheduleDelayedItemsLayout()

    def _not_wanted(
        self, shown: list[int], needs: dict[int, Need], held: list[dict[int, list[Cell | None]]]
    ) -> list[int]:
        """Hide what may be left out, holds nothing and takes the room of others; returns those columns."""
        if sum(needs[column].least for column in shown) <= self._view.viewport().width():
            return []
        gone = [
            column
            for column in self._may_go
            if column in shown and not any(cell for cells in held for cell in cells[column])
        ]
        self._hide(gone, hidden=True)
        return gone

    def _hide(self, columns: Sequence[int], *, hidden: bool) -> None:
        self._sizing = True
        for column in columns:
            self._view.setColumnHidden(column, hidden)
        self._sizing = False

    def _set_widths(self, shown: list[int], needs: dict[int, Need], rows: list[QModelIndex]) -> bool:
        """Share the width among the columns; whether any has another width now."""
        first = [at for at, column in enumerate(shown) if column in self._yields]
        room = self._view.viewport().width()
        widths = share_widths([needs[column] for column in shown], room, first, self._spare_to(rows, shown))
        differs = False
        self._sizing = True
        for column, width in zip(shown, widths, strict=True):
            if self._view.columnWidth(column) != width:
                self._view.setColumnWidth(column, width)
                differs = True
        self._sizing = False
        return differs

    def _cell(self, row: QModelIndex, column: int, base: QStyleOptionViewItem) -> Cell | None:
        """What one cell holds, prepared once for its width and its height; None for an empty one."""
        view = self._view
        if self._spans(row):
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

    def _spans(self, row: QModelIndex) -> bool:
        view = self._view
        return isinstance(view, QTreeView) and view.isFirstColumnSpanned(row.row(), row.parent())

    def _spare_to(self, rows: list[QModelIndex], shown: list[int]) -> int:
        """Which column takes the room to spare: the last, but the first where numbers would stand far off."""
        if not rows or len(shown) < 2:
            return -1
        flags = rows[0].siblingAtColumn(shown[-1]).data(Qt.ItemDataRole.TextAlignmentRole)
        bits = getattr(flags, "value", flags) or 0  # a model gives flags or their number
        return 0 if bits & Qt.AlignmentFlag.AlignRight.value else -1

    def _need(self, column: int, cells: list[Cell | None], so_far: Need) -> Need:
        if column in self._held:
            return Need(self._held[column], self._held[column])
        natural, least = so_far.natural, so_far.least
        for cell in cells:
            if cell is not None:
                natural, least = max(natural, cell.need.natural), max(least, cell.need.least)
        return Need(natural, least)

    def _heading(self, column: int) -> Need:
        if self._header.isHidden():
            return Need(0, 0)
        title = str(self._view.model().headerData(column, Qt.Orientation.Horizontal) or "")
        arrow = 16 if self._header.sectionsClickable() else 0
        width = wide(title, QFontMetrics(self._header.font()), self._header.font().key()) + 3 * SIDE + arrow
        width = max(width, self._pictures.get(column, 0))
        return Need(width, width)

    def _set_heights(
        self, rows: list[QModelIndex], cells: dict[int, list[Cell | None]], *, afresh: bool = False
    ) -> None:
        """The heights of some rows; a tree lays them out when the first are known and when all are."""
        view = self._view
        if isinstance(view, QTreeView):
            sizes = self._sizes(rows, cells) if isinstance(view, QTreeWidget) else {}
            if afresh or self._delegate.sizes is None:
                self._delegate.sizes = sizes
                view.scheduleDelayedItemsLayout()
            else:
                self._delegate.sizes.update(sizes)
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
        """The size of each cell, by the item it is of; an empty one has a line, one that spans its row none."""
        found: dict[tuple[int, int], QSize] = {}
        items = [row.internalId() for row in rows]
        empty = QSize(2 * SIDE, row_height(self._view.fontMetrics()))
        spans = {item for item, row in zip(items, rows, strict=True) if self._spans(row)}
        for column, held in cells.items():
            room = self._view.columnWidth(column)
            for item, cell in zip(items, held, strict=True):
                if cell is not None:
                    height = row_height(cell.metrics, cell.lines(room))
                    found[item, column] = QSize(cell.need.natural - 1, height)
                elif item not in spans:
                    found[item, column] = empty
        return found


def _rows(model: QAbstractItemModel, parent: QModelIndex) -> Iterator[QModelIndex]:
    """Every row, those inside others too."""
    for at in range(model.rowCount(parent)):
        index = model.index(at, 0, parent)
        yield index
        yield from _rows(model, index)
