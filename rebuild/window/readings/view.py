"""The table itself: asks for pages before painting, rules between parts, and the keys of a grid."""

from __future__ import annotations

from PySide6.QtCore import (
    QEvent,
    QItemSelectionModel,
    QLine,
    QModelIndex,
    QPersistentModelIndex,
    QRect,
    Qt,
    Signal,
)
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from rebuild.window.ink import theme
from rebuild.window.ink.strokes import pen
from rebuild.window.readings.columns import Column, stage_of
from rebuild.window.readings.delegates import PartDelegate, VerdictDelegate, ZoneDelegate
from rebuild.window.readings.model import GridModel
from rebuild.window.readings.widths import share
from rebuild.work.readings.rows_grid import Key

_EDIT_BY_TYPING = QAbstractItemView.EditTrigger.AnyKeyPressed


class GridView(QTableView):
    """A table of cells, chosen like a spreadsheet's. ``typed`` carries a key meant for the entry line."""

    opened = Signal(QModelIndex)
    typed = Signal(str)

    def __init__(self, model: GridModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._model = model
        self.setModel(model)
        self._part, self._verdict, self._zone = (
            PartDelegate(model),
            VerdictDelegate(model),
            ZoneDelegate(model),
        )
        self.setItemDelegateForColumn(Column.PART, self._part)
        self.setItemDelegateForColumn(Column.VERDICT, self._verdict)
        self.setItemDelegateForColumn(Column.ZONE, self._zone)
        self.setAccessibleName("Measurements")
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectItems)
        self.setEditTriggers(QAbstractItemView.EditTrigger.EditKeyPressed | _EDIT_BY_TYPING)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setTabKeyNavigation(False)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.doubleClicked.connect(self.opened)
        self._lay_out()

    def _lay_out(self) -> None:
        metrics = self.fontMetrics()
        rows = self.verticalHeader()
        rows.hide()
        rows.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        rows.setDefaultSectionSize(metrics.height() + 7)
        header = self.horizontalHeader()
        header.setSectionsClickable(True)
        header.setSectionsMovable(True)
        header.setHighlightSections(False)
        header.setTextElideMode(Qt.TextElideMode.ElideRight)
        header.setMinimumSectionSize(metrics.averageCharWidth() * 3)
        header.setAccessibleName("Columns")
        header.setFont(theme.large(self.font(), 0.88))
        header.sectionResized.connect(self._dragged)
        self._sharing = False
        self.shared = True

    # Widths

    def share_out(self) -> None:
        """Share the room out among the columns shown, unless someone dragged one."""
        if not self.shared:
            return
        shown = [column for column in Column if not self.isColumnHidden(column)]
        # The scroll bar's room is kept free, so that it does not come and go with the rows.
        room = self.width() - self.verticalScrollBar().sizeHint().width() - 2 * self.frameWidth()
        self._sharing = True
        for column, wide in share(shown, room, self.fontMetrics().averageCharWidth()).items():
            self.setColumnWidth(column, wide)
        self._sharing = False

    def _dragged(self, _column: int, old: int, new: int) -> None:
        if not self._sharing and old and new:
            self.shared = False

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.share_out()

    # Painting

    def paintEvent(self, event: QPaintEvent) -> None:
        first, last = self._on_screen()
        self._model.ensure(first, last)
        super().paintEvent(event)
        painter = QPainter(self.viewport())
        self._rules(painter, first, last)
        painter.end()

    def _on_screen(self) -> tuple[int, int]:
        first = max(0, self.rowAt(0))
        last = self.rowAt(self.viewport().height() - 1)
        return first, last if last >= 0 else self._model.rowCount() - 1

    def _rules(self, painter: QPainter, first: int, last: int) -> None:
        """A thin rule under each row, a firmer one where the part changes, a frame round the row in hand."""
        scheme = theme.ink()
        right = min(self.viewport().width(), self.horizontalHeader().length()) - 1
        thin: list[QLine] = []
        firm: list[QLine] = []
        part = None
        for place in range(first, last + 1):
            y = self.rowViewportPosition(place) - 1
            shown = self._model.prepared_at(place)
            other = shown.row.part_id if shown is not None else None
            (firm if other != part and place > first else thin).append(QLine(0, y, right, y))
            part = other
        painter.setPen(pen(scheme.rule.rgba()))
        painter.drawLines(thin)
        painter.setPen(pen(scheme.faint.rgba()))
        painter.drawLines(firm)
        current = self.currentIndex()
        if current.isValid() and first <= current.row() <= last:
            top = self.rowViewportPosition(current.row()) - 1
            painter.setPen(pen(scheme.mark.rgba()))
            painter.drawRect(QRect(0, top, right, self.rowHeight(current.row())))

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "_verdict"):
            for drawn in (self._part, self._verdict, self._zone):
                drawn.use_ink()
            self._model.use_ink()

    # Keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        current = self.currentIndex()
        editing = self.state() == QAbstractItemView.State.EditingState
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not editing and current.isValid():
            self.opened.emit(current)
            return
        text = event.text()
        starts_number = len(text) == 1 and (text.isdigit() or text in ".,-+")
        if starts_number and current.isValid() and stage_of(current.column()) is None:
            self.typed.emit(text)
            return
        super().keyPressEvent(event)

    def edit(  # type: ignore[override]
        self,
        index: QModelIndex | QPersistentModelIndex,
        trigger: QAbstractItemView.EditTrigger | None = None,
        event: QEvent | None = None,
    ) -> bool | None:
        """Typing opens an editor in a stage cell only; the spec wants F2, so that no spec is typed over."""
        if trigger is None:
            return super().edit(index)
        if trigger == _EDIT_BY_TYPING and stage_of(index.column()) is None:
            return False
        return super().edit(index, trigger, event)  # type: ignore[arg-type]

    def keyboardSearch(self, search: str) -> None:
        """Letters do not jump about in the grid; the filter finds."""

    def go_to(self, key: Key) -> bool:
        """Make a key's row the current one, in the column in hand; whether it is in the view."""
        place = self._model.place_of(key)
        if place is None:
            return False
        current = self.currentIndex()
        if current.row() != place:
            column = current.column() if current.isValid() else Column.FEATURE
            index = self._model.index(place, column)
            self.selectionModel().setCurrentIndex(index, QItemSelectionModel.SelectionFlag.ClearAndSelect)
            self.scrollTo(index)
        return True
