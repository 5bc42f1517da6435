"""What is ruled over the grid: a line under each row, a part's name over its rows, frames round what is in hand."""

from __future__ import annotations

from PySide6.QtCore import QLine, QModelIndex, QRect, Qt
from PySide6.QtGui import QPainter

from rebuild.window.ink import theme
from rebuild.window.ink.strokes import pen
from rebuild.window.readings.columns import STAGE_COLUMNS, Column
from rebuild.window.readings.delegates import PAD
from rebuild.window.readings.fitted_view import FittedView
from rebuild.window.readings.model import GridModel
from rebuild.words.readings import STAGES, Stage


class Ruling:
    """Draws over a table that was painted; ``stage`` is the one being measured."""

    def __init__(self, view: FittedView, model: GridModel) -> None:
        self._view, self._model = view, model

    def draw(self, painter: QPainter, stage: Stage | None, first: int, last: int) -> None:
        """A thin rule under each row, the name of the part over its rows, a frame round the row in hand."""
        scheme = theme.ink()
        right = min(self._view.viewport().width(), self._view.horizontalHeader().length()) - 1
        painter.setPen(pen(scheme.rule.rgba()))
        painter.drawLines(
            [QLine(0, y, right, y) for y in (self._under(row) for row in range(first, last + 1))]
        )
        for row in range(first, last + 1):
            if self._view.band_of(row):
                self._draw_band(painter, row, right)
        current = self._view.currentIndex()
        if current.isValid() and first <= current.row() <= last:
            band = self._view.band_of(current.row())
            top = self._view.rowViewportPosition(current.row()) - 1 + band
            painter.setPen(pen(scheme.mark.rgba()))
            painter.drawRect(QRect(0, top, right, self._view.rowHeight(current.row()) - band))
            self._frame_cell(painter, current, stage)

    def _frame_cell(self, painter: QPainter, current: QModelIndex, stage: Stage | None) -> None:
        """A firm frame round the cell of the stage in hand."""
        if stage is None:
            return
        column = STAGE_COLUMNS[STAGES.index(stage)]
        space = self._view.visualRect(self._model.index(current.row(), column))
        if not self._view.isColumnHidden(column) and space.isValid():
            space.setTop(space.top() + self._view.band_of(current.row()))
            painter.setPen(pen(theme.ink().mark.rgba(), 2.0))
            painter.drawRect(space.adjusted(1, 1, -1, -1))

    def _under(self, row: int) -> int:
        return self._view.rowViewportPosition(row) + self._view.rowHeight(row) - 1

    def _draw_band(self, painter: QPainter, row: int, right: int) -> None:
        scheme = theme.ink()
        shown = self._model.prepared_at(row)
        top = self._view.rowViewportPosition(row)
        space = QRect(0, top, right, self._view.band - 1)
        painter.fillRect(space, scheme.band)
        painter.setPen(pen(scheme.faint.rgba()))
        painter.drawLine(0, space.bottom() + 1, right, space.bottom() + 1)
        if shown is not None:
            painter.setFont(self._view.bold)
            painter.setPen(pen(scheme.ink.rgba()))
            painter.drawText(
                space.adjusted(PAD, 0, -PAD, 0), int(Qt.AlignmentFlag.AlignVCenter), shown.texts[Column.PART]
            )
            painter.setFont(self._view.font())
