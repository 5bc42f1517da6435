"""Bearing temperatures through a step: marks on a line, the limit as a firm line, the room as a thin one."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QWidget

from rebuild.window.ink.picture import Picture
from rebuild.window.ink.plot import Plot, even
from rebuild.window.ink.strokes import hatch, pen
from rebuild.work.run_in.rows import RunRow

_DEGREES = (5, 10, 20, 50)
_MINUTES = (5, 10, 15, 30, 60, 120)


class HeatPicture(Picture):
    """Degrees against minutes."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Bearing temperatures", QSize(560, 260), QSize(320, 150), parent)
        self._step: RunRow | None = None

    def show_step(self, step: RunRow | None) -> None:
        """Show another step."""
        self._step = step
        said = [f"{course.bearing}: {course.heated.value.text}" for course in step.courses] if step else []
        self.setAccessibleDescription("; ".join(said))
        self.update()

    def missing(self) -> str:
        return "No step chosen" if self._step is None else ""

    def draw(self, painter: QPainter) -> None:
        step = self._step
        if step is None:
            return
        degrees, minutes = _degrees(step), _minutes(step)
        plot = Plot(painter, _field(painter, QRectF(self.rect()), step), (0.0, minutes), degrees)
        plot.levels([(value, f"{value:.0f}") for value in even(*degrees, _DEGREES, 7)])
        plot.foot([(value, f"{value:.0f}") for value in even(0.0, minutes, _MINUTES, 8)])
        plot.axes("bearing [°C]", "into the step [min]")
        _limit(plot, step)
        _room(plot, step)
        for at, course in enumerate(step.courses):
            points = plot.points(zip(course.minutes, course.celsius, strict=True))
            plot.curve(points, at)
            plot.name(course.bearing, points[-1].y())
        if not step.courses:
            painter.setPen(QPen(plot.ink.faint))
            painter.drawText(plot.field, Qt.AlignmentFlag.AlignCenter, "No temperatures read yet")


def _field(painter: QPainter, rect: QRectF, step: RunRow) -> QRectF:
    metrics = painter.fontMetrics()
    right = max((metrics.horizontalAdvance(course.bearing) for course in step.courses), default=60) + 14
    left = metrics.horizontalAdvance("100") + 14
    line = metrics.lineSpacing()
    return rect.adjusted(left, 1.7 * line, -right, -2.6 * line)


def _minutes(step: RunRow) -> float:
    """The longest of the plan and what was read."""
    return max([step.planned_min or 20.0, *(minute for course in step.courses for minute in course.minutes)])


def _degrees(step: RunRow) -> tuple[float, float]:
    """From under the coldest to over the hottest, the limit and the room among them [°C]."""
    read = [warm for course in step.courses for warm in course.celsius]
    known = [value for value in (step.limit_c, step.ambient_c, *read) if value is not None]
    return min([15.0, *known]) - 5.0, max([40.0, *known]) + 6.0


def _limit(plot: Plot, step: RunRow) -> None:
    """A firm line, hatched above, with its words."""
    if step.limit_c is None:
        return
    painter, field, y = plot.painter, plot.field, plot.y(step.limit_c)
    above = QRectF(field.left(), field.top(), field.width(), max(0.0, y - field.top()))
    hatch(painter, above, plot.ink.edge, 9.0)
    painter.setPen(QPen(plot.ink.ink, 1.6))
    painter.drawLine(QPointF(field.left(), y), QPointF(field.right(), y))
    words = f"limit {step.limit_c:g} °C: {step.limit_origin or 'as entered'} ({step.limit_status.value})"
    wide = painter.fontMetrics().horizontalAdvance(words) + 8
    painter.fillRect(QRectF(field.left() + 4, y - 19, wide, 17), plot.ink.sheet)
    painter.drawText(QPointF(field.left() + 8, y - 6), words)


def _room(plot: Plot, step: RunRow) -> None:
    if step.ambient_c is None:
        return
    painter, field, y = plot.painter, plot.field, plot.y(step.ambient_c)
    painter.setPen(pen(plot.ink.faint.rgba(), 1.0, chain=True))
    painter.drawLine(QPointF(field.left(), y), QPointF(field.right(), y))
    painter.drawText(QPointF(field.right() - 60, y + 14), "room")
