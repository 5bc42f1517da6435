"""A line drawing of strokes on the screen, scaled to the room there is."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from rebuild.trade.drawing.sketch import Drawing, Weight
from rebuild.window.ink import theme
from rebuild.window.ink.picture import Picture
from rebuild.window.ink.strokes import pen
from rebuild.window.ink.theme import Ink


def fitted(rect: QRectF, drawing: Drawing) -> tuple[float, QPointF]:
    """The scale and upper left corner that put the whole drawing in the middle of a rectangle."""
    scale = min(rect.width() / drawing.width, rect.height() / drawing.height)
    left = rect.center().x() - drawing.width * scale / 2
    top = rect.center().y() - drawing.height * scale / 2
    return scale, QPointF(left, top)


def draw(painter: QPainter, rect: QRectF, drawing: Drawing, ink: Ink) -> None:
    """Draw it in ink; what the test is about in the marking colour, and heavier, so that it reads in grey."""
    scale, corner = fitted(rect, drawing)
    pens: dict[Weight, QPen] = {
        Weight.OUTLINE: pen(ink.ink.rgba(), 1.3),
        Weight.THIN: pen(ink.faint.rgba(), 1.0),
        Weight.CENTRE: pen(ink.faint.rgba(), 1.0, chain=True),
        Weight.MARK: pen(ink.mark.rgba(), 1.8),
    }
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for stroke in drawing.strokes:
        points = QPolygonF(
            [QPointF(corner.x() + x * scale, corner.y() + y * scale) for x, y in stroke.points]
        )
        painter.setPen(pens[stroke.weight])
        painter.setBrush(pens[stroke.weight].color() if stroke.filled else Qt.BrushStyle.NoBrush)
        if stroke.closed:
            painter.drawPolygon(points)
        else:
            painter.drawPolyline(points)
    painter.setPen(QPen(ink.faint))
    metrics = painter.fontMetrics()
    for word in drawing.words:
        wide = metrics.horizontalAdvance(word.text)
        shift = {"l": 0.0, "m": wide / 2, "r": float(wide)}[word.anchor]
        painter.drawText(
            QPointF(corner.x() + word.at[0] * scale - shift, corner.y() + word.at[1] * scale), word.text
        )
    painter.restore()


class DrawingView(Picture):
    """Shows one drawing."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(name, QSize(360, 190), QSize(200, 110), parent)
        self._drawing: Drawing | None = None
        self._instead = "No sketch"
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)

    def show_drawing(self, drawing: Drawing | None, words: str = "", instead: str = "No sketch") -> None:
        """Show another drawing; ``words`` describe it to a screen reader."""
        self._drawing, self._instead = drawing, instead
        self.setAccessibleDescription(words)
        self.update()

    def missing(self) -> str:
        return "" if self._drawing is not None else self._instead

    def draw(self, painter: QPainter) -> None:
        if self._drawing is not None:
            draw(painter, QRectF(self.rect()).adjusted(8, 6, -8, -6), self._drawing, theme.ink())
