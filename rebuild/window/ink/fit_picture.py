"""The zones of a fit above and below one zero line, as the standards draw them.

Holes are hatched one way, shafts filled, plain limits outlined; what was measured is a firm line (or a bar
when it has a width). Deviations are lettered at each zone's edges with their sign.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QWidget

from rebuild.trade.results.figured import Zone
from rebuild.trade.sizes.show import show_number
from rebuild.window.ink import theme
from rebuild.window.ink.picture import Picture
from rebuild.window.ink.strokes import HEAVY, hatch, pen
from rebuild.window.ink.theme import Ink

_WIDEST = 120.0
_DECIMALS = {"mm": 4, "in": 5}
_CENTRE = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignVCenter


class FitPicture(Picture):
    """Draws the zones of a fit; none clears it. ``sides`` names what lies under and over the zero line."""

    def __init__(self, parent: QWidget | None = None, sides: tuple[str, str] = ("low", "high")) -> None:
        super().__init__("Tolerance zones", QSize(360, 190), QSize(200, 110), parent)
        self._sides = sides
        self._zones: tuple[Zone, ...] = ()
        self._unit = "mm"

    def set_zones(self, zones: Sequence[Zone], unit: str = "mm") -> None:
        """Show other zones, their deviations lettered in ``unit`` (mm or in)."""
        self._zones, self._unit = tuple(zones), unit
        self.setAccessibleDescription("; ".join(_in_words(zone, unit) for zone in self._zones))
        self.update()

    def missing(self) -> str:
        return "" if self._zones else "No zones to draw yet"

    def draw(self, painter: QPainter) -> None:
        rect = QRectF(self.rect()).adjusted(8, 6, -8, -6)
        draw_fit(painter, rect, self._zones, self._unit, theme.ink(), self._sides)


def _in_words(zone: Zone, unit: str) -> str:
    low, high = (show_number(mm, unit, _DECIMALS[unit], sign=True) for mm in (zone.low_mm, zone.high_mm))
    return f"{zone.label}: {low} to {high} {unit}"


def draw_fit(
    painter: QPainter,
    rect: QRectF,
    zones: Sequence[Zone],
    unit: str,
    ink: Ink,
    sides: tuple[str, str] = ("low", "high"),
) -> None:
    """Draw the zones of a fit with the painter's font; deviations in ``unit`` (mm or in).

    ``sides`` are the words for the small and the large end: low and high of a size, tight and clear of a fit.
    """
    if zones:
        painter.setPen(pen(ink.faint.rgba()))
        left = int(Qt.AlignmentFlag.AlignLeft)
        painter.drawText(rect, left | int(Qt.AlignmentFlag.AlignTop), f"{sides[1]} [{unit}]")
        painter.drawText(rect, left | int(Qt.AlignmentFlag.AlignBottom), sides[0])
        _Fit(painter, rect, zones, unit, ink).draw()


class _Fit:
    """One drawing under way."""

    def __init__(self, painter: QPainter, rect: QRectF, zones: Sequence[Zone], unit: str, ink: Ink) -> None:
        self._painter, self._zones, self._unit, self._ink = painter, zones, unit, ink
        metrics = painter.fontMetrics()
        self._line = float(metrics.height())
        below = 2.0 if any(zone.high_mm <= 0 for zone in zones) else 1.2
        self._body = rect.adjusted(
            metrics.horizontalAdvance("0 "), 2.1 * self._line, 0.0, -below * self._line
        )
        self._left = rect.left()
        ends = [0.0, *(zone.low_mm for zone in zones), *(zone.high_mm for zone in zones)]
        self._low, self._high = min(ends), max(ends)
        if self._high - self._low < 1e-9:
            self._low, self._high = self._low - 1e-3, self._high + 1e-3

    def draw(self) -> None:
        """The band a fit is to lie in over the whole width, the zero line, then each zone in its column."""
        for zone in self._zones:
            if zone.role == "band":
                self._band(zone)
        zero = self._at(0.0)
        painter = self._painter
        painter.setPen(pen(self._ink.ink.rgba(), HEAVY))
        painter.drawLine(QLineF(self._body.left(), zero, self._body.right(), zero))
        painter.drawText(
            QRectF(self._left, zero - self._line / 2, self._body.left() - self._left - 3, self._line),
            Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter,
            "0",
        )
        column = self._body.width() / len(self._zones)
        for place, zone in enumerate(self._zones):
            width = min(_WIDEST, column * 0.6)
            left = self._body.left() + place * column + (column - width) / 2
            self._zone(zone, left, width)

    def _at(self, mm: float) -> float:
        share = (mm - self._low) / (self._high - self._low)
        return self._body.bottom() - share * self._body.height()

    def _zone(self, zone: Zone, left: float, width: float) -> None:
        painter, ink = self._painter, self._ink
        top, bottom = self._at(zone.high_mm), self._at(zone.low_mm)
        face = QRectF(left, top, width, bottom - top)
        if zone.role == "reading":
            self._measured(face)
        elif zone.role != "band":
            if zone.role == "hole":
                hatch(painter, face, ink.faint)
            elif zone.role == "shaft":
                painter.fillRect(face, ink.zone)
            painter.setPen(pen(ink.ink.rgba(), 1.2))
            painter.drawRect(face)
        self._letter(zone, face)

    def _band(self, zone: Zone) -> None:
        """Across the whole picture, so that every reading stands in it or out of it."""
        painter, top, bottom = self._painter, self._at(zone.high_mm), self._at(zone.low_mm)
        left, right = self._body.left(), self._body.right()
        painter.fillRect(QRectF(left, top, right - left, bottom - top), self._ink.zone)
        painter.setPen(pen(self._ink.ink.rgba(), 1.0))
        painter.drawLines([QLineF(left, y, right, y) for y in (top, bottom)])

    def _measured(self, face: QRectF) -> None:
        painter, mark = self._painter, self._ink.mark
        middle = face.center().x()
        y = round(face.center().y())
        painter.fillRect(QRectF(face.left(), y - 1, face.width(), 3), mark)
        if face.height() > 3:
            painter.setPen(pen(mark.rgba(), 1.2))
            painter.drawLines(
                [
                    QLineF(middle, face.top(), middle, face.bottom()),
                    QLineF(middle - 6, face.top(), middle + 6, face.top()),
                    QLineF(middle - 6, face.bottom(), middle + 6, face.bottom()),
                ]
            )

    def _letter(self, zone: Zone, face: QRectF) -> None:
        """Its name over it, its deviations at its edges; one deviation when both are the same.

        Nothing is lettered across the zero line: a deviation in its way stands beside the zone, a name under it.
        """
        painter, line = self._painter, self._line
        wide = face.adjusted(-40, 0, 40, 0)
        high, low = (
            show_number(mm, self._unit, _DECIMALS[self._unit], sign=True)
            for mm in (zone.high_mm, zone.low_mm)
        )
        name = QRectF(wide.left(), face.top() - 2.0 * line, wide.width(), line)
        over = QRectF(wide.left(), face.top() - line, wide.width(), line)
        under = QRectF(wide.left(), face.bottom(), wide.width(), line)
        if self._crossed(name.united(over)):
            name.moveTop(under.bottom() - 0.15 * line)
        painter.setPen(pen((self._ink.mark if zone.role == "reading" else self._ink.ink).rgba()))
        painter.drawText(name, _CENTRE, zone.label)
        painter.setPen(pen(self._ink.faint.rgba()))
        self._deviation(high, over, QPointF(face.right(), face.top()))
        if low != high:
            self._deviation(low, under, QPointF(face.right(), face.bottom()))

    def _crossed(self, space: QRectF) -> bool:
        zero = self._at(0.0)
        return space.top() + 1 < zero < space.bottom() - 1

    def _deviation(self, words: str, space: QRectF, edge: QPointF) -> None:
        if not self._crossed(space):
            self._painter.drawText(space, _CENTRE, words)
            return
        beside = QRectF(edge.x() + 4, edge.y() - self._line / 2, space.width(), self._line)
        away = 1 if edge.y() >= self._at(0.0) else -1
        if self._crossed(beside):
            beside.translate(0, away * (self._line / 2 - abs(edge.y() - self._at(0.0)) + 1))
        self._painter.drawText(beside, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)
