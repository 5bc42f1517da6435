"""Plots of a survey: each line over its stations, before beside after, with uncertainty and what is allowed."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from rebuild.trade.sizes.ticks import tick_words, ticks
from rebuild.window.ink.picture import Picture
from rebuild.window.ink.plot import Plot, mark, stroke
from rebuild.window.ink.strokes import pen
from rebuild.window.surveys.curve_sets import Curve, CurveSet, Shown, curve_set
from rebuild.work.surveys.data import SurveyResult

_SAMPLE = 26.0
_SIDE = 14.0


class Curves(Picture):
    """Lines told apart by stroke and mark, not by colour; the survey compared with is drawn faint."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Plot of the survey", QSize(600, 480), QSize(240, 160), parent)
        self.set = CurveSet()

    @property
    def shown(self) -> tuple[Curve, ...]:
        """The curves drawn."""
        return self.set.curves

    def show_results(
        self, now: SurveyResult | None, before: SurveyResult | None, unit: str, shown: Shown = Shown.DEVIATION
    ) -> None:
        """Draw a result, and the one it is compared with; without one an empty sheet."""
        self.set = curve_set(now, before, shown, unit)
        self.setAccessibleDescription(", ".join(curve.name for curve in self.shown))
        self.update()

    def missing(self) -> str:
        return "" if self.shown else "No line worked out yet"

    def draw(self, painter: QPainter) -> None:
        rect, line = QRectF(self.rect()), painter.fontMetrics().lineSpacing()
        rows = _legend_rows(painter, self.shown, rect.width() - 2 * _SIDE)
        up = _levels(self.set)
        wide = max(painter.fontMetrics().horizontalAdvance(tick_words(value, up)) for value in up)
        above = (len(rows) + 1.6) * line + 4
        field = rect.adjusted(wide + _SIDE, above, -_SIDE, -2.6 * line)
        stations = self.set.stations
        plot = Plot(painter, field, (stations[0], stations[-1]), (up[0], up[-1]))
        _band(plot, self.set)
        plot.levels([(value, tick_words(value, up)) for value in up])
        feet = [(value, f"{round(value, 2):g}") for value in stations]
        plot.uprights(feet)
        plot.foot(feet)
        _zero(plot)
        _axis_words(plot, self.set, line)
        if self.set.metal:
            for curve in self.shown:
                _metal(plot, curve)
        for curve in self.shown:
            _bars(plot, curve)
        for curve in self.shown:
            plot.curve(plot.points(curve.values), curve.at, curve.colour)
        _band_words(plot, self.set)
        _legend(plot, rows, line)


def _levels(shown: CurveSet) -> list[float]:
    """Round values that hold every curve with its bars, the band, and nought."""
    up = [
        height + sign * bar
        for curve in shown.curves
        for (_place, height), bar in zip(curve.values, curve.bars or (0.0,) * len(curve.values), strict=True)
        for sign in (-1, 1)
    ]
    return ticks(min([0.0, *up, *(shown.band or ())]), max([0.0, *up, *(shown.band or ())]))


def _band(plot: Plot, shown: CurveSet) -> None:
    """What is allowed, tinted between two dashed edges, under everything."""
    if shown.band is None:
        return
    low, high = shown.band
    painter, field = plot.painter, plot.field
    top, foot = plot.y(high), plot.y(low)
    painter.fillRect(QRectF(field.left(), top, field.width(), foot - top), plot.ink.zone)
    edge = pen(plot.ink.mark.rgba(), 1.0)
    edge.setDashPattern([5.0, 3.0])
    painter.setPen(edge)
    for level in (top, foot):
        painter.drawLine(QPointF(field.left(), level), QPointF(field.right(), level))


def _band_words(plot: Plot, shown: CurveSet) -> None:
    """What the band is, under its upper edge and over the curves."""
    if shown.band is None:
        return
    painter, metrics = plot.painter, plot.painter.fontMetrics()
    wide = metrics.horizontalAdvance(shown.band_words) + 6
    room = QRectF(plot.field.right() - wide - 2, plot.y(shown.band[1]) + 2, wide, metrics.height())
    painter.fillRect(room, plot.ink.zone)
    painter.setPen(QPen(plot.ink.ink))
    painter.drawText(room, Qt.AlignmentFlag.AlignCenter, shown.band_words)


def _zero(plot: Plot) -> None:
    """The reference itself, heavy."""
    plot.painter.setPen(pen(plot.ink.ink.rgba(), 2.2))
    plot.painter.drawLine(QPointF(plot.field.left(), plot.y(0.0)), QPointF(plot.field.right(), plot.y(0.0)))


def _axis_words(plot: Plot, shown: CurveSet, line: int) -> None:
    painter, field = plot.painter, plot.field
    painter.setPen(QPen(plot.ink.ink))
    painter.drawText(QPointF(_SIDE / 2, field.top() - 0.7 * line), shown.up)
    below = QRectF(field.left(), field.bottom() + 1.3 * line, field.width(), 1.2 * line)
    painter.drawText(below, Qt.AlignmentFlag.AlignHCenter, shown.along)


def _metal(plot: Plot, curve: Curve) -> None:
    """The metal above the lowest, hatched; what is compared with is left open."""
    if curve.faint:
        return
    points = plot.points(curve.values)
    ends = [QPointF(points[-1].x(), plot.y(0.0)), QPointF(points[0].x(), plot.y(0.0))]
    plot.painter.setPen(Qt.PenStyle.NoPen)
    patterns = (Qt.BrushStyle.BDiagPattern, Qt.BrushStyle.FDiagPattern)
    plot.painter.setBrush(plot.ink.faint)
    brush = plot.painter.brush()
    brush.setStyle(patterns[curve.at % len(patterns)])
    plot.painter.setBrush(brush)
    plot.painter.drawPolygon(QPolygonF([*points, *ends]))
    plot.painter.setBrush(Qt.BrushStyle.NoBrush)


def _bars(plot: Plot, curve: Curve) -> None:
    plot.painter.setPen(pen(plot.ink.mark.rgba(), 1.0))
    for (place, height), bar in zip(curve.values, curve.bars, strict=bool(curve.bars)):
        x = plot.x(place)
        plot.painter.drawLine(QPointF(x, plot.y(height - bar)), QPointF(x, plot.y(height + bar)))


def _legend_rows(
    painter: QPainter, curves: tuple[Curve, ...], wide: float
) -> list[list[tuple[float, Curve]]]:
    """The curves in as many rows as their names need, each with where it begins."""
    rows: list[list[tuple[float, Curve]]] = [[]]
    left = 0.0
    for curve in curves:
        need = _SAMPLE + 6 + painter.fontMetrics().horizontalAdvance(curve.name) + 16
        if rows[-1] and left + need > wide:
            rows.append([])
            left = 0.0
        rows[-1].append((left, curve))
        left += need
    return rows


def _legend(plot: Plot, rows: list[list[tuple[float, Curve]]], line: int) -> None:
    """A sample of each stroke and mark with its name, above the field."""
    painter = plot.painter
    for number, row in enumerate(rows):
        foot = (number + 1) * line + 2.0
        for place, curve in row:
            left, level = _SIDE / 2 + place, foot - 0.3 * line
            painter.setPen(stroke(curve.colour, curve.at))
            painter.drawLine(QPointF(left, level), QPointF(left + _SAMPLE, level))
            mark(painter, QPointF(left + _SAMPLE / 2, level), curve.at, curve.colour, plot.ink.sheet)
            painter.setPen(QPen(plot.ink.ink))
            painter.drawText(QPointF(left + _SAMPLE + 6, foot), curve.name)
