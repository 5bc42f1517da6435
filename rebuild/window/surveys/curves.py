"""Plots of a survey: each line over its stations, before beside after, with uncertainty and limits."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPolygonF
from PySide6.QtWidgets import QWidget

from rebuild.trade.sizes.ticks import tick_words, ticks
from rebuild.window.ink.picture import Picture
from rebuild.window.ink.plot import AFTER, Plot
from rebuild.window.ink.strokes import pen
from rebuild.window.surveys.curve_sets import Curve, CurveSet, Shown, curve_set
from rebuild.work.surveys.data import SurveyResult

_SIDE = 14.0
#: The most of the width that names take.
_MOST_NAMED = 0.34


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
        rect, metrics = QRectF(self.rect()), painter.fontMetrics()
        line, up = metrics.lineSpacing(), _levels(self.set)
        wide = max(metrics.horizontalAdvance(tick_words(value, up)) for value in up)
        named = [*(curve.name for curve in self.shown), *([self.set.band_words] if self.set.band else [])]
        room = min(max(metrics.horizontalAdvance(words) + 2 for words in named), _MOST_NAMED * rect.width())
        field = rect.adjusted(wide + _SIDE, 1.7 * line, -(room + AFTER + _SIDE), -2.6 * line)
        stations = self.set.stations
        plot = Plot(painter, field, (stations[0], stations[-1]), (up[0], up[-1]))
        _band(plot, self.set)
        plot.levels([(value, tick_words(value, up)) for value in up])
        feet = [(value, f"{round(value, 2):g}") for value in stations]
        plot.uprights(feet)
        plot.foot(feet)
        plot.zero()
        plot.axes(self.set.up, self.set.along)
        if self.set.metal:
            for curve in self.shown:
                _metal(plot, curve)
        for curve in self.shown:
            _bars(plot, curve)
        for curve in self.shown:
            plot.curve(plot.points(curve.values), curve.at, curve.colour)
        _names(plot, self.set, room)


def _names(plot: Plot, shown: CurveSet, room: float) -> None:
    """Each line's name at its end, the highest first so that names pushed apart stay in order; the limit's too."""
    ends = [(plot.y(curve.values[-1][1]), curve.name) for curve in shown.curves]
    if shown.band is not None:
        ends.append((plot.y(shown.band[1]), shown.band_words))
    for y, words in sorted(ends):
        plot.name(words, y, room)


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
    """What lies within the limits, tinted between two dashed edges, under everything."""
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
