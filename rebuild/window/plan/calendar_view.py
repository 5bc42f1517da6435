"""The dated plan as a calendar: a row a week, a field a day, each step on the day it is begun."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QPoint, QRect, Qt, Signal
from PySide6.QtGui import QHelpEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractScrollArea, QToolTip, QWidget

from rebuild.trade.schedule.plan import Dated, Plan
from rebuild.window.ink import theme
from rebuild.window.ink.picture import Lines
from rebuild.window.ink.strokes import pen
from rebuild.window.plan.days import day_month, spoken

#: Whether words have room in the field of a day.
Fits = Callable[[str], bool]
NOTHING = "Open steps stand here on the day they are begun, once the dates are worked out."
_PAD, _DAYS = 4, 7
_USED = 4
_NAMES = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MOVES = {Qt.Key.Key_Up: -1, Qt.Key.Key_Left: -1, Qt.Key.Key_Down: 1, Qt.Key.Key_Right: 1,
          Qt.Key.Key_PageUp: -10, Qt.Key.Key_PageDown: 10}  # fmt: skip
_WRAP = int(Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignTop)


@dataclass(frozen=True, slots=True)
class _Placed:
    """One step's words in its day's field, in the whole calendar's pixels."""

    at: int
    rect: QRect


class CalendarView(Lines, QAbstractScrollArea):
    """``chosen`` tells the step stood on; arrows walk the steps in the order they are begun."""

    chosen = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        QAbstractScrollArea.__init__(self, parent)
        self.setAccessibleName("Calendar of steps")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._plan: Plan | None = None
        self._current = 0
        self._placed: list[_Placed] = []
        self._shares = [1] * _DAYS
        self._weeks: list[tuple[dt.date, int, int]] = []  #: Monday, top and height [px]

    def set_plan(self, plan: Plan | None) -> None:
        """Show a plan; the step stood on stays so while it is there."""
        here = self.rows[self._current].step.key if self.rows else None
        self._plan = plan
        self._current = next((at for at, row in enumerate(self.rows) if row.step.key == here), 0)
        self._lay_out()

    @property
    def rows(self) -> tuple[Dated, ...]:
        """The steps in order of their start."""
        return self._plan.dated if self._plan is not None else ()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_out()

    # Where everything lies

    @property
    def _gutter(self) -> int:
        return self.fontMetrics().horizontalAdvance("Wed 30 Sep") + 8

    @property
    def _axis(self) -> int:
        return self.fontMetrics().height() + 8

    def _left(self, day: int) -> int:
        """Where a weekday's fields begin [px]; a day on which nothing is ever begun is narrow."""
        room, shares = self.viewport().width() - self._gutter, self._shares
        return self._gutter + room * sum(shares[:day]) // sum(shares)

    def _lay_out(self) -> None:
        """A week is as high as its fullest day; a week with nothing begun in it is one line."""
        self._placed, self._weeks = [], []
        by_day: dict[dt.date, list[int]] = {}
        used = {row.start.weekday() for row in self.rows}
        self._shares = [_USED if day in used else 1 for day in range(_DAYS)]
        for at, row in enumerate(self.rows):
            by_day.setdefault(row.start.date(), []).append(at)
        plan, metrics, top = self._plan, self.fontMetrics(), 0
        if plan is not None and self.rows:
            monday = plan.start.date() - dt.timedelta(days=plan.start.weekday())
            while monday <= plan.finish.date():
                high = metrics.height() + 2 * _PAD
                for day in range(_DAYS):
                    high = max(high, self._place(by_day.get(monday + dt.timedelta(days=day), ()), day, top))
                self._weeks.append((monday, top, high))
                top += high
                monday += dt.timedelta(days=_DAYS)
        bar, room = self.verticalScrollBar(), max(0, self.viewport().height() - self._axis)
        bar.setRange(0, max(0, top - room))
        bar.setPageStep(room)
        bar.setSingleStep(metrics.height() * 2)
        self.viewport().update()

    def _place(self, steps: tuple[int, ...] | list[int], day: int, top: int) -> int:
        """Put the steps of a day under its date; returns how high [px] the field is with them."""
        metrics, left = self.fontMetrics(), self._left(day)
        wide = self._left(day + 1) - left - 2 * _PAD
        y = top + metrics.height() + _PAD + 2
        for at in steps:
            high = metrics.boundingRect(QRect(0, 0, wide - 10, 4000), _WRAP, _words(self.rows[at])).height()
            self._placed.append(_Placed(at, QRect(left + _PAD, y, wide, high)))
            y += high + 3
        return y - top + _PAD

    # Drawing

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self.viewport())
        self.render_lines(painter)
        painter.end()

    def no_lines(self) -> bool:
        return not self.rows

    def render_lines(self, painter: QPainter) -> None:
        """The weeks in sight."""
        scheme, offset = theme.ink(), self.verticalScrollBar().value() - self._axis
        painter.fillRect(self.viewport().rect(), scheme.sheet)
        for monday, top, high in self._weeks:
            if -high < top - offset < self.viewport().height():
                self._paint_week(painter, monday, top - offset, high)
        for placed in self._placed:
            rect = placed.rect.translated(0, -offset)
            if rect.intersects(self.viewport().rect()):
                self._paint_step(painter, placed.at, rect)
        self._paint_axis(painter)
        if not self.rows:
            painter.setPen(QPen(scheme.faint))
            painter.drawText(self.viewport().rect(), Qt.AlignmentFlag.AlignCenter, NOTHING)

    def _paint_axis(self, painter: QPainter) -> None:
        scheme, high = theme.ink(), self._axis
        painter.fillRect(QRect(0, 0, self.viewport().width(), high), scheme.band)
        painter.setPen(QPen(scheme.ink))
        for day, name in enumerate(_NAMES):
            painter.drawText(QRect(self._left(day) + _PAD, 0, 80, high), Qt.AlignmentFlag.AlignVCenter, name)

    def _paint_week(self, painter: QPainter, monday: dt.date, top: int, high: int) -> None:
        scheme, metrics, plan = theme.ink(), self.fontMetrics(), self._plan
        days = [monday + dt.timedelta(days=at) for at in range(_DAYS)]
        painter.setPen(pen(scheme.rule.rgba(), 1.0))
        painter.drawLine(0, top, self.viewport().width(), top)
        for at, day in enumerate(days):
            painter.setPen(pen(scheme.rule.rgba(), 1.0))
            painter.drawLine(self._left(at), top, self._left(at), top + high)
            ends = plan is not None and day == plan.finish.date()
            begins = plan is not None and day == plan.start.date()
            painter.setPen(QPen(scheme.ink if begins or ends else scheme.faint))
            word = "today" if begins else "finished" if ends else ""
            told = of_day(day, word, self._has_room(at))
            painter.drawText(QPoint(self._left(at) + _PAD, top + metrics.ascent() + 2), told)
        first = next((day for day in days if day.day == 1), None)
        if first is not None or top + self.verticalScrollBar().value() == self._axis:
            painter.setPen(QPen(scheme.ink))
            named = first or days[0]
            painter.drawText(QPoint(6, top + metrics.ascent() + 2), f"{named:%b %Y}")

    def _has_room(self, at: int) -> Fits:
        """Whether words fit the field of one day of the week."""
        room = self._left(at + 1) - self._left(at) - 2 * _PAD
        return lambda text: self.fontMetrics().horizontalAdvance(text) <= room

    def _paint_step(self, painter: QPainter, at: int, rect: QRect) -> None:
        scheme, row = theme.ink(), self.rows[at]
        chosen = at == self._current
        if chosen:
            painter.fillRect(rect.adjusted(-2, -1, 2, 1), scheme.chosen)
        ink = scheme.chosen_ink if chosen else scheme.ink
        strip = QRect(rect.left(), rect.top() + 1, 4, rect.height() - 2)
        painter.setPen(pen(ink.rgba(), 1.0))
        painter.setBrush(Qt.BrushStyle.BDiagPattern if row.step.elapsed else Qt.BrushStyle.NoBrush)
        if row.critical:
            painter.fillRect(strip, ink)
        else:
            painter.drawRect(strip)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(ink))
        painter.drawText(rect.adjusted(10, 0, 0, 0), _WRAP, _words(row))

    # Hands

    def _at(self, point: QPoint) -> int | None:
        there = point + QPoint(0, self.verticalScrollBar().value() - self._axis)
        return next((one.at for one in self._placed if one.rect.contains(there)), None)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = self._at(event.position().toPoint())
        if at is not None:
            self.stand_on(at)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        by = _MOVES.get(Qt.Key(event.key()))
        if by is None or not self.rows:
            super().keyPressEvent(event)
            return
        self.stand_on(max(0, min(len(self.rows) - 1, self._current + by)))

    def stand_on(self, at: int) -> None:
        """Choose a step and bring it into view."""
        self._current = at
        rect = next(one.rect for one in self._placed if one.at == at)
        bar, room = self.verticalScrollBar(), self.viewport().height() - self._axis
        if rect.top() < bar.value() or rect.bottom() > bar.value() + room:
            bar.setValue(rect.top() - self.fontMetrics().height() - 2 * _PAD)
        self.viewport().update()
        self.setAccessibleDescription(told(self.rows[at]))
        self.chosen.emit(self.rows[at].step.key)

    def viewportEvent(self, event: QEvent) -> bool:
        """A tool tip with the exact times of a step."""
        if isinstance(event, QHelpEvent):
            at = self._at(event.pos())
            QToolTip.showText(event.globalPos(), _tip(self.rows[at]) if at is not None else "", self)
            return True
        return super().viewportEvent(event)


def _words(row: Dated) -> str:
    """The step; with the day it ends, when that is another one."""
    if row.finish.date() == row.start.date():
        return row.step.title
    return f"{row.step.title}, to {day_month(row.finish)}"


def told(row: Dated) -> str:
    """One sentence of a dated step."""
    kind = "waits" if row.step.elapsed else "is worked on"
    how = "the longest way to the finish goes over it" if row.critical else "it has slack"
    assumed = "; its time is assumed" if row.step.assumed else ""
    return f"{row.step.title} {kind} from {spoken(row.start)} to {spoken(row.finish)}: {how}{assumed}."


def _tip(row: Dated) -> str:
    return f"{row.step.title}\n{row.start:%a %Y-%m-%d %H:%M} to {row.finish:%a %Y-%m-%d %H:%M}\n{told(row)}"


def of_day(day: dt.date, word: str, fits: Fits) -> str:
    """The number of a day with its word, the word alone or the number alone: what does not run into the next day.

    >>> [of_day(dt.date(2026, 11, 30), "today", lambda text: len(text) <= room) for room in (9, 6, 4)]
    ['30  today', 'today', '30']
    """
    ways = (f"{day.day}  {word}", word) if word else ()
    return next((text for text in ways if fits(text)), str(day.day))
