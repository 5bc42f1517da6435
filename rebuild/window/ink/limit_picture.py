"""The tolerance-zone picture of one feature at pane size, standing up: large sizes at the top.

The zone is a rectangle with its limits lettered at the left; an open side has no line there. The nominal is
a chain-dot line; the reading a firm stroke with its value and uncertainty at the right.
"""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from rebuild.trade.sizes.show import DECIMALS, show_length
from rebuild.window.ink import theme
from rebuild.window.ink.strokes import arrow, pen
from rebuild.window.ink.theme import Ink
from rebuild.window.ink.zone_scale import Drawn, Placed, place

_GAP = 6.0


class LimitPicture(QWidget):
    """Draws one feature's zone and reading; ``show_drawn(None)`` clears it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._drawn: Drawn | None = None
        self._unit = "mm"
        self.setMinimumSize(180, 96)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.setAccessibleName("Tolerance zone")

    def show_drawn(self, drawn: Drawn | None, unit: str = "mm") -> None:
        """Show another feature, its lengths lettered in ``unit``."""
        self._drawn, self._unit = drawn, unit
        self.setAccessibleDescription(_in_words(drawn, unit) if drawn is not None else "")
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(320, 150)

    def paintEvent(self, event: QPaintEvent) -> None:
        scheme = theme.ink()
        painter = QPainter(self)
        painter.fillRect(self.rect(), scheme.sheet)
        if self._drawn is not None:
            draw_limits(painter, QRectF(self.rect()).adjusted(6, 6, -6, -6), self._drawn, self._unit, scheme)
        painter.end()


def draw_limits(painter: QPainter, rect: QRectF, drawn: Drawn, unit: str, ink: Ink) -> None:
    """Draw the standing picture with the painter's font; nothing when there is no limit."""
    placed = place(drawn)
    if placed is not None:
        _Standing(painter, rect, drawn, placed, unit, ink).draw()


def _in_words(drawn: Drawn, unit: str) -> str:
    named = (("low", drawn.low_mm), ("high", drawn.high_mm), ("reading", drawn.value_mm))
    return ", ".join(f"{name} {show_length(mm, unit)}" for name, mm in named if mm is not None)


class _Standing:
    """One drawing under way: painter, place and scale."""

    def __init__(
        self, painter: QPainter, rect: QRectF, drawn: Drawn, placed: Placed, unit: str, ink: Ink
    ) -> None:
        self._painter, self._drawn, self._placed, self._unit, self._ink = painter, drawn, placed, unit, ink
        metrics = painter.fontMetrics()
        self._line = float(metrics.height())
        wide = metrics.horizontalAdvance("-000.00000 in") + _GAP
        side = min(float(wide), rect.width() * 0.36)
        self._rect = rect
        self._body = rect.adjusted(side, self._line / 2, -side, -self._line / 2)

    def draw(self) -> None:
        """Zone, lettering, nominal, reading."""
        self._zone()
        taken = [
            self._letter(share, mm)
            for share, mm in (
                (self._placed.zone[1], self._drawn.high_mm),
                (self._placed.zone[0], self._drawn.low_mm),
            )
            if mm is not None
        ]
        self._nominal(taken)
        if self._placed.reading is not None and self._drawn.value_mm is not None:
            self._reading(self._placed.reading, self._drawn.value_mm)

    def _at(self, share: float) -> float:
        return self._body.bottom() - share * self._body.height()

    def _zone(self) -> None:
        placed, body, painter = self._placed, self._body, self._painter
        zone = QRectF(
            QPointF(body.left(), self._at(placed.zone[1])), QPointF(body.right(), self._at(placed.zone[0]))
        )
        painter.fillRect(zone, self._ink.zone)
        painter.setPen(pen(self._ink.ink.rgba(), 1.2))
        lines = [QLineF(zone.topLeft(), zone.bottomLeft()), QLineF(zone.topRight(), zone.bottomRight())]
        if not placed.open_high:
            lines.append(QLineF(zone.topLeft(), zone.topRight()))
        if not placed.open_low:
            lines.append(QLineF(zone.bottomLeft(), zone.bottomRight()))
        painter.drawLines(lines)

    def _letter(self, share: float, mm: float) -> float:
        """The size of a limit at the left of its line; returns where it stands."""
        y = self._at(share)
        text = show_length(mm, self._unit, DECIMALS[self._unit] + 1 if self._finer(mm) else None)
        space = QRectF(
            self._rect.left(), y - self._line / 2, self._body.left() - self._rect.left() - _GAP, self._line
        )
        self._painter.setPen(pen(self._ink.ink.rgba()))
        self._painter.drawText(space, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, text)
        return y

    def _finer(self, mm: float) -> bool:
        """Whether the usual decimals would round this size."""
        usual = show_length(mm, self._unit)
        finer = show_length(mm, self._unit, DECIMALS[self._unit] + 1)
        return finer.split()[0] != f"{usual.split()[0]}0"

    def _nominal(self, taken: list[float]) -> None:
        if self._placed.nominal is None or self._drawn.nominal_mm is None:
            return
        y = self._at(self._placed.nominal)
        self._painter.setPen(pen(self._ink.faint.rgba(), 1.0, chain=True))
        self._painter.drawLine(QLineF(self._body.left() - _GAP, y, self._body.right() + _GAP, y))
        if all(abs(y - other) >= self._line for other in taken):
            self._letter(self._placed.nominal, self._drawn.nominal_mm)

    def _reading(self, share: float, value_mm: float) -> None:
        painter, body, placed, mark = self._painter, self._body, self._placed, self._ink.mark
        y = self._at(share)
        middle = body.center().x()
        if placed.out:
            arrow(painter, QPointF(middle, y), (0, -placed.out), 6.0, mark)
        else:
            painter.setPen(pen(mark.rgba(), 1.2))
            if placed.bar is not None:
                low, high = self._at(placed.bar[0]), self._at(placed.bar[1])
                painter.drawLines(
                    [
                        QLineF(middle, low, middle, high),
                        QLineF(middle - 5, low, middle + 5, low),
                        QLineF(middle - 5, high, middle + 5, high),
                    ]
                )
            painter.fillRect(QRectF(middle - 16, y - 1.25, 32, 2.5), mark)
            painter.drawLine(QLineF(middle + 16, y, body.right() + _GAP - 2, y))
        self._letter_reading(y, value_mm)

    def _letter_reading(self, y: float, value_mm: float) -> None:
        text = show_length(value_mm, self._unit, DECIMALS[self._unit] + 1 if self._finer(value_mm) else None)
        left = self._body.right() + _GAP
        top = max(self._rect.top(), min(y - self._line / 2, self._rect.bottom() - 2 * self._line))
        painter = self._painter
        painter.setPen(pen(self._ink.mark.rgba()))
        width = self._rect.right() - left
        painter.drawText(QRectF(left, top, width, self._line), Qt.AlignmentFlag.AlignVCenter, text)
        if self._drawn.U_mm is not None:
            painter.setPen(pen(self._ink.faint.rgba()))
            spread = f"±{show_length(self._drawn.U_mm, self._unit, DECIMALS[self._unit] + 1)}"
            painter.drawText(
                QRectF(left, top + self._line, width, self._line), Qt.AlignmentFlag.AlignVCenter, spread
            )
