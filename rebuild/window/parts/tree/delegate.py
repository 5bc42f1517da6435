"""Paints code and name apart, the decision as a plain shape and its word; edits the name in place."""

from __future__ import annotations

from PySide6.QtCore import (
    QAbstractItemModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QRect,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPalette
from PySide6.QtWidgets import (
    QApplication,
    QLineEdit,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTreeView,
    QWidget,
)

from rebuild.window.ink import theme
from rebuild.window.ink.shapes import Shape, draw_shape, shape_for
from rebuild.window.lists.wrapped import wrapped
from rebuild.window.lists.wrapping_delegate import indent_of
from rebuild.window.parts.tree.lines import Line
from rebuild.window.parts.tree.model import LINE_ROLE, PLACE
from rebuild.words.parts import Identity

MARK = 11
GAP = 5
LEADING = 5
#: What of a line's width its edges take [px].
SIDES = 5


def titled(line: Line, view: QWidget | None) -> str:
    """Code and name; what is off follows where the view is too narrow for the place."""
    hidden = isinstance(view, QTreeView) and view.isColumnHidden(PLACE)
    return f"{line.texts[0]} · {line.off}" if line.off and hidden else line.texts[0]


class TreeDelegate(QStyledItemDelegate):
    """The look of the tree's lines. ``named`` carries the node and the new name."""

    named = Signal(object, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._faint = theme.ink().faint

    def recolour(self) -> None:
        """Take the colours of the scheme in force."""
        self._faint = theme.ink().faint

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        line = index.data(LINE_ROLE)
        lines = 1
        if line is not None and index.column() == 0 and isinstance(option.widget, QTreeView):
            view = option.widget
            font = index.data(Qt.ItemDataRole.FontRole) or option.font
            metrics = QFontMetrics(font)
            room = view.columnWidth(0) - indent_of(view, index) - SIDES
            lines = len(self._broken(line, titled(line, view), room, metrics, font.key())[1])
        return QSize(super().sizeHint(option, index).width(), option.fontMetrics.height() * lines + LEADING)

    @staticmethod
    def _broken(
        line: Line, text: str, room: int, metrics: QFontMetrics, font: str
    ) -> tuple[int, tuple[str, ...]]:
        """How far the name stands in beside mark and code, and the lines it goes on.

        In a narrow tree it begins under the code instead, where that takes no more lines: the first is then empty.
        """
        inner = MARK + GAP if line.identity not in (None, Identity.CONFIRMED) else 0
        name = text[len(line.code) :].strip()
        if not line.code:
            return inner, wrapped(name, max(30, room - inner), metrics, font)
        beside_at = inner + metrics.horizontalAdvance(line.code + "  ")
        beside = wrapped(name, max(30, room - beside_at), metrics, font)
        under_at = inner + metrics.horizontalAdvance("  ")
        under = ("", *wrapped(name, max(30, room - under_at), metrics, font))
        return (beside_at, beside) if len(beside) < len(under) else (under_at, under)

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        line = index.data(LINE_ROLE)
        if line is None or index.column() > 1 or (index.column() == 1 and line.decision is None):
            super().paint(painter, option, index)
            return
        self.initStyleOption(option, index)
        text = option.text if index.column() else titled(line, option.widget)
        option.text = ""
        style = option.widget.style() if option.widget else QApplication.style()
        style.drawControl(QStyle.ControlElement.CE_ItemViewItem, option, painter, option.widget)
        ink, faint = self._inks(option)
        rect: QRect = option.rect.adjusted(3, 0, -2, 0)
        painter.save()
        painter.setFont(option.font)
        if index.column() == 1:
            self._mark(painter, rect, Shape.DONE if line.there else shape_for(line.decision), ink)
            line_tall = min(rect.height(), painter.fontMetrics().height() + LEADING)
            self._words(
                painter, QRect(rect.left() + MARK + GAP, rect.top(), rect.width(), line_tall), text, ink
            )
        else:
            self._title(painter, rect, line, text, ink, faint)
        painter.restore()

    def _title(
        self, painter: QPainter, rect: QRect, line: Line, text: str, ink: QColor, faint: QColor
    ) -> None:
        full = QRect(rect)
        if line.identity not in (None, Identity.CONFIRMED):
            self._mark(painter, rect, shape_for(line.identity), ink)
            rect = rect.adjusted(MARK + GAP, 0, 0, 0)
        metrics = painter.fontMetrics()
        if line.code:
            first = QRect(rect.left(), rect.top(), rect.width(), metrics.height() + LEADING)
            self._words(painter, first, line.code, faint)
        inner, lines = self._broken(line, text, full.width(), metrics, painter.font().key())
        for at, words in enumerate(lines):
            space = QRect(
                full.left() + inner,
                rect.top() + at * metrics.height(),
                full.width(),
                metrics.height() + LEADING,
            )
            self._words(painter, space, words, ink)

    def _inks(self, option: QStyleOptionViewItem) -> tuple[QColor, QColor]:
        palette: QPalette = option.palette
        if option.state & QStyle.StateFlag.State_Selected:
            chosen = palette.color(QPalette.ColorGroup.Active, QPalette.ColorRole.HighlightedText)
            return chosen, chosen
        return palette.color(QPalette.ColorRole.Text), self._faint

    @staticmethod
    def _mark(painter: QPainter, rect: QRect, shape: Shape, ink: QColor) -> None:
        line = min(rect.height(), painter.fontMetrics().height() + LEADING)
        top = rect.top() + (line - MARK) / 2
        draw_shape(painter, QRectF(rect.left(), top, MARK, MARK), shape, ink)

    @staticmethod
    def _words(painter: QPainter, rect: QRect, text: str, ink: QColor) -> None:
        if rect.width() < 4:
            return
        painter.setPen(ink)
        painter.drawText(rect, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, text)

    def createEditor(
        self, parent: QWidget, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QWidget:
        editor = QLineEdit(parent)
        editor.setAccessibleName("Name")
        editor.setFrame(False)
        return editor

    def setModelData(
        self, editor: QWidget, model: QAbstractItemModel, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        assert isinstance(editor, QLineEdit)
        self.named.emit(index.internalId(), editor.text())
