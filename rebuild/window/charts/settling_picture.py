"""The level over days: readings of each place as a stepped line, adjustments as uprights, the creep as a curve."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from rebuild.trade.charts.settling import slope_text
from rebuild.window.ink import theme
from rebuild.window.ink.strokes import pen
from rebuild.work.charts.rows_levelling import Levelling, Series

_DASHES: tuple[list[float], ...] = ([], [6.0, 3.0], [2.0, 2.0], [8.0, 2.0, 2.0, 2.0])


class SettlingPicture(QWidget):
    """Slope against days; each place has a line of its own dashes and its name at the right."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._levels: Levelling | None = None
        self._whole = False
        self.setAccessibleName("Level over days")
        self.setMinimumSize(320, 160)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        return QSize(640, 320)

    def show_levels(self, levels: Levelling | None, *, whole: bool = False) -> None:
        """Show other readings: those from the last adjustment on, or the ``whole`` history."""
        self._levels, self._whole = levels, whole
        said = [f"{one.called}: {one.settled.value.text}" for one in levels.series] if levels else []
        self.setAccessibleDescription("; ".join(said))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scheme = theme.ink()
        painter.fillRect(self.rect(), scheme.sheet)
        levels = self._levels
        if levels is None or not levels.rows:
            painter.setPen(QPen(scheme.faint))
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, "No level readings yet")
        else:
            _Plot(painter, QRectF(self.rect()), levels, whole=self._whole).draw()
        painter.end()


class _Plot:
    """One drawing under way."""

    def __init__(self, painter: QPainter, rect: QRectF, levels: Levelling, *, whole: bool) -> None:
        self._painter, self._levels = painter, levels
        metrics = painter.fontMetrics()
        right = max(metrics.horizontalAdvance(one.called) for one in levels.series) + 14
        left = metrics.horizontalAdvance("-0.0005 in/ft") + 12
        self._field = rect.adjusted(left, metrics.height(), -right, -2.4 * metrics.height())
        since = None if whole else max((row.taken_at for row in levels.rows if row.adjusted), default=None)
        self._rows = [row for row in levels.rows if since is None or row.taken_at >= since]
        self._start = self._rows[0].taken_at
        self._days = max(1.0, (levels.rows[-1].taken_at - self._start).total_seconds() / 86_400)
        values = [row.slope_um_per_m for row in self._rows]
        low, high = min(0.0, *values), max(0.0, *values)
        room = max((high - low) * 0.12, 5.0)
        self._low, self._high = low - room, high + room
        self._ink = theme.ink()

    def draw(self) -> None:
        self._frame()
        self._adjustments()
        taken: list[float] = []
        for at, series in enumerate(self._levels.series):
            self._series(series, at, taken)

    def _x(self, when: dt.datetime) -> float:
        return (
            self._field.left()
            + (when - self._start).total_seconds() / 86_400 / self._days * self._field.width()
        )

    def _y(self, slope: float) -> float:
        return self._field.bottom() - (slope - self._low) / (self._high - self._low) * self._field.height()

    def _frame(self) -> None:
        painter, field, metrics = self._painter, self._field, self._painter.fontMetrics()
        for slope in _ticks(self._low, self._high):
            y = self._y(slope)
            painter.setPen(pen(self._ink.rule.rgba(), 1.0))
            painter.drawLine(QPointF(field.left(), y), QPointF(field.right(), y))
            painter.setPen(QPen(self._ink.faint))
            words = slope_text(slope, self._levels.unit, sign=True) if slope else "0"
            room = QRectF(0, y - metrics.height() / 2, field.left() - 6, metrics.height())
            painter.drawText(room, Qt.AlignmentFlag.AlignRight, words)
        painter.setPen(pen(self._ink.ink.rgba(), 1.0))
        painter.drawLine(field.bottomLeft(), field.bottomRight())
        days = sorted({row.taken_at.date() for row in self._rows})
        last = -1e9
        for day in days:
            x = max(field.left(), self._x(dt.datetime.combine(day, dt.time(12))))
            words = f"{day:%-d %b %Y}" if day in (days[0],) else f"{day:%-d %b}"
            wide = metrics.horizontalAdvance(words)
            painter.drawLine(QPointF(x, field.bottom()), QPointF(x, field.bottom() + 4))
            if x - wide / 2 > last + 8:
                painter.drawText(QPointF(x - wide / 2, field.bottom() + metrics.height() + 3), words)
                last = x + wide / 2

    def _adjustments(self) -> None:
        painter, field = self._painter, self._field
        metrics = painter.fontMetrics()
        for row in self._rows:
            if row.adjusted:
                x = self._x(row.taken_at)
                painter.setPen(pen(self._ink.faint.rgba(), 1.0, chain=True))
                painter.drawLine(QPointF(x, field.top() - metrics.height() + 2), QPointF(x, field.bottom()))
                painter.setPen(QPen(self._ink.faint))
                wide = metrics.horizontalAdvance(row.adjusted)
                left = x + 4 if x + wide + 8 < field.right() else x - wide - 4
                painter.drawText(QPointF(left, field.top() - 2), row.adjusted)

    def _series(self, series: Series, at: int, taken: list[float]) -> None:
        painter = self._painter
        drawn = QPen(self._ink.ink, 1.4)
        if dashes := _DASHES[at % len(_DASHES)]:
            drawn.setDashPattern(dashes)
        painter.setPen(drawn)
        points = [
            QPointF(self._x(row.taken_at), self._y(row.slope_um_per_m))
            for row in series.rows
            if row.taken_at >= self._start
        ]
        if not points:
            return
        painter.drawPolyline(QPolygonF(points))
        painter.setPen(QPen(self._ink.ink, 1.2))
        painter.setBrush(self._ink.sheet)
        for point in points:
            painter.drawEllipse(point, 3.0, 3.0)
        self._curve(series)
        y = points[-1].y()
        while any(abs(y - other) < painter.fontMetrics().height() for other in taken):
            y += painter.fontMetrics().height()
        taken.append(y)
        painter.setPen(QPen(self._ink.ink))
        painter.drawText(QPointF(self._field.right() + 8, y + 4), series.called)

    def _curve(self, series: Series) -> None:
        curve, rows = series.settled.value.curve, series.current
        if curve is None or not rows:
            return
        span = (rows[-1].taken_at - rows[0].taken_at).total_seconds() / 86_400
        steps = 40
        points = []
        for at in range(steps + 1):
            days = span * at / steps
            points.append(
                QPointF(self._x(rows[0].taken_at + dt.timedelta(days=days)), self._y(curve.at(days)))
            )
        self._painter.setPen(QPen(self._ink.mark, 1.6))
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        self._painter.drawPolyline(QPolygonF(points))


def _ticks(low: float, high: float) -> list[float]:
    """Round slopes [µm/m] across a range, with zero among them."""
    step = next((size for size in (5, 10, 20, 50, 100, 200, 500, 1000) if (high - low) / size <= 6), 2000)
    first = int(low // step) + 1
    return [float(at * step) for at in range(first, int(high // step) + 1)]
