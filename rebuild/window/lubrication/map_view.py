"""The oil map: numbered points on the machine's outline or a picture, with the lines that feed them.

A point is told by its form: a filled ring where oil was seen, an open one where it was not, a crossed one where it
is blocked, a broken one where it starves. Points can be dragged; with the keyboard the arrows move the chosen one.
"""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from rebuild.trade.lubrication.machine_outline import outline
from rebuild.window.ink import theme
from rebuild.window.ink.sketch_view import draw, fitted
from rebuild.window.ink.strokes import pen
from rebuild.words.lubrication import FlowProof
from rebuild.work.lubrication.rows import CARRIES, OilCard, OilRow

RADIUS = 9.0
_STEP, _LEAP = 0.01, 0.05
_MOVES = {
    Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0), Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1),
}  # fmt: skip


class MapView(QWidget):
    """Draws the card; ``moved`` tells the new place of a point, ``chosen`` which one was pressed."""

    moved = Signal(int, float, float)
    chosen = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._card: OilCard | None = None
        self._picture = QPixmap()
        self._chosen: int | None = None
        self._dragged: tuple[int, QPointF] | None = None
        self.setAccessibleName("Oil map")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumSize(300, 180)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        return QSize(560, 330)

    def show_card(self, card: OilCard | None, picture: QPixmap | None = None) -> None:
        """Show another card; ``picture`` stands in for the outline."""
        self._card = card
        if picture is not None:
            self._picture = picture
        self._dragged = None
        self.setAccessibleDescription(
            "; ".join(f"{row.called}: {row.flow}" for row in card.rows) if card is not None else ""
        )
        self.update()

    def choose(self, point_id: int | None) -> None:
        """Mark a point as the chosen one."""
        self._chosen = point_id
        self.update()

    def sheet(self) -> QRectF:
        """The field the shares of the map refer to, in the widget's own measures."""
        room = QRectF(self.rect()).adjusted(10, 8, -10, -self.fontMetrics().height() - 12)
        if not self._picture.isNull():
            size = QSize(self._picture.size()).scaled(
                room.size().toSize(), Qt.AspectRatioMode.KeepAspectRatio
            )
            return QRectF(
                room.center().x() - size.width() / 2,
                room.center().y() - size.height() / 2,
                size.width(),
                size.height(),
            )
        drawing = outline(self._card.kind.value if self._card is not None else "")
        scale, corner = fitted(room, drawing)
        return QRectF(corner.x(), corner.y(), drawing.width * scale, drawing.height * scale)

    def place_of(self, row: OilRow) -> QPointF:
        """Where a point is drawn; those not on the map yet wait along the foot."""
        if self._dragged is not None and self._dragged[0] == row.id:
            return self._dragged[1]
        sheet = self.sheet()
        if row.x is not None and row.y is not None:
            return QPointF(sheet.left() + row.x * sheet.width(), sheet.top() + row.y * sheet.height())
        waiting = [other.id for other in self._card.rows if other.x is None] if self._card is not None else []
        return QPointF(16.0 + waiting.index(row.id) * 2.4 * RADIUS, self.height() - RADIUS - 4)

    def point_at(self, place: QPointF) -> OilRow | None:
        """The point under a place, the last drawn first."""
        for row in reversed(self._card.rows) if self._card is not None else ():
            if QLineF(place, self.place_of(row)).length() <= RADIUS + 2:
                return row
        return None

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        scheme = theme.ink()
        painter.fillRect(self.rect(), scheme.sheet)
        card = self._card
        if card is None:
            painter.end()
            return
        if self._picture.isNull():
            draw(painter, self.sheet(), outline(card.kind.value), scheme)
        else:
            painter.drawPixmap(self.sheet(), self._picture, QRectF(self._picture.rect()))
        self._feeds(painter, card)
        for row in card.rows:
            self._point(painter, row)
        if not any(row.x is None for row in card.rows):
            painter.setPen(QPen(scheme.faint))
            foot = QRectF(10, self.height() - painter.fontMetrics().height() - 4, self.width() - 20, 20)
            painter.drawText(foot, 0, "● seen   ○ not yet   ⊘ blocked   ◌ starves; drag a point to place it")
        painter.end()

    def _feeds(self, painter: QPainter, card: OilCard) -> None:
        by_id = {row.id: row for row in card.rows}
        scheme = theme.ink()
        for row in card.rows:
            above = by_id.get(row.fed_by_id) if row.fed_by_id is not None else None
            if above is None or row.x is None or above.x is None:
                continue
            line = QPen(scheme.mark, 1.3)
            if row.starved_by or above.proof is FlowProof.BLOCKED:
                line.setDashPattern([2.0, 3.0])
            painter.setPen(line)
            painter.drawLine(QLineF(self.place_of(above), self.place_of(row)))

    def _point(self, painter: QPainter, row: OilRow) -> None:
        scheme, middle = theme.ink(), self.place_of(row)
        seen = row.proof is FlowProof.PROVED and not row.starved_by
        outline_pen = QPen(scheme.ink, 2.6 if row.id == self._chosen else 1.4)
        if row.starved_by:
            outline_pen.setDashPattern([1.6, 1.6])
        painter.setPen(outline_pen)
        painter.setBrush(scheme.ink if seen else scheme.sheet)
        if row.kind in CARRIES:
            painter.drawRect(
                QRectF(middle.x() - RADIUS * 0.8, middle.y() - RADIUS * 0.8, RADIUS * 1.6, RADIUS * 1.6)
            )
        else:
            painter.drawEllipse(middle, RADIUS, RADIUS)
        if row.id == self._chosen:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(pen(scheme.mark.rgba(), 1.6))
            painter.drawEllipse(middle, RADIUS + 4, RADIUS + 4)
        painter.setPen(QPen(scheme.sheet if seen else scheme.ink))
        font = painter.font()
        font.setPointSizeF(self.font().pointSizeF() * (0.86 if len(row.number) < 3 else 0.66))
        painter.setFont(font)
        box = QRectF(middle.x() - RADIUS, middle.y() - RADIUS, 2 * RADIUS, 2 * RADIUS)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, row.number)
        painter.setFont(self.font())
        if row.proof is FlowProof.BLOCKED:
            painter.setPen(QPen(scheme.mark, 2.0))
            r = RADIUS + 2
            painter.drawLine(QLineF(middle.x() - r, middle.y() + r, middle.x() + r, middle.y() - r))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        row = self.point_at(event.position())
        if row is not None and event.button() == Qt.MouseButton.LeftButton:
            self._chosen = row.id
            self.chosen.emit(row.id)
            self._dragged = (row.id, self.place_of(row))
            self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._dragged is not None and event.buttons() & Qt.MouseButton.LeftButton:
            self._dragged = (self._dragged[0], event.position())
            self.update()
            return
        row = self.point_at(event.position())
        if row is not None:
            QToolTip.showText(event.globalPosition().toPoint(), f"{row.called}\n{row.oil}\n{row.flow}", self)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self._dragged is None:
            return
        (key, place), self._dragged = self._dragged, None
        row = (
            next((one for one in self._card.rows if one.id == key), None) if self._card is not None else None
        )
        if row is not None and QLineF(place, self.place_of(row)).length() > 2.0:
            self._tell(key, place)
        self.update()

    def _tell(self, key: int, place: QPointF) -> None:
        sheet = self.sheet()
        x = min(1.0, max(0.0, (place.x() - sheet.left()) / sheet.width()))
        y = min(1.0, max(0.0, (place.y() - sheet.top()) / sheet.height()))
        self.moved.emit(key, x, y)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        row = next((one for one in self._card.rows if one.id == self._chosen), None) if self._card else None
        key = Qt.Key(event.key())
        if row is None or (key not in _MOVES and key != Qt.Key.Key_Return):
            super().keyPressEvent(event)
            return
        step = _LEAP if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else _STEP
        dx, dy = _MOVES.get(key, (0, 0))
        x, y = (0.5, 0.5) if row.x is None or row.y is None else (row.x, row.y)
        self.moved.emit(row.id, min(1.0, max(0.0, x + dx * step)), min(1.0, max(0.0, y + dy * step)))
