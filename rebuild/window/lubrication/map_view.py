"""The oil map: numbers round the machine's outline or a picture, leaders to their spots, the lines that feed them.

A point is told by its form: a filled ring where oil was seen, an open one where it was not, a crossed one where it
is blocked, a broken one where it starves. Points can be dragged; with the keyboard the arrows move the chosen one.
"""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QToolTip, QWidget

from rebuild.trade.lubrication.leaders import around
from rebuild.trade.lubrication.machine_outline import outline
from rebuild.window.ink import theme
from rebuild.window.ink.picture import Picture
from rebuild.window.ink.sketch_view import draw, fitted
from rebuild.window.ink.strokes import pen
from rebuild.words.lubrication import FlowProof
from rebuild.work.lubrication.rows import CARRIES, OilCard, OilRow

#: The least radius of a number's ring, which grows with the letters; a spot on the machine; the chosen one's ring [px].
LEAST_RADIUS, SPOT, RING = 9.0, 2.6, 3.0
#: How far outside the outline a ring stands, and the paper between two rings at the least [px].
GAP, APART = 7.0, 6.0
_STEP, _LEAP = 0.01, 0.05
_MOVES = {
    Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0), Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1),
}  # fmt: skip
#: What the shapes mean, and what the hand can do; the second only where it fits.
KEY = "● seen   ○ not yet   ⊘ blocked   ◌ starves"
HINT = "drag a point to place it"


class MapView(Picture):
    """Draws the card; ``moved`` tells the new place of a point, ``chosen`` which one was pressed."""

    moved = Signal(int, float, float)
    chosen = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Oil map", QSize(560, 330), QSize(300, 180), parent)
        self._card: OilCard | None = None
        self._picture = QPixmap()
        self._chosen: int | None = None
        self._dragged: tuple[int, QPointF] | None = None
        self._from = QPointF()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self._kept: tuple[object, dict[int, QPointF]] | None = None

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

    @property
    def radius(self) -> float:
        """The radius of a number's ring [px]: two figures stand in it at any size of text."""
        return max(LEAST_RADIUS, 0.55 * self.fontMetrics().horizontalAdvance("00") + 1.5)

    def sheet(self) -> QRectF:
        """The field the shares of the map refer to, in the widget's own measures."""
        free = GAP + 2 * self.radius + 5
        room = QRectF(self.rect()).adjusted(free, free, -free, -free - self.fontMetrics().height() - 6)
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

    def spot_of(self, row: OilRow) -> QPointF | None:
        """The spot on the machine; None for one not on the map yet."""
        if self._dragged is not None and self._dragged[0] == row.id:
            return self._dragged[1]
        if row.x is None or row.y is None:
            return None
        sheet = self.sheet()
        return QPointF(sheet.left() + row.x * sheet.width(), sheet.top() + row.y * sheet.height())

    def place_of(self, row: OilRow) -> QPointF:
        """Where a point's number stands: round the outline; of those not on the map yet, along the foot."""
        return self._places()[row.id]

    def _places(self) -> dict[int, QPointF]:
        """The places of all numbers, worked out once for the card, the room and what is dragged."""
        sheet, rows = self.sheet(), self._card.rows if self._card is not None else ()
        radius = self.radius
        key = (id(self._card), sheet.getRect(), self._dragged, radius)
        if self._kept is None or self._kept[0] != key:
            spots = [(row.id, spot) for row in rows if (spot := self.spot_of(row)) is not None]
            shares = [(spot.x() - sheet.left(), spot.y() - sheet.top()) for _key, spot in spots]
            outside = (
                around(shares, sheet.width(), sheet.height(), GAP + radius, 2 * radius + APART)
                if shares
                else []
            )
            found = {
                one: QPointF(sheet.left() + x, sheet.top() + y)
                for (one, _spot), (x, y) in zip(spots, outside, strict=True)
            }
            waiting = [row.id for row in rows if row.id not in found]
            for at, one in enumerate(waiting):
                found[one] = QPointF(radius + 7.0 + at * 2.4 * radius, self.height() - radius - 4)
            self._kept = (key, found)
        return self._kept[1]

    def point_at(self, place: QPointF) -> OilRow | None:
        """The point whose number or spot lies under a place, the last drawn first."""
        rows = self._card.rows if self._card is not None else ()
        for row in reversed(rows):
            if QLineF(place, self.place_of(row)).length() <= self.radius + 2:
                return row
        for row in reversed(rows):
            spot = self.spot_of(row)
            if spot is not None and QLineF(place, spot).length() <= self.radius:
                return row
        return None

    def missing(self) -> str:
        return "" if self._card is not None else "The map of a machine’s oil points"

    def draw(self, painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        scheme, card = theme.ink(), self._card
        if card is None:
            return
        if self._picture.isNull():
            draw(painter, self.sheet(), outline(card.kind.value), scheme)
        else:
            painter.drawPixmap(self.sheet(), self._picture, QRectF(self._picture.rect()))
        self._feeds(painter, card)
        for row in card.rows:
            self._leader(painter, row)
        for row in card.rows:
            self._point(painter, row)
        if all(self.spot_of(row) is not None for row in card.rows):
            painter.setPen(QPen(scheme.faint))
            metrics = painter.fontMetrics()
            foot = QRectF(10, self.height() - metrics.height() - 4, self.width() - 20, metrics.height())
            hinted = f"{KEY}; {HINT}"
            painter.drawText(foot, 0, hinted if metrics.horizontalAdvance(hinted) <= foot.width() else KEY)

    def _leader(self, painter: QPainter, row: OilRow) -> None:
        """A thin line from the number to a dot on its spot; the chosen one's is firm."""
        scheme, spot = theme.ink(), self.spot_of(row)
        if spot is None:
            return
        chosen = row.id == self._chosen
        painter.setPen(pen((scheme.mark if chosen else scheme.edge).rgba(), 1.6 if chosen else 1.0))
        painter.drawLine(QLineF(self.place_of(row), spot))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(scheme.mark if chosen else scheme.ink)
        painter.drawEllipse(spot, SPOT, SPOT)

    def _feeds(self, painter: QPainter, card: OilCard) -> None:
        by_id = {row.id: row for row in card.rows}
        scheme = theme.ink()
        for row in card.rows:
            above = by_id.get(row.fed_by_id) if row.fed_by_id is not None else None
            start = self.spot_of(above) if above is not None else None
            end = self.spot_of(row)
            if above is None or start is None or end is None:
                continue
            line = QPen(scheme.mark, 1.3)
            if row.starved_by or above.proof is FlowProof.BLOCKED:
                line.setDashPattern([2.0, 3.0])
            painter.setPen(line)
            painter.drawLine(QLineF(start, end))

    def _point(self, painter: QPainter, row: OilRow) -> None:
        scheme, middle, radius = theme.ink(), self.place_of(row), self.radius
        seen = row.proof is FlowProof.PROVED and not row.starved_by
        outline_pen = QPen(scheme.ink, 2.6 if row.id == self._chosen else 1.4)
        if row.starved_by:
            outline_pen.setDashPattern([1.6, 1.6])
        painter.setPen(outline_pen)
        painter.setBrush(scheme.ink if seen else scheme.sheet)
        if row.kind in CARRIES:
            half = radius * 0.8
            painter.drawRect(QRectF(middle.x() - half, middle.y() - half, 2 * half, 2 * half))
        else:
            painter.drawEllipse(middle, radius, radius)
        if row.id == self._chosen:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(pen(scheme.mark.rgba(), 1.6))
            painter.drawEllipse(middle, radius + RING, radius + RING)
        if row.proof is FlowProof.BLOCKED:
            painter.setPen(QPen(scheme.mark, 2.0))
            r = radius + 2
            painter.drawLine(QLineF(middle.x() - r, middle.y() + r, middle.x() + r, middle.y() - r))
        painter.setPen(QPen(scheme.sheet if seen else scheme.ink))
        font = painter.font()
        font.setPointSizeF(self.font().pointSizeF() * (0.86 if len(row.number) < 3 else 0.66))
        painter.setFont(font)
        box = QRectF(middle.x() - radius, middle.y() - radius, 2 * radius, 2 * radius)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, row.number)
        painter.setFont(self.font())

    def mousePressEvent(self, event: QMouseEvent) -> None:
        row = self.point_at(event.position())
        if row is not None and event.button() == Qt.MouseButton.LeftButton:
            self._chosen = row.id
            self.chosen.emit(row.id)
            spot = self.spot_of(row)
            self._dragged = (row.id, spot if spot is not None else self.place_of(row))
            self._from = self._dragged[1]
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
        if row is not None and QLineF(place, self._from).length() > 2.0:
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
