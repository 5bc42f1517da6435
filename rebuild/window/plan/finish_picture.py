"""The probable finish as a rising curve: the share of the simulated schedules that are done by each day."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from rebuild.trade.schedule.plan import Chances
from rebuild.window.ink.picture import Picture
from rebuild.window.ink.plot import Plot
from rebuild.window.ink.strokes import pen
from rebuild.window.lists.wrapped import wrapped
from rebuild.window.plan.days import day_month, month_firsts

_WEEK = 7
_LEVELS = ((0.0, "0"), (50.0, "50"), (100.0, "100"))


class FinishPicture(Picture):
    """A step a week; the 10, 50, 80 and 95 % dates as marks on the curve, each with its words in the free corner."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Probable finish", QSize(420, 200), QSize(0, 0), parent)
        self._chances: Chances | None = None

    def set_chances(self, chances: Chances | None) -> None:
        """Show a distribution."""
        self._chances = chances
        words = [f"{share * 100:.0f} % by {date:%Y-%m-%d}" for share, date in chances.by] if chances else []
        self.setAccessibleDescription(", ".join(words))
        self.setToolTip("\n".join(words))
        self.update()

    def missing(self) -> str:
        if self._chances is None:
            return "How sure the finish is, once there are steps to plan"
        return "" if self._chances.weeks else "Nothing left to plan"

    def draw(self, painter: QPainter) -> None:
        found = self._chances
        if found is None:
            return
        risen = cumulative(found)
        first, last = risen[0][0], risen[-1][0]
        high = painter.fontMetrics().height()
        about = f"{found.draws} simulated schedules, seed {found.seed}; one pair of hands"
        foot = wrapped(about, self.width() - 12, painter.fontMetrics())
        field = QRectF(self.rect()).adjusted(48, high + 12, -14, -(1 + len(foot)) * high - 12)
        plot = Plot(painter, field, (0.0, float((last - first).days)), (0.0, 100.0))
        painter.setPen(QPen(plot.ink.ink))
        title = "share of schedules finished by this day [%]"
        spare = self.width() - 8 - painter.fontMetrics().horizontalAdvance(title)
        painter.drawText(QPointF(max(8.0, min(field.left(), spare)), high), title)
        plot.levels(_LEVELS)
        plot.zero()
        plot.foot([((day - first).days, words) for day, words in month_firsts(first, last)])
        points = plot.points(((day - first).days, share) for day, share in risen)
        painter.setPen(QPen(plot.ink.ink, 1.6))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(QPolygonF(points))
        self._marks(plot, found, first)
        painter.setPen(QPen(plot.ink.faint))
        top = self.height() - len(foot) * high - 3
        painter.drawText(QRectF(8, top, self.width() - 12, len(foot) * high), 0, "\n".join(foot))

    def _marks(self, plot: Plot, found: Chances, first: dt.date) -> None:
        """Each share as a point on the curve, its words beside it: left of the curve high up, right of it low down."""
        painter, metrics = plot.painter, plot.painter.fontMetrics()
        points = [
            QPointF(plot.x((date.date() - first).days + 0.5), plot.y(share * 100)) for share, date in found.by
        ]
        painter.setPen(pen(plot.ink.mark.rgba(), 1.0))
        for at in points:
            painter.drawLine(at, QPointF(at.x(), plot.field.bottom()))
        for at, (share, date) in zip(points, found.by, strict=True):
            painter.setPen(pen(plot.ink.mark.rgba(), 1.0))
            painter.setBrush(plot.ink.mark)
            painter.drawEllipse(at, 3.0, 3.0)
            words = f"{share * 100:.0f} %  {day_month(date)} {date:%Y}"
            wide = metrics.horizontalAdvance(words)
            x = at.x() - wide - 8 if at.x() - wide - 8 > plot.field.left() else at.x() + 8
            room = QRectF(x - 2, at.y() - metrics.height() / 2, wide + 4, metrics.height())
            painter.fillRect(room, plot.ink.sheet)
            painter.setPen(QPen(plot.ink.ink))
            painter.drawText(room, int(Qt.AlignmentFlag.AlignCenter), words)


def cumulative(found: Chances) -> list[tuple[dt.date, float]]:
    """The share [%] finished by the start of each week counted, and by the end of the last."""
    total = sum(count for _, count in found.weeks) or 1
    risen, done = [(found.weeks[0][0], 0.0)], 0
    for week, count in found.weeks:
        done += count
        risen.append((week + dt.timedelta(days=_WEEK), 100.0 * done / total))
    return risen
