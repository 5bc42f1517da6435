"""Plots of a survey: residuals of each line over its length, before beside after, with their uncertainty."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QWidget

from rebuild.trade.geometry.flatness import line_words
from rebuild.trade.sizes.show import in_unit
from rebuild.trade.sizes.ticks import tick_words, ticks
from rebuild.window.ink import theme
from rebuild.window.ink.picture import Picture
from rebuild.window.ink.plot import Plot, mark, stroke
from rebuild.window.ink.strokes import pen
from rebuild.work.surveys.rows import LineResult, SurveyResult

_SAMPLE = 26.0
_SIDE = 14.0


@dataclass(frozen=True, slots=True)
class Curve:
    """One line in the units shown; ``bars`` are half lengths (k = 2), ``at`` tells its stroke and mark."""

    name: str
    at: int
    values: tuple[tuple[float, float], ...]
    bars: tuple[float, ...] = ()
    faint: bool = False

    @property
    def colour(self) -> QColor:
        """Ink; what it is compared with is faint."""
        return theme.ink().faint if self.faint else theme.ink().ink


class Curves(Picture):
    """Lines told apart by stroke and mark, not by colour; the survey compared with is drawn faint."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Plot of the survey", QSize(600, 480), QSize(240, 160), parent)
        self._units = ("µm", "mm")
        self.shown: tuple[Curve, ...] = ()

    def show_results(self, now: SurveyResult | None, before: SurveyResult | None, unit: str) -> None:
        """Draw a result, and the one it is compared with; without one an empty sheet."""
        self._units = ("µm", "mm") if unit == "mm" else ("thou", "in")
        self.shown = (
            *_curves(before, self._units, " before", faint=True),
            *_curves(now, self._units, "", faint=False),
        )
        self.setAccessibleDescription(", ".join(curve.name for curve in self.shown))
        self.update()

    def missing(self) -> str:
        return "" if self.shown else "No line worked out yet"

    def draw(self, painter: QPainter) -> None:
        rect, line = QRectF(self.rect()), painter.fontMetrics().lineSpacing()
        rows = _legend_rows(painter, self.shown, rect.width() - 2 * _SIDE)
        across, up = _ticks_of(self.shown)
        wide = max(painter.fontMetrics().horizontalAdvance(tick_words(value, up)) for value in up)
        above = (len(rows) + 1.6) * line + 4
        field = rect.adjusted(wide + _SIDE, above, -_SIDE, -2.6 * line)
        plot = Plot(painter, field, (across[0], across[-1]), (up[0], up[-1]))
        plot.levels([(value, tick_words(value, up)) for value in up])
        feet = [(value, tick_words(value, across)) for value in across]
        plot.uprights(feet)
        plot.foot(feet)
        _axis_words(plot, self._units, line)
        for curve in self.shown:
            _bars(plot, curve)
        for curve in self.shown:
            plot.curve(plot.points(curve.values), curve.at, curve.colour)
        _legend(plot, rows, line)


def _curves(
    result: SurveyResult | None, units: tuple[str, str], tail: str, *, faint: bool
) -> tuple[Curve, ...]:
    """The lines of a result that could be worked out, each keeping its place among all."""
    lines = enumerate(result.lines if result is not None else ())
    return tuple(_curve(line, at, units, tail, faint=faint) for at, line in lines if line.heights is not None)


def _curve(line: LineResult, at: int, units: tuple[str, str], tail: str, *, faint: bool) -> Curve:
    heights, (small, along) = line.heights, units
    assert heights is not None
    residual = line.found.residual_mm if line.found is not None else heights.height_mm
    values = zip(heights.at_mm, residual, strict=True)
    return Curve(
        line_words(line.line.name) + tail,
        at,
        tuple((in_unit(place, along), in_unit(height, small)) for place, height in values),
        tuple(in_unit(2 * u, small) for u in heights.u_mm),
        faint,
    )


def _ticks_of(curves: tuple[Curve, ...]) -> tuple[list[float], list[float]]:
    """Round values along and up that hold every curve with its bars."""
    along = [place for curve in curves for place, _height in curve.values]
    up = [
        height + sign * bar
        for curve in curves
        for (_place, height), bar in zip(curve.values, curve.bars or (0.0,) * len(curve.values), strict=True)
        for sign in (-1, 1)
    ]
    return ticks(min(along), max(along), 10), ticks(min(up), max(up))


def _axis_words(plot: Plot, units: tuple[str, str], line: int) -> None:
    painter, field, (small, along) = plot.painter, plot.field, units
    painter.setPen(QPen(plot.ink.ink))
    painter.drawText(QPointF(_SIDE / 2, field.top() - 0.7 * line), f"from the reference line [{small}]")
    below = QRectF(field.left(), field.bottom() + 1.3 * line, field.width(), 1.2 * line)
    painter.drawText(below, Qt.AlignmentFlag.AlignHCenter, f"along the line [{along}]")


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
