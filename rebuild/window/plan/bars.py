"""The dated plan as drawn strips: work as solid strips, waits as hatched ones, the critical ones in heavy line."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import QEvent, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QHelpEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractScrollArea, QToolTip, QWidget

from rebuild.trade.schedule.plan import Dated, Plan
from rebuild.window.ink import theme

ROW, AXIS, NAMES = 22, 40, 300


class StripView(QAbstractScrollArea):
    """One strip a step, from today to the finish. ``chosen`` tells the step clicked."""

    chosen = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Dated steps")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._plan: Plan | None = None
        self._current = 0

    def set_plan(self, plan: Plan | None) -> None:
        """Show a plan."""
        self._plan = plan
        self._current = 0
        self._range()
        self.viewport().update()

    @property
    def rows(self) -> tuple[Dated, ...]:
        """The strips in order of their start."""
        return self._plan.dated if self._plan is not None else ()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the scroll bar true."""
        super().resizeEvent(event)
        self._range()

    def _range(self) -> None:
        room = max(0, self.viewport().height() - AXIS)
        bar = self.verticalScrollBar()
        bar.setRange(0, max(0, len(self.rows) * ROW - room))
        bar.setPageStep(room)
        bar.setSingleStep(ROW)

    def _span(self) -> tuple[dt.datetime, float]:
        """The first day shown and how many days."""
        plan = self._plan
        if plan is None:
            return dt.datetime(2000, 1, 1), 1.0  # noqa: DTZ001 - nothing is shown
        start = dt.datetime.combine(plan.start.date(), dt.time())
        return start, max(7.0, (plan.finish - start).total_seconds() / 86_400 * 1.03 + 1)

    def _x(self, moment: dt.datetime) -> float:
        start, days = self._span()
        width = max(50, self.viewport().width() - NAMES - 12)
        return NAMES + (moment - start).total_seconds() / 86_400 / days * width

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The axis, then the rows in view."""
        painter = QPainter(self.viewport())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scheme = theme.ink()
        painter.fillRect(self.viewport().rect(), scheme.sheet)
        offset = self.verticalScrollBar().value()
        first = max(0, offset // ROW)
        last = min(len(self.rows), (offset + self.viewport().height()) // ROW + 1)
        for at in range(first, last):
            self._paint_row(painter, self.rows[at], AXIS + at * ROW - offset, chosen=at == self._current)
        self._paint_axis(painter)
        painter.end()

    def _paint_axis(self, painter: QPainter) -> None:
        scheme = theme.ink()
        width = self.viewport().width()
        painter.fillRect(QRect(0, 0, width, AXIS), scheme.band)
        start, days = self._span()
        if self._plan is None:
            return
        painter.setPen(QPen(scheme.ink))
        painter.drawText(QRect(8, 0, NAMES - 16, AXIS), Qt.AlignmentFlag.AlignVCenter, "Step")
        for day, words in _ticks(start, days):
            x = self._x(day)
            painter.setPen(QPen(scheme.rule, 0))
            painter.drawLine(int(x), AXIS - 6, int(x), self.viewport().height())
            painter.setPen(QPen(scheme.ink))
            painter.drawText(QRectF(x + 3, 0, 120, AXIS - 4), Qt.AlignmentFlag.AlignBottom, words)
        painter.setPen(QPen(scheme.ink, 0))
        painter.drawLine(0, AXIS, width, AXIS)

    def _paint_row(self, painter: QPainter, row: Dated, top: int, *, chosen: bool) -> None:
        scheme = theme.ink()
        if chosen:
            painter.fillRect(QRect(0, top, self.viewport().width(), ROW), scheme.band)
        painter.setPen(QPen(scheme.ink if row.critical else scheme.faint))
        name = self.fontMetrics().elidedText(row.step.title, Qt.TextElideMode.ElideRight, NAMES - 18)
        painter.drawText(QRect(8, top, NAMES - 14, ROW), Qt.AlignmentFlag.AlignVCenter, name)
        left = self._x(row.start)
        strip = QRectF(left, top + 5, max(3.0, self._x(row.finish) - left), ROW - 10)
        painter.setPen(QPen(scheme.ink, 1.8 if row.critical else 0.8))
        if row.step.elapsed:
            painter.setBrush(Qt.BrushStyle.BDiagPattern)
        else:
            painter.setBrush(scheme.zone)
        painter.drawRect(strip)
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def _row_at(self, y: float) -> int:
        return int((y - AXIS + self.verticalScrollBar().value()) // ROW) if y > AXIS else -1

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Choose the step under the pointer."""
        at = self._row_at(event.position().y())
        if 0 <= at < len(self.rows):
            self._stand_on(at)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up and down choose a step."""
        by = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1, Qt.Key.Key_PageUp: -10, Qt.Key.Key_PageDown: 10}.get(
            Qt.Key(event.key())
        )
        if by is None or not self.rows:
            super().keyPressEvent(event)
            return
        self._stand_on(max(0, min(len(self.rows) - 1, self._current + by)))

    def _stand_on(self, at: int) -> None:
        self._current = at
        bar = self.verticalScrollBar()
        room = self.viewport().height() - AXIS
        if at * ROW < bar.value():
            bar.setValue(at * ROW)
        elif (at + 1) * ROW > bar.value() + room:
            bar.setValue((at + 1) * ROW - room)
        self.viewport().update()
        self.chosen.emit(self.rows[at].step.key)

    def viewportEvent(self, event: QEvent) -> bool:
        """A tool tip with the dates of the row."""
        if isinstance(event, QHelpEvent):
            at = self._row_at(event.pos().y())
            words = _tip(self.rows[at]) if 0 <= at < len(self.rows) else ""
            QToolTip.showText(event.globalPos(), words, self)
            return True
        return super().viewportEvent(event)


def _ticks(start: dt.datetime, days: float) -> list[tuple[dt.datetime, str]]:
    """Mondays when there is room for them, else firsts of months, or of quarters."""
    end = start + dt.timedelta(days=days)
    if days <= 75:
        first = start + dt.timedelta(days=(7 - start.weekday()) % 7)
        mondays = [first + dt.timedelta(days=7 * at) for at in range(int(days / 7) + 1)]
        return [(monday, day_month(monday)) for monday in mondays if monday < end]
    step = 1 if days <= 500 else 3
    found: list[tuple[dt.datetime, str]] = []
    year, month = start.year, start.month
    while dt.datetime(year, month, 1) < end:  # noqa: DTZ001 - wall clock
        if dt.datetime(year, month, 1) >= start and (month - 1) % step == 0:  # noqa: DTZ001
            day = dt.datetime(year, month, 1)  # noqa: DTZ001
            found.append((day, f"{day:%b %Y}" if month == 1 or not found else f"{day:%b}"))
        year, month = (year, month + 1) if month < 12 else (year + 1, 1)
    return found


def day_month(day: dt.date) -> str:
    """``3 Feb``, on every system."""
    return f"{day.day} {day:%b}"


def _tip(row: Dated) -> str:
    kind = "wait" if row.step.elapsed else "work"
    assumed = " (no estimate; assumed)" if row.step.assumed else ""
    return (
        f"{row.step.title}\n{row.start:%a %Y-%m-%d %H:%M} to {row.finish:%a %Y-%m-%d %H:%M}, {kind}{assumed}\n"
        + ("on the critical path" if row.critical else "has slack")
    )
