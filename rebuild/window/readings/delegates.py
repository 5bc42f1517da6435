"""How grid cells are drawn: below the band of their part, on as many lines as they need."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from rebuild.window.ink import theme
from rebuild.window.ink.shapes import shape_pixmap
from rebuild.window.ink.strokes import pen
from rebuild.window.ink.zone_picture import draw_cell
from rebuild.window.lists.wrapped import wrapped
from rebuild.window.readings.columns import STAGE_COLUMNS, Column
from rebuild.window.readings.model import GridModel
from rebuild.window.readings.shown import Shown, after_point, margin_text, verdict_text

_Index = QModelIndex | QPersistentModelIndex
PAD = 4
ABOVE = 3
#: What the shape before a verdict takes [px].
ROUND_SHAPE = 17
#: The narrowest zone that still shows where a reading lies [px].
ZONE_WIDTH = 90


class HasBands(Protocol):
    """A view that puts the name of a part over its first row."""

    def band_of(self, row: int) -> int:
        """The height [px] of the band over a row; 0 without one."""
        ...


def lower(option: QStyleOptionViewItem, index: _Index) -> None:
    """Let a cell begin under the band over its row."""
    view = option.widget
    band = getattr(view, "band_of", None)
    if band is not None:
        option.rect = option.rect.adjusted(0, band(index.row()), 0, 0)


class LoweredDelegate(QStyledItemDelegate):
    """An ordinary cell, under its band; a reading's point stands under the points of its column."""

    def initStyleOption(self, option: QStyleOptionViewItem, index: _Index) -> None:
        super().initStyleOption(option, index)
        model = index.model()
        if index.column() in STAGE_COLUMNS and isinstance(model, GridModel):
            shown = model.prepared_at(index.row())
            option.text += after_point(option.text, shown.unit) if shown is not None else ""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        lower(option, index)
        super().paint(painter, option, index)

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, index: _Index) -> None:
        lower(option, index)
        super().updateEditorGeometry(editor, option, index)


class _Drawn(QStyledItemDelegate):
    """A delegate that draws from the prepared row; it asks the file nothing."""

    def __init__(self, model: GridModel) -> None:
        super().__init__(model)
        self._model = model
        self.use_ink()

    def use_ink(self) -> None:
        """Take the colours of the scheme in force."""
        self._ink = theme.ink()

    @staticmethod
    def _chosen(option: QStyleOptionViewItem) -> bool:
        return bool(option.state & QStyle.StateFlag.State_Selected)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        lower(option, index)
        rect: QRect = option.rect
        if self._chosen(option):
            painter.fillRect(rect, self._ink.chosen)
        shown = self._model.prepared_at(index.row())
        if shown is not None:
            self._draw(painter, option, index, shown)

    def _draw(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index, shown: Shown) -> None:
        raise NotImplementedError

    def _write(
        self, painter: QPainter, option: QStyleOptionViewItem, rect: QRect, lines: Sequence[str]
    ) -> None:
        ink = self._ink.chosen_ink if self._chosen(option) else self._ink.ink
        painter.setPen(pen(ink.rgba()))
        tall = option.fontMetrics.lineSpacing()
        top = rect.top() + max(0, (rect.height() - tall * len(lines)) // 2)
        for at, words in enumerate(lines):
            painter.drawText(
                QRect(rect.left(), top + at * tall, rect.width(), tall),
                int(Qt.AlignmentFlag.AlignVCenter),
                words,
            )


class WordsDelegate(_Drawn):
    """A name on as many lines as it needs; nothing where the row above says the same."""

    def _draw(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index, shown: Shown) -> None:
        rect: QRect = option.rect.adjusted(PAD, 0, -PAD, 0)
        lines_in = getattr(option.widget, "lines_in", None)
        if lines_in is not None:
            self._write(painter, option, rect, lines_in(index, shown.texts[index.column()], rect.width()))


class MarginDelegate(_Drawn):
    """How much is left inside the limits, or how far it is off."""

    def _draw(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index, shown: Shown) -> None:
        rect: QRect = option.rect
        text = margin_text(shown)
        faint = bool(shown.faint >> Column.OFF & 1)
        ink = self._ink.chosen_ink if self._chosen(option) else self._ink.faint if faint else self._ink.ink
        painter.setPen(pen(ink.rgba()))
        right = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        room = rect.adjusted(PAD, 0, -PAD, 0)
        painter.drawText(room, right, "\n".join(wrapped(text, room.width(), option.fontMetrics)))


class VerdictDelegate(_Drawn):
    """The verdict's shape, then its word; a mark when the instrument was too coarse."""

    def _draw(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index, shown: Shown) -> None:
        if shown.row.judgement is None:
            return
        rect: QRect = option.rect
        side = 13
        left = rect.left() + PAD
        if shown.shape is not None:
            ink = self._ink.chosen_ink if self._chosen(option) else self._ink.ink
            picture = shape_pixmap(shown.shape, side, ink, painter.device().devicePixelRatio())
            painter.drawPixmap(left, rect.top() + (rect.height() - side) // 2, picture)
        room = rect.adjusted(PAD + ROUND_SHAPE, 0, -2, 0)
        self._write(painter, option, room, wrapped(verdict_text(shown), room.width(), option.fontMetrics))


class ZoneDelegate(_Drawn):
    """The tolerance-zone picture; on paper even when the row is chosen, so that it stays readable."""

    def _draw(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index, shown: Shown) -> None:
        rect: QRect = option.rect
        if self._chosen(option):
            painter.fillRect(rect.adjusted(2, 1, -2, -1), self._ink.sheet)
        if shown.placed is not None:
            draw_cell(painter, QRectF(rect), shown.placed, self._ink)

    def sizeHint(self, option: QStyleOptionViewItem, index: _Index) -> QSize:
        return QSize(2 * ZONE_WIDTH, option.fontMetrics.height() + 6)
