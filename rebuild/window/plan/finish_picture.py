"""The probable finish: how many of the drawn plans end in each week, with the shares marked."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QWidget

from rebuild.trade.schedule.plan import Chances
from rebuild.window.ink.picture import Picture
from rebuild.window.ink.plot import Plot
from rebuild.window.plan.bars import day_month

_WEEK = 7


class FinishPicture(Picture):
    """A column a week, open to the baseline; the 10, 50, 80 and 95 % dates as ticks with their words."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Probable finish", QSize(420, 180), QSize(0, 0), parent)
        self._chances: Chances | None = None

    def set_chances(self, chances: Chances | None) -> None:
        """Show a distribution."""
        self._chances = chances
        words = [f"{share:.0%} by {date:%Y-%m-%d}" for share, date in chances.by] if chances else []
        self.setAccessibleDescription(", ".join(words))
        self.update()

    def missing(self) -> str:
        if self._chances is None:
            return "How sure the finish is, once there are steps to plan"
        return "" if self._chances.weeks else "Nothing left to plan"

    def draw(self, painter: QPainter) -> None:
        found = self._chances
        if found is None:
            return
        first, last = found.weeks[0][0], found.weeks[-1][0]
        days, most = (last - first).days + _WEEK, max(count for _, count in found.weeks)
        field = QRectF(self.rect()).adjusted(14, 46, -14, -24)
        plot = Plot(painter, field, (0.0, days), (0.0, most))
        painter.setPen(QPen(plot.ink.ink, 0.8))
        painter.setBrush(plot.ink.zone)
        for week, count in found.weeks:
            day = (week - first).days
            top, foot = QPointF(plot.x(day), plot.y(count)), QPointF(plot.x(day + _WEEK), plot.y(0))
            painter.drawRect(QRectF(top, foot))
        plot.foot()
        for at, (share, date) in enumerate(found.by):
            self._mark(plot, at, (date.date() - first).days + 0.5, f"{share:.0%} {day_month(date)} {date:%Y}")
        painter.setPen(QPen(plot.ink.faint))
        about = f"{found.draws} simulated schedules, seed {found.seed}; one pair of hands, the owner's week"
        painter.drawText(QRectF(field.left(), field.bottom() + 4, field.width(), 18), 0, about)

    def _mark(self, plot: Plot, at: int, day: float, words: str) -> None:
        """An upright at a day; every other one is longer, so that words side by side keep apart."""
        painter, field, x = plot.painter, plot.field, int(plot.x(day))
        painter.setPen(QPen(plot.ink.mark, 1.4))
        painter.drawLine(QPointF(x, int(field.top()) - 4 - 14 * (at % 2)), QPointF(x, int(field.bottom())))
        width = self.fontMetrics().horizontalAdvance(words)
        left = min(max(2.0, x - width / 2), self.width() - width - 2.0)
        painter.setPen(QPen(plot.ink.ink))
        painter.drawText(QRectF(left, field.top() - 24 - 16 * (at % 2), width + 2, 16), 0, words)
