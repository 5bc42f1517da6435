"""Pens and arrow heads every picture shares: firm outlines, chain-dot centre lines, hatching."""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

#: The zero line of every plot [px].
HEAVY = 2.2
_CHAIN = [7.0, 2.5, 1.5, 2.5]


@lru_cache(maxsize=128)
def pen(rgba: int, width: float = 1.0, chain: bool = False) -> QPen:
    """A kept pen; ``chain`` is the long-short dash of a centre line."""
    made = QPen(QColor.fromRgba(rgba), width)
    made.setCapStyle(Qt.PenCapStyle.FlatCap)
    if chain:
        made.setDashPattern(_CHAIN)
    return made


def arrow(painter: QPainter, tip: QPointF, to: tuple[int, int], size: float, colour: QColor) -> None:
    """An arrow head at ``tip`` pointing ``to`` (+1, 0) right, (0, -1) up, and so on; ``size`` is half its base."""
    dx, dy = to
    back = QPointF(tip.x() - dx * 2 * size, tip.y() - dy * 2 * size)
    across = QPointF(-dy * size, dx * size)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    painter.drawPolygon(QPolygonF([tip, back + across, back - across]))
    painter.restore()


def hatch(
    painter: QPainter, rect: QRectF, colour: QColor, step: float = 7.0, *, falling: bool = False
) -> None:
    """Section lines at 45 degrees inside a rectangle, as a cut face is drawn."""
    lines = []
    reach = rect.height()
    x = rect.left() - reach
    while x < rect.right():
        start, end = (rect.top(), rect.bottom()) if falling else (rect.bottom(), rect.top())
        lines.append(QLineF(x, start, x + reach, end))
        x += step
    painter.save()
    painter.setClipRect(rect)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(pen(colour.rgba(), 1.0))
    painter.drawLines(lines)
    painter.restore()
