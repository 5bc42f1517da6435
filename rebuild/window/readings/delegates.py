"""How grid cells are drawn: part, verdict as shape and word, zone as a picture."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from rebuild.trade.limits.judgement import Verdict
from rebuild.window.ink import theme
from rebuild.window.ink.shapes import shape_pixmap
from rebuild.window.ink.strokes import pen
from rebuild.window.ink.zone_picture import draw_cell
from rebuild.window.readings.columns import Column
from rebuild.window.readings.model import GridModel

_Index = QModelIndex | QPersistentModelIndex
_PAD = 4
#: Fewer letters of a name than this tell nothing.
_WORTH_IT = 7
_VERTICAL = int(Qt.AlignmentFlag.AlignVCenter)


class _Drawn(QStyledItemDelegate):
    """A delegate that draws from the prepared row; it asks the file nothing."""

    def __init__(self, model: GridModel) -> None:
        super().__init__(model)
        self._model = model
        self._fitted: dict[tuple[str, int], str] = {}
        self.use_ink()

    def _fitting(self, text: str, width: int, option: QStyleOptionViewItem, least: str = "") -> str:
        """The text as far as it fits, or ``least`` when hardly more than that does.

        There are few texts and few widths on a screen, so they are kept.
        """
        found = self._fitted.get((text, width))
        if found is None:
            if len(self._fitted) > 500:
                self._fitted.clear()
            found = option.fontMetrics.elidedText(text, Qt.TextElideMode.ElideRight, width)
            if least and found != text and len(found) < len(least) + _WORTH_IT:
                found = option.fontMetrics.elidedText(least, Qt.TextElideMode.ElideRight, width)
            self._fitted[text, width] = found
        return found

    def use_ink(self) -> None:
        """Take the colours of the scheme in force."""
        self._ink = theme.ink()

    @staticmethod
    def _chosen(option: QStyleOptionViewItem) -> bool:
        return bool(option.state & QStyle.StateFlag.State_Selected)


class PartDelegate(_Drawn):
    """Code and name; the code alone where the name would be cut to a stump."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        rect: QRect = option.rect
        chosen = self._chosen(option)
        if chosen:
            painter.fillRect(rect, self._ink.chosen)
        shown = self._model.prepared_at(index.row())
        if shown is None:
            return
        painter.setPen(pen((self._ink.chosen_ink if chosen else self._ink.ink).rgba()))
        space = rect.adjusted(_PAD, 0, -2, 0)
        text = self._fitting(shown.texts[Column.PART], space.width(), option, least=shown.row.part_code)
        painter.drawText(space, _VERTICAL, text)


class VerdictDelegate(_Drawn):
    """The verdict's shape, then its word; a mark when the instrument was too coarse."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        rect: QRect = option.rect
        chosen = self._chosen(option)
        if chosen:
            painter.fillRect(rect, self._ink.chosen)
        shown = self._model.prepared_at(index.row())
        if shown is None or shown.row.judgement is None:
            return
        ink = self._ink.chosen_ink if chosen else self._ink.ink
        side = max(8, min(13, rect.height() - 8))
        left = rect.left() + _PAD
        if shown.shape is not None:
            ratio = painter.device().devicePixelRatio()
            picture = shape_pixmap(shown.shape, side, ink, ratio)
            painter.drawPixmap(left, rect.top() + (rect.height() - side) // 2, picture)
        painter.setPen(pen(ink.rgba()))
        text = shown.texts[Column.VERDICT]
        if shown.row.judgement.too_coarse and shown.row.judgement.verdict is Verdict.UNDECIDED:
            text = f"{text}, coarse"
        space = rect.adjusted(side + 2 * _PAD, 0, -2, 0)
        painter.drawText(space, _VERTICAL, self._fitting(text, space.width(), option))


class ZoneDelegate(_Drawn):
    """The tolerance-zone picture; on paper even when the row is chosen, so that it stays readable."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        rect: QRect = option.rect
        if self._chosen(option):
            painter.fillRect(rect, self._ink.chosen)
            painter.fillRect(rect.adjusted(2, 1, -2, -1), self._ink.sheet)
        shown = self._model.prepared_at(index.row())
        if shown is not None and shown.placed is not None:
            draw_cell(painter, QRectF(rect), shown.placed, self._ink)

    def sizeHint(self, option: QStyleOptionViewItem, index: _Index) -> QSize:
        return QSize(110, option.fontMetrics.height() + 6)
