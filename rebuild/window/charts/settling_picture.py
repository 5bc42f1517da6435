"""The level over days: readings of each place as a stepped line, adjustments as uprights, the creep as a curve."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import QPointF, QRectF, QSize
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QWidget

from rebuild.trade.charts.settling import slope_text
from rebuild.window.ink.picture import Picture
from rebuild.window.ink.plot import Plot, even
from rebuild.window.ink.strokes import pen
from rebuild.work.charts.rows_levelling import Levelling, LevelRow, Series

_DAY_S = 86_400
_SLOPES = (5, 10, 20, 50, 100, 200, 500, 1000, 2000)
_CURVE_STEPS = 40


class SettlingPicture(Picture):
    """Slope against days; each place has a line of its own dashes and its name at the right."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Level over days", QSize(640, 320), QSize(320, 160), parent)
        self._levels: Levelling | None = None
        self._whole = False

    def show_levels(self, levels: Levelling | None, *, whole: bool = False) -> None:
        """Show other readings: those from the last adjustment on, or the ``whole`` history."""
        self._levels, self._whole = levels, whole
        said = [f"{one.called}: {one.settled.value.text}" for one in levels.series] if levels else []
        self.setAccessibleDescription("; ".join(said))
        self.update()

    def missing(self) -> str:
        return "" if self._levels is not None and self._levels.rows else "No level readings yet"

    def draw(self, painter: QPainter) -> None:
        if self._levels is not None:
            _Drawing(painter, QRectF(self.rect()), self._levels, whole=self._whole).draw()


class _Drawing:
    """One drawing under way; across are days since the first reading shown, up are slopes [µm/m]."""

    def __init__(self, painter: QPainter, rect: QRectF, levels: Levelling, *, whole: bool) -> None:
        self._levels, metrics = levels, painter.fontMetrics()
        right = max(metrics.horizontalAdvance(one.called) for one in levels.series) + 14
        left = metrics.horizontalAdvance("-0.0005 in/ft") + 12
        field = rect.adjusted(left, metrics.height(), -right, -2.4 * metrics.height())
        since = None if whole else max((row.taken_at for row in levels.rows if row.adjusted), default=None)
        self._rows = [row for row in levels.rows if since is None or row.taken_at >= since]
        self._start = self._rows[0].taken_at
        values = [row.slope_um_per_m for row in self._rows]
        low, high = min(0.0, *values), max(0.0, *values)
        room = max((high - low) * 0.12, 5.0)
        self._low, self._high = low - room, high + room
        days = max(1.0, self._days(levels.rows[-1].taken_at))
        self._plot = Plot(painter, field, (0.0, days), (self._low, self._high))

    def draw(self) -> None:
        unit = self._levels.unit
        slopes = even(self._low, self._high, _SLOPES, 6)
        self._plot.levels([(slope, slope_text(slope, unit, sign=True) if slope else "0") for slope in slopes])
        self._plot.foot(self._dates())
        self._plot.zero()
        for row in self._rows:
            if row.adjusted:
                self._adjustment(row)
        for at, series in enumerate(self._levels.series):
            self._series(series, at)

    def _days(self, when: dt.datetime) -> float:
        return (when - self._start).total_seconds() / _DAY_S

    def _dates(self) -> list[tuple[float, str]]:
        days = sorted({row.taken_at.date() for row in self._rows})
        return [
            (
                self._days(dt.datetime.combine(day, dt.time(12))),
                f"{day:%-d %b %Y}" if day == days[0] else f"{day:%-d %b}",
            )
            for day in days
        ]

    def _adjustment(self, row: LevelRow) -> None:
        plot, painter, field = self._plot, self._plot.painter, self._plot.field
        metrics, x = painter.fontMetrics(), plot.x(self._days(row.taken_at))
        painter.setPen(pen(plot.ink.faint.rgba(), 1.0, chain=True))
        painter.drawLine(QPointF(x, field.top() - metrics.height() + 2), QPointF(x, field.bottom()))
        painter.setPen(QPen(plot.ink.faint))
        wide = metrics.horizontalAdvance(row.adjusted)
        left = x + 4 if x + wide + 8 < field.right() else x - wide - 4
        painter.drawText(QPointF(left, field.top() - 2), row.adjusted)

    def _series(self, series: Series, at: int) -> None:
        shown = [row for row in series.rows if row.taken_at >= self._start]
        if not shown:
            return
        points = self._plot.points((self._days(row.taken_at), row.slope_um_per_m) for row in shown)
        self._plot.curve(points, at)
        self._creep(series)
        self._plot.name(series.called, points[-1].y())

    def _creep(self, series: Series) -> None:
        curve, rows = series.settled.value.curve, series.current
        if curve is None or not rows:
            return
        first, last = self._days(rows[0].taken_at), self._days(rows[-1].taken_at)
        days = [(last - first) * at / _CURVE_STEPS for at in range(_CURVE_STEPS + 1)]
        self._plot.smooth((first + day, curve.at(day)) for day in days)
