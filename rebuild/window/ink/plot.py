"""Values over a run: a field with its levels and its foot, curves told apart by stroke and mark, never by colour."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import ceil, floor

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from rebuild.window.ink import theme
from rebuild.window.ink.strokes import HEAVY, pen

#: Free room between two words of the foot, and what a tick sticks out.
_GAP, _TICK = 8.0, 4.0
#: What is free between a line's end and its name, and before the words of an axis.
AFTER, _MARGIN = 8.0, 7.0
_DASHES: tuple[list[float], ...] = ([], [6.0, 3.0], [2.0, 2.0], [8.0, 2.0, 2.0, 2.0])
_RADIUS = 3.0
#: Corners of the marks after the ring, in radii: square, triangle, diamond; then the strokes of cross and plus.
_CORNERS: tuple[tuple[tuple[float, float], ...], ...] = (
    ((-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9)),
    ((0.0, -1.3), (1.2, 0.9), (-1.2, 0.9)),
    ((0.0, -1.4), (1.4, 0.0), (0.0, 1.4), (-1.4, 0.0)),
)
_STROKES = (
    ((-1.0, -1.0), (1.0, 1.0), (-1.0, 1.0), (1.0, -1.0)),
    ((-1.2, 0.0), (1.2, 0.0), (0.0, -1.2), (0.0, 1.2)),
)
MARKS = 1 + len(_CORNERS) + len(_STROKES)

Span = tuple[float, float]
Ticks = Sequence[tuple[float, str]]


class Plot:
    """One drawing under way: ``across`` and ``up`` are the values at the edges of ``field``, in any unit."""

    def __init__(self, painter: QPainter, field: QRectF, across: Span, up: Span) -> None:
        self.painter, self.field, self.ink = painter, field, theme.ink()
        self._across, self._up = across, up
        self._named: list[float] = []

    def x(self, value: float) -> float:
        """Where a value lies across the field [px]."""
        low, high = self._across
        return self.field.left() + (value - low) / ((high - low) or 1.0) * self.field.width()

    def y(self, value: float) -> float:
        """Where a value lies up the field [px]."""
        low, high = self._up
        return self.field.bottom() - (value - low) / ((high - low) or 1.0) * self.field.height()

    def points(self, values: Iterable[tuple[float, float]]) -> list[QPointF]:
        """Where pairs of values lie."""
        return [QPointF(self.x(across), self.y(up)) for across, up in values]

    def levels(self, ticks: Ticks) -> None:
        """A thin rule across the field at each value, its words before it."""
        painter, field = self.painter, self.field
        high = painter.fontMetrics().height()
        for value, words in ticks:
            y = self.y(value)
            painter.setPen(pen(self.ink.rule.rgba(), 1.0))
            painter.drawLine(QPointF(field.left(), y), QPointF(field.right(), y))
            painter.setPen(QPen(self.ink.faint))
            room = QRectF(0, y - high / 2, field.left() - 6, high)
            painter.drawText(room, Qt.AlignmentFlag.AlignRight, words)

    def uprights(self, ticks: Ticks) -> None:
        """A thin rule up the field at each value."""
        self.painter.setPen(pen(self.ink.rule.rgba(), 1.0))
        for value, _words in ticks:
            x = self.x(value)
            self.painter.drawLine(QPointF(x, self.field.top()), QPointF(x, self.field.bottom()))

    def foot(self, ticks: Ticks = ()) -> None:
        """The line the field stands on, with a tick at each value; words that would touch the last are left out."""
        painter, field, metrics = self.painter, self.field, self.painter.fontMetrics()
        painter.setPen(pen(self.ink.ink.rgba(), 1.0))
        painter.drawLine(field.bottomLeft(), field.bottomRight())
        written_to = float("-inf")
        for value, words in ticks:
            x, half = max(field.left(), self.x(value)), metrics.horizontalAdvance(words) / 2
            painter.drawLine(QPointF(x, field.bottom()), QPointF(x, field.bottom() + _TICK))
            if x - half > written_to + _GAP:
                painter.drawText(QPointF(x - half, field.bottom() + metrics.height() + 3), words)
                written_to = x + half

    def curve(self, points: Sequence[QPointF], at: int, colour: QColor | None = None) -> None:
        """Points joined by the stroke of the ``at``-th curve, each with its mark."""
        colour = colour or self.ink.ink
        self.painter.setPen(stroke(colour, at))
        self.painter.setBrush(Qt.BrushStyle.NoBrush)
        self.painter.drawPolyline(QPolygonF(list(points)))
        for point in points:
            mark(self.painter, point, at, colour, self.ink.sheet)

    def smooth(self, values: Iterable[tuple[float, float]]) -> None:
        """A curve worked out, in the colour of marks and without any of its own."""
        self.painter.setPen(QPen(self.ink.mark, 1.6))
        self.painter.setBrush(Qt.BrushStyle.NoBrush)
        self.painter.drawPolyline(QPolygonF(self.points(values)))

    def zero(self) -> None:
        """The line values are counted from, heavy."""
        if min(self._up) <= 0.0 <= max(self._up):
            y = self.y(0.0)
            self.painter.setPen(pen(self.ink.ink.rgba(), HEAVY))
            self.painter.drawLine(QPointF(self.field.left(), y), QPointF(self.field.right(), y))

    def axes(self, up: str, along: str) -> None:
        """What is read upward, over the field, and along it, under its foot; each with its unit in brackets."""
        painter, field, line = self.painter, self.field, self.painter.fontMetrics().lineSpacing()
        painter.setPen(QPen(self.ink.ink))
        painter.drawText(QPointF(_MARGIN, field.top() - 0.7 * line), up)
        below = QRectF(field.left(), field.bottom() + 1.3 * line, field.width(), 1.2 * line)
        painter.drawText(below, Qt.AlignmentFlag.AlignHCenter, along)

    def name(self, words: str, y: float, room: float | None = None) -> None:
        """A line's name right of its end, as near to ``y`` as the names before it leave room; cut at ``room`` [px]."""
        metrics = self.painter.fontMetrics()
        high = metrics.height()
        y = self._free(y, high)
        self._named.append(y)
        if room is not None:
            words = metrics.elidedText(words, Qt.TextElideMode.ElideMiddle, int(room))
        self.painter.setPen(QPen(self.ink.ink))
        self.painter.drawText(QPointF(self.field.right() + AFTER, y + 4), words)

    def _free(self, y: float, high: int) -> float:
        """The height nearest to ``y`` no name stands at; inside the field while there is room in it."""
        tried = [y + step * high * sign for step in range(len(self._named) + 1) for sign in (1, -1)]
        free = [at for at in tried if all(abs(at - other) >= high for other in self._named)]
        inside = [at for at in free if self.field.top() - 1 <= at <= self.field.bottom() + 1]
        return (inside or free)[0]


def stroke(colour: QColor, at: int) -> QPen:
    """The stroke of the ``at``-th curve: firm, dashed, dotted, chained, then again."""
    made = QPen(colour, 1.5)
    if dashes := _DASHES[at % len(_DASHES)]:
        made.setDashPattern(dashes)
    return made


def mark(painter: QPainter, at: QPointF, kind: int, colour: QColor, sheet: QColor) -> None:
    """An open mark on a point: ring, square, triangle, diamond, cross, plus, then again."""
    painter.setPen(QPen(colour, 1.2))
    painter.setBrush(sheet)
    kind %= MARKS
    if kind == 0:
        painter.drawEllipse(at, _RADIUS, _RADIUS)
    elif kind <= len(_CORNERS):
        painter.drawPolygon(QPolygonF(_around(at, _CORNERS[kind - 1])))
    else:
        painter.drawLines(_around(at, _STROKES[kind - 1 - len(_CORNERS)]))


def _around(at: QPointF, corners: Sequence[tuple[float, float]]) -> list[QPointF]:
    return [at + QPointF(dx, dy) * _RADIUS for dx, dy in corners]


def even(low: float, high: float, sizes: Sequence[int], most: int) -> list[float]:
    """Even values inside a range, by the first of ``sizes`` that makes no more than ``most`` steps of it.

    >>> even(0, 20, (5, 10, 15, 30), 8)
    [0.0, 5.0, 10.0, 15.0, 20.0]
    >>> even(-12, 31, (5, 10, 20), 6)
    [-10.0, 0.0, 10.0, 20.0, 30.0]
    """
    size = next((size for size in sizes if (high - low) / size <= most), sizes[-1])
    return [float(at * size) for at in range(ceil(low / size - 1e-9), floor(high / size + 1e-9) + 1)]
