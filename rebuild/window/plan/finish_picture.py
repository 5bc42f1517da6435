"""The probable finish: how many of the drawn plans end in each week, with the shares marked."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from rebuild.trade.schedule.plan import Chances
from rebuild.window.ink import theme
from rebuild.window.plan.bars import day_month


class FinishPicture(QWidget):
    """A column a week, open to the baseline; the 10, 50, 80 and 95 % dates as ticks with their words."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Probable finish")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self._chances: Chances | None = None

    def sizeHint(self) -> QSize:
        """Room for columns and words."""
        return QSize(420, 180)

    def set_chances(self, chances: Chances | None) -> None:
        """Show a distribution."""
        self._chances = chances
        words = [f"{share:.0%} by {date:%Y-%m-%d}" for share, date in chances.by] if chances else []
        self.setAccessibleDescription(", ".join(words))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Columns, baseline, marks."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scheme = theme.ink()
        painter.fillRect(self.rect(), scheme.sheet)
        found = self._chances
        if found is None or not found.weeks:
            painter.setPen(QPen(scheme.faint))
            words = "Not worked out yet" if found is None else "Nothing left to plan"
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, words)
            return
        field = QRectF(self.rect()).adjusted(14, 46, -14, -24)
        first, last = found.weeks[0][0], found.weeks[-1][0] + dt.timedelta(days=7)
        days = max(7, (last - first).days)
        most = max(count for _, count in found.weeks)
        painter.setPen(QPen(scheme.ink, 0.8))
        painter.setBrush(scheme.zone)
        for week, count in found.weeks:
            left = field.left() + (week - first).days / days * field.width()
            height = count / most * field.height()
            painter.drawRect(QRectF(left, field.bottom() - height, 7 / days * field.width(), height))
        painter.setPen(QPen(scheme.ink, 1))
        painter.drawLine(field.bottomLeft(), field.bottomRight())
        self._marks(painter, field, first, days)

    def _marks(self, painter: QPainter, field: QRectF, first: dt.date, days: int) -> None:
        scheme, found = theme.ink(), self._chances
        if found is None:
            return
        metrics = self.fontMetrics()
        for at, (share, date) in enumerate(found.by):
            x = field.left() + ((date.date() - first).days + 0.5) / days * field.width()
            painter.setPen(QPen(scheme.mark, 1.4))
            painter.drawLine(int(x), int(field.top()) - 4 - 14 * (at % 2), int(x), int(field.bottom()))
            words = f"{share:.0%} {day_month(date)} {date:%Y}"
            width = metrics.horizontalAdvance(words)
            left = min(max(2.0, x - width / 2), self.width() - width - 2.0)
            painter.setPen(QPen(scheme.ink))
            painter.drawText(QRectF(left, field.top() - 24 - 16 * (at % 2), width + 2, 16), 0, words)
        painter.setPen(QPen(scheme.faint))
        foot = f"{found.draws} drawn plans, seed {found.seed}; one pair of hands, the owner's week"
        painter.drawText(QRectF(field.left(), field.bottom() + 4, field.width(), 18), 0, foot)
