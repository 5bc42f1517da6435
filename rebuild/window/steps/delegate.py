"""Draws a step: its state as a shape, the title, and what it asks for in a quiet second line."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QAbstractScrollArea, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from rebuild.window.ink import theme
from rebuild.window.ink.shapes import Shape, draw_shape, shape_for
from rebuild.window.steps.lines import StepLine
from rebuild.window.steps.model import LINE
from rebuild.words.steps import TaskState
from rebuild.work.steps.rows import TaskRow

_MARGIN = 6
_SHAPE = 14


def shape_of(row: TaskRow) -> Shape:
    """The shape of a step: held ones wait, whatever their state says."""
    return Shape.WAITS if row.holds and row.state is TaskState.OPEN else shape_for(row.state)


class StepDelegate(QStyledItemDelegate):
    """Two or three lines a step, wrapped to the width of the list."""

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """Shape, title, about, cautions; a thin rule under each step."""
        line = index.data(LINE)
        if not isinstance(line, StepLine):
            return
        scheme = theme.ink()
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        rect: QRect = option.rect
        painter.save()
        painter.fillRect(rect, scheme.chosen if chosen else scheme.sheet)
        ink = scheme.chosen_ink if chosen else scheme.ink
        quiet = scheme.chosen_ink if chosen else scheme.faint
        closed = line.row.state in (TaskState.DONE, TaskState.LEFT_OUT)
        spot = QRectF(rect.left() + _MARGIN, rect.top() + _MARGIN, _SHAPE, _SHAPE)
        draw_shape(painter, spot, shape_of(line.row), ink)
        top = rect.top() + _MARGIN - 1
        for words, font, colour in _texts(line, option.font, quiet if closed else ink, quiet):
            painter.setFont(font)
            painter.setPen(QPen(colour))
            space = _text_rect(rect, top, QFontMetrics(font), words)
            painter.drawText(space, Qt.TextFlag.TextWordWrap, words)
            top = space.bottom() + 2
        painter.setPen(QPen(scheme.rule, 0))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(scheme.mark, 1))
            painter.drawRect(QRectF(rect).adjusted(0.5, 0.5, -1.5, -1.5))
        painter.restore()

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        """As tall as the wrapped words need."""
        line = index.data(LINE)
        view = option.widget
        width = view.viewport().width() if isinstance(view, QAbstractScrollArea) else 300
        if not isinstance(line, StepLine):
            return QSize(width, 24)
        rect, top = QRect(0, 0, width, 10_000), _MARGIN - 1
        for words, font, _colour in _texts(line, option.font, Qt.GlobalColor.black, Qt.GlobalColor.black):
            top = _text_rect(rect, top, QFontMetrics(font), words).bottom() + 2
        return QSize(width, top + _MARGIN - 1)


def _texts(line: StepLine, base: QFont, ink: object, quiet: object) -> list[tuple[str, QFont, object]]:
    small = QFont(base)
    small.setPointSizeF(base.pointSizeF() * 0.88)
    found = [(line.title, base, ink), (line.about, small, quiet)]
    if line.cautions:
        found.append((line.cautions, small, ink))
    return found


def _text_rect(rect: QRect, top: int, metrics: QFontMetrics, words: str) -> QRect:
    left = rect.left() + _MARGIN + _SHAPE + 6
    space = QRect(left, top, max(40, rect.right() - left - _MARGIN), 10_000)
    return metrics.boundingRect(space, Qt.TextFlag.TextWordWrap, words)
