"""The tolerance-zone picture in a grid cell; ``fit_picture`` draws the larger one of a fit.

Zone as a plain rectangle with its limits as firm lines and an open side left open; the nominal (zero) line
in the chain-dot of a drawing; the reading as a firm stroke with its uncertainty as a bar; a reading beyond
the picture sits at the edge behind an arrow. Told by form; colour only helps.
"""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF
from PySide6.QtGui import QPainter

from rebuild.window.ink.fit_picture import FitPicture, draw_fit
from rebuild.window.ink.strokes import arrow, pen
from rebuild.window.ink.theme import Ink
from rebuild.window.ink.zone_scale import Drawn, Placed, place

__all__ = ["Drawn", "FitPicture", "Placed", "draw_cell", "draw_fit", "place"]


def draw_cell(painter: QPainter, rect: QRectF, placed: Placed, ink: Ink) -> None:
    """The picture lying along a grid cell: small sizes left, large sizes right."""
    left, top, width, height = rect.x() + 3, rect.y() + 2, rect.width() - 6, rect.height() - 4
    middle = top + height / 2
    zone_left, zone_right = left + placed.zone[0] * width, left + placed.zone[1] * width
    painter.fillRect(QRectF(zone_left, top + 1, zone_right - zone_left, height - 2), ink.zone)
    edges = []
    if not placed.open_low:
        edges.append(QLineF(zone_left, top, zone_left, top + height))
    if not placed.open_high:
        edges.append(QLineF(zone_right, top, zone_right, top + height))
    painter.setPen(pen(ink.ink.rgba(), 1.0))
    painter.drawLines(edges)
    if placed.nominal is not None:
        x = left + placed.nominal * width
        painter.setPen(pen(ink.faint.rgba(), 1.0, chain=True))
        painter.drawLine(QLineF(x, rect.y(), x, rect.bottom()))
    if placed.reading is not None:
        _reading_in_cell(painter, placed, left, width, middle, height, ink)


def _reading_in_cell(
    painter: QPainter, placed: Placed, left: float, width: float, middle: float, height: float, ink: Ink
) -> None:
    assert placed.reading is not None
    x = left + placed.reading * width
    if placed.out:
        arrow(painter, QPointF(x, middle), (placed.out, 0), min(4.5, height * 0.38), ink.mark)
        return
    if placed.bar is not None:
        start, end = left + placed.bar[0] * width, left + placed.bar[1] * width
        painter.setPen(pen(ink.mark.rgba(), 1.0))
        tick = height * 0.2
        painter.drawLines(
            [
                QLineF(start, middle, end, middle),
                QLineF(start, middle - tick, start, middle + tick),
                QLineF(end, middle - tick, end, middle + tick),
            ]
        )
    painter.fillRect(QRectF(x - 1.25, middle - height * 0.42, 2.5, height * 0.84), ink.mark)
