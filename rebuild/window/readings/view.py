"""The table of the grid: asks for pages before painting, frames the row in hand, and takes the keys of a grid."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QItemSelectionModel, QModelIndex, QPersistentModelIndex, QRect, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractItemView, QWidget

from rebuild.window.readings.columns import STAGE_COLUMNS, Column, stage_of
from rebuild.window.readings.delegates import (
    LoweredDelegate,
    MarginDelegate,
    VerdictDelegate,
    WordsDelegate,
    ZoneDelegate,
)
from rebuild.window.readings.fitted_view import FittedView
from rebuild.window.readings.model import GridModel
from rebuild.window.readings.ruling import Ruling
from rebuild.words.readings import STAGES, Stage
from rebuild.work.readings.rows_grid import Key

_EDIT_BY_TYPING = QAbstractItemView.EditTrigger.AnyKeyPressed


class GridView(FittedView):
    """A table of cells, chosen like a spreadsheet's. ``typed`` carries a key meant for the entry line."""

    opened = Signal(QModelIndex)
    typed = Signal(str)

    def __init__(self, model: GridModel, parent: QWidget | None = None) -> None:
        super().__init__(model, parent)
        self._stage: Stage | None = None
        self._ruling = Ruling(self, model)
        self._words, self._margin = WordsDelegate(model), MarginDelegate(model)
        self._verdict, self._zone = VerdictDelegate(model), ZoneDelegate(model)
        self.setItemDelegate(LoweredDelegate(self))
        for column in (Column.PART, Column.FEATURE, Column.KIND):
            self.setItemDelegateForColumn(column, self._words)
        self.setItemDelegateForColumn(Column.OFF, self._margin)
        self.setItemDelegateForColumn(Column.VERDICT, self._verdict)
        self.setItemDelegateForColumn(Column.ZONE, self._zone)
        self.setAccessibleName("Measurements")
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectItems)
        self.setEditTriggers(QAbstractItemView.EditTrigger.EditKeyPressed | _EDIT_BY_TYPING)
        self.setShowGrid(False)
        self.setWordWrap(True)
        self.setTabKeyNavigation(False)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.doubleClicked.connect(self.opened)

    # Painting

    def paintEvent(self, event: QPaintEvent) -> None:
        first, last = self._on_screen()
        if not self._model.holds(first, last):
            self._model.ensure(first, last)
            self._later.start()
        super().paintEvent(event)
        painter = QPainter(self.viewport())
        self._ruling.draw(painter, self._stage, *self._to_paint(event.rect(), first, last))
        painter.end()

    def _to_paint(self, asked: QRect, first: int, last: int) -> tuple[int, int]:
        """The rows of a part of the screen and one on either side, whose frame reaches into it."""
        above, below = self.rowAt(max(0, asked.top())), self.rowAt(asked.bottom())
        return max(first, above - 1), min(last, below + 1) if below >= 0 else last

    def _on_screen(self) -> tuple[int, int]:
        first = max(0, self.rowAt(0))
        last = self.rowAt(self.viewport().height() - 1)
        return first, last if last >= 0 else self._model.rowCount() - 1

    def currentChanged(
        self, current: QModelIndex | QPersistentModelIndex, previous: QModelIndex | QPersistentModelIndex
    ) -> None:
        super().currentChanged(current, previous)
        for index in (previous, current):  # the frame reaches beyond the cells Qt would paint again
            self._paint_again(index)

    def _paint_again(self, index: QModelIndex | QPersistentModelIndex) -> None:
        """Paint a row anew with the frame round it."""
        if index.isValid():
            top, tall = self.rowViewportPosition(index.row()), self.rowHeight(index.row())
            self.viewport().update(QRect(0, top - 3, self.viewport().width(), tall + 6))

    def show_stage(self, stage: Stage) -> None:
        """Mark the cell the next value goes to; the cell in hand goes there when it is another stage's."""
        self._stage = stage
        current, column = self.currentIndex(), STAGE_COLUMNS[STAGES.index(stage)]
        if current.isValid() and stage_of(current.column()) not in (None, stage):
            there = self._model.index(current.row(), column)
            self.selectionModel().setCurrentIndex(there, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        self._paint_again(current)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "_verdict"):
            for drawn in (self._words, self._margin, self._verdict, self._zone):
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
