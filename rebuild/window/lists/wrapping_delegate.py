"""A cell drawn on as many lines as it needs, its first line level with its neighbours'."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QIcon, QPainter, QPalette
from PySide6.QtWidgets import (
    QApplication,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QTreeView,
    QTreeWidget,
)

from rebuild.window.lists.points import stands_in
from rebuild.window.lists.wrapped import wide, wrapped

SIDE = 4
ABOVE = 3
AFTER_ICON = 4
_Index = QModelIndex | QPersistentModelIndex


def row_height(metrics: QFontMetrics, lines: int = 1) -> int:
    """The height [px] of a row of so many lines; the one row height of every table."""
    return metrics.lineSpacing() * lines + 2 * ABOVE


class WrappingDelegate(QStyledItemDelegate):
    """Draws what ``FittedColumns`` measured; both ask ``lines_in``.

    ``sizes`` are those it measured, by item and column, for a tree asks for every cell at every layout; None while
    nothing was measured: then each row is one line, for the columns have no width of their own yet. So it is for
    what is not measured yet of a long list that is ``unfinished``.
    """

    sizes: dict[tuple[int, int], QSize] | None = None
    unfinished: bool = False

    def lines_in(self, option: QStyleOptionViewItem, room: int) -> tuple[str, ...]:
        """The lines of a prepared option in a cell of a width [px]."""
        metrics = QFontMetrics(option.font)
        return wrapped(told(option), max(8, room - taken(option)), metrics, option.font.key())

    def natural(self, option: QStyleOptionViewItem) -> int:
        """The width [px] that shows a prepared option on its own lines."""
        metrics, font = QFontMetrics(option.font), option.font.key()
        return max((wide(part, metrics, font) for part in told(option).split("\n")), default=0) + taken(
            option
        )

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        self.initStyleOption(option, index)
        view = option.widget
        style = view.style() if view is not None else QApplication.style()
        style.drawPrimitive(QStyle.PrimitiveElement.PE_PanelItemViewItem, option, painter, view)
        rect = QRect(option.rect)
        left = rect.left() + SIDE
        line = QFontMetrics(option.font).lineSpacing()
        if _ticks(option):
            left += _draw_tick(painter, style, option)
        if not option.icon.isNull():
            size = option.decorationSize
            at_top = rect.top() + ABOVE + (line - size.height()) // 2
            mode = (
                QIcon.Mode.Selected if option.state & QStyle.StateFlag.State_Selected else QIcon.Mode.Normal
            )
            place = QRect(left, at_top, size.width(), size.height())
            option.icon.paint(painter, place, Qt.AlignmentFlag.AlignCenter, mode)
            left += size.width() + AFTER_ICON
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        role = QPalette.ColorRole.HighlightedText if chosen else QPalette.ColorRole.Text
        enabled = bool(option.state & QStyle.StateFlag.State_Enabled)
        group = QPalette.ColorGroup.Normal if enabled else QPalette.ColorGroup.Disabled
        painter.save()
        painter.setFont(option.font)
        painter.setPen(option.palette.color(group, role))
        right = bool(option.displayAlignment & Qt.AlignmentFlag.AlignRight)
        flags = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
        inset = stands_in(index, option.text, QFontMetrics(option.font), option.font.key()) if right else 0
        for at, words in enumerate(self.lines_in(option, rect.width() - inset)):
            space = QRect(left, rect.top() + ABOVE + at * line, rect.right() - left - SIDE + 1 - inset, line)
            painter.drawText(space, flags | Qt.AlignmentFlag.AlignVCenter, words)
        painter.restore()

    def sizeHint(self, option: QStyleOptionViewItem, index: _Index) -> QSize:
        view = option.widget
        if isinstance(view, QTreeWidget):
            if self.sizes is None:
                return QSize(0, row_height(view.fontMetrics()))
            measured = self.sizes.get((index.internalId(), index.column()))
            if measured is not None:
                return measured
            if self.unfinished:
                return QSize(0, row_height(view.fontMetrics()))
        self.initStyleOption(option, index)
        room = 10_000
        if isinstance(view, QTableView):
            room = view.columnWidth(index.column())
        elif isinstance(view, QTreeView):
            room = view.columnWidth(index.column()) - indent_of(view, index)
            if view.isFirstColumnSpanned(index.row(), index.parent()):
                room = view.viewport().width() - indent_of(view, index)
        lines = self.lines_in(option, room)
        return QSize(self.natural(option), row_height(QFontMetrics(option.font), len(lines)))


def told(option: QStyleOptionViewItem) -> str:
    """The words of a prepared option, their line ends as they were given: Qt puts its own in their place."""
    return option.text.replace("\u2028", "\n")


def taken(option: QStyleOptionViewItem) -> int:
    """What of a cell's width [px] its edges and its picture take."""
    icon = 0 if option.icon.isNull() else option.decorationSize.width() + AFTER_ICON
    tick = QApplication.style().pixelMetric(QStyle.PixelMetric.PM_IndicatorWidth) + AFTER_ICON
    return 2 * SIDE + icon + (tick if _ticks(option) else 0)


def _ticks(option: QStyleOptionViewItem) -> bool:
    return bool(option.features & QStyleOptionViewItem.ViewItemFeature.HasCheckIndicator)


def _draw_tick(painter: QPainter, style: QStyle, option: QStyleOptionViewItem) -> int:
    """Draw a cell's tick box where a click on it is looked for; returns the width [px] it takes."""
    box = QStyleOptionViewItem(option)
    box.rect = style.subElementRect(QStyle.SubElement.SE_ItemViewItemCheckIndicator, option, option.widget)
    on = option.checkState is Qt.CheckState.Checked
    box.state &= ~QStyle.StateFlag.State_HasFocus
    box.state |= QStyle.StateFlag.State_On if on else QStyle.StateFlag.State_Off
    style.drawPrimitive(QStyle.PrimitiveElement.PE_IndicatorItemViewItemCheck, box, painter, option.widget)
    return box.rect.right() + AFTER_ICON - option.rect.left() - SIDE


def indent_of(view: QTreeView, index: _Index) -> int:
    """How far [px] a line of a list that opens stands in, in its first column."""
    if index.column() != 0:
        return 0
    depth = 1 if view.rootIsDecorated() else 0
    above = index.parent()
    while above.isValid():
        depth, above = depth + 1, above.parent()
    return depth * view.indentation()
