"""Items of a list drawn as entries of a book: a quiet heading, the words under it, a thin rule between."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractScrollArea,
    QListWidget,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from rebuild.window.ink import theme

_SIDE = 8
_ABOVE = 4
_Index = QModelIndex | QPersistentModelIndex


class RuledDelegate(QStyledItemDelegate):
    """The first line of an item's text is its heading; the rest wraps to the width of the list.

    ``name_first``: the heading is what it is called, and the rest is quiet; else a date is quiet, and the rest speaks.
    """

    def __init__(self, parent: QWidget, *, name_first: bool = False) -> None:
        super().__init__(parent)
        self._name_first = name_first

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        scheme = theme.ink()
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        rect: QRect = option.rect
        painter.save()
        painter.fillRect(rect, scheme.chosen if chosen else scheme.sheet)
        quiet = scheme.chosen_ink if chosen else scheme.faint
        for words, font, space in _laid(str(index.data() or ""), option.font, rect, self._name_first):
            painter.setFont(font)
            painter.setPen(
                QPen(quiet if font != option.font else scheme.chosen_ink if chosen else scheme.ink)
            )
            painter.drawText(space, Qt.TextFlag.TextWordWrap, words)
        painter.setPen(QPen(scheme.rule, 0))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(scheme.mark, 1))
            painter.drawRect(QRectF(rect).adjusted(0.5, 0.5, -1.5, -1.5))
        painter.restore()

    def sizeHint(self, option: QStyleOptionViewItem, index: _Index) -> QSize:
        view = option.widget
        width = view.viewport().width() if isinstance(view, QAbstractScrollArea) else 300
        laid = _laid(str(index.data() or ""), option.font, QRect(0, 0, width, 10_000), self._name_first)
        return QSize(width, laid[-1][2].bottom() + _ABOVE + 2)


def _laid(text: str, base: QFont, rect: QRect, name_first: bool) -> list[tuple[str, QFont, QRect]]:
    """Heading and body with their fonts and places."""
    heading, _, body = text.partition("\n")
    small = QFont(base)
    small.setPointSizeF(base.pointSizeF() * 0.9)
    found: list[tuple[str, QFont, QRect]] = []
    top = rect.top() + _ABOVE
    fonts = (base, small) if name_first else (small, base)
    for words, font in zip((heading, body), fonts, strict=True):
        if words or not found:
            space = QRect(rect.left() + _SIDE, top, max(40, rect.width() - 2 * _SIDE), 10_000)
            space = QFontMetrics(font).boundingRect(space, Qt.TextFlag.TextWordWrap, words or " ")
            found.append((words, font, space))
            top = space.bottom() + 1
    return found


def ruled(view: QListWidget, *, name_first: bool = False) -> QListWidget:
    """Let a list draw its items so; its scroll bar stays, so that widths do not change under wrapped words."""
    view.setItemDelegate(RuledDelegate(view, name_first=name_first))
    view.setWordWrap(True)
    view.setResizeMode(QListWidget.ResizeMode.Adjust)
    view.setVerticalScrollMode(QListWidget.ScrollMode.ScrollPerPixel)
    view.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
    view.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    return view
