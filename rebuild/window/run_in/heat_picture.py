"""Bearing temperatures through a step: rings on a line, the limit as a firm line, the room as a thin one."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from rebuild.window.ink import theme
from rebuild.window.ink.strokes import hatch, pen
from rebuild.work.run_in.rows import Course, RunRow

_DASHES: tuple[list[float], ...] = ([], [6.0, 3.0], [2.0, 2.0], [8.0, 2.0, 2.0, 2.0])


class HeatPicture(QWidget):
    """Degrees against minutes."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._step: RunRow | None = None
        self.setAccessibleName("Bearing temperatures")
        self.setMinimumSize(320, 150)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        return QSize(560, 260)

    def show_step(self, step: RunRow | None) -> None:
        """Show another step."""
        self._step = step
        said = [f"{course.bearing}: {course.heated.value.text}" for course in step.courses] if step else []
        self.setAccessibleDescription("; ".join(said))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scheme = theme.ink()
        painter.fillRect(self.rect(), scheme.sheet)
        step = self._step
        if step is None:
            painter.setPen(QPen(scheme.faint))
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, "No step chosen")
        else:
            _Plot(painter, QRectF(self.rect()), step).draw()
        painter.end()


class _Plot:
    """One drawing under way."""

    def __init__(self, painter: QPainter, rect: QRectF, step: RunRow) -> None:
        self._painter, self._step, self._ink = painter, step, theme.ink()
        metrics = painter.fontMetrics()
        right = max((metrics.horizontalAdvance(course.bearing) for course in step.courses), default=60) + 14
        self._field = rect.adjusted(
            metrics.horizontalAdvance("100 °C") + 12, metrics.height(), -right, -2 * metrics.height()
        )
        minutes = [minute for course in step.courses for minute in course.minutes]
        self._minutes = max([step.planned_min or 20.0, *minutes])
        degrees = [warm for course in step.courses for warm in course.celsius]
        known = [value for value in (step.limit_c, step.ambient_c, *degrees) if value is not None]
        self._low = min([15.0, *known]) - 5.0
        self._high = max([40.0, *known]) + 6.0

    def draw(self) -> None:
        self._frame()
        self._limit()
        taken: list[float] = []
        for at, course in enumerate(self._step.courses):
            self._course(course, at, taken)
        if not self._step.courses:
            self._painter.setPen(QPen(self._ink.faint))
            self._painter.drawText(self._field, Qt.AlignmentFlag.AlignCenter, "No temperatures read yet")

    def _x(self, minute: float) -> float:
        return self._field.left() + minute / self._minutes * self._field.width()

    def _y(self, degrees: float) -> float:
        return self._field.bottom() - (degrees - self._low) / (self._high - self._low) * self._field.height()

    def _frame(self) -> None:
        painter, field = self._painter, self._field
        high = painter.fontMetrics().height()
        step = next(size for size in (5, 10, 20, 50) if (self._high - self._low) / size <= 7 or size == 50)
        value = (int(self._low) // step + 1) * step
        while value < self._high:
            y = self._y(value)
            painter.setPen(pen(self._ink.rule.rgba(), 1.0))
            painter.drawLine(QPointF(field.left(), y), QPointF(field.right(), y))
            painter.setPen(QPen(self._ink.faint))
            painter.drawText(
                QRectF(0, y - high / 2, field.left() - 6, high), Qt.AlignmentFlag.AlignRight, f"{value} °C"
            )
            value += step
        painter.setPen(pen(self._ink.ink.rgba(), 1.0))
        painter.drawLine(field.bottomLeft(), field.bottomRight())
        every = next(size for size in (5, 10, 15, 30, 60, 120) if self._minutes / size <= 8 or size == 120)
        minute = 0
        while minute <= self._minutes + 0.1:
            x = self._x(minute)
            painter.drawLine(QPointF(x, field.bottom()), QPointF(x, field.bottom() + 4))
            words = f"{minute} min" if minute == 0 else f"{minute}"
            painter.drawText(
                QPointF(x - painter.fontMetrics().horizontalAdvance(words) / 2, field.bottom() + high + 3),
                words,
            )
            minute += every

    def _limit(self) -> None:
        painter, field, step = self._painter, self._field, self._step
        if step.limit_c is not None:
            y = self._y(step.limit_c)
            hatch(
                painter,
                QRectF(field.left(), field.top(), field.width(), max(0.0, y - field.top())),
                self._ink.rule,
                9.0,
            )
            painter.setPen(QPen(self._ink.ink, 1.6))
            painter.drawLine(QPointF(field.left(), y), QPointF(field.right(), y))
            words = (
                f"limit {step.limit_c:g} °C: {step.limit_origin or 'as entered'} ({step.limit_status.value})"
            )
            painter.fillRect(
                QRectF(field.left() + 4, y - 19, painter.fontMetrics().horizontalAdvance(words) + 8, 17),
                self._ink.sheet,
            )
            painter.drawText(QPointF(field.left() + 8, y - 6), words)
        if step.ambient_c is not None:
            y = self._y(step.ambient_c)
            painter.setPen(pen(self._ink.faint.rgba(), 1.0, chain=True))
            painter.drawLine(QPointF(field.left(), y), QPointF(field.right(), y))
            painter.drawText(QPointF(field.right() - 60, y + 14), "room")

    def _course(self, course: Course, at: int, taken: list[float]) -> None:
        painter = self._painter
        line = QPen(self._ink.ink, 1.5)
        if dashes := _DASHES[at % len(_DASHES)]:
            line.setDashPattern(dashes)
        painter.setPen(line)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        points = [
            QPointF(self._x(minute), self._y(warm))
            for minute, warm in zip(course.minutes, course.celsius, strict=True)
        ]
        painter.drawPolyline(QPolygonF(points))
        painter.setPen(QPen(self._ink.ink, 1.2))
        painter.setBrush(self._ink.sheet)
        for point in points:
            painter.drawEllipse(point, 3.0, 3.0)
        high = painter.fontMetrics().height()
        y = points[-1].y()
        while any(abs(y - other) < high for other in taken):
            y += high
        taken.append(y)
        painter.drawText(QPointF(self._field.right() + 8, y + 4), course.bearing)
