"""A plate from above: its eight lines with the height of every station, the highest and the lowest marked.

The centre lines carry both heights: as laid between the edges they end on, and in brackets moved so that their middle
is the middle of the diagonals, as Moody's paper prints them.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from rebuild.trade.geometry.flatness import CENTRES, DIAGONALS, EDGES, PlateFlatness
from rebuild.trade.sizes.show import in_unit
from rebuild.window.ink import theme
from rebuild.window.ink.picture import Picture
from rebuild.window.ink.strokes import pen

#: Corners and middles as shares of width and height, from the upper left.
PLACES = {
    "NW": (0.0, 0.0), "NE": (1.0, 0.0), "SW": (0.0, 1.0), "SE": (1.0, 1.0),
    "N": (0.5, 0.0), "S": (0.5, 1.0), "E": (1.0, 0.5), "W": (0.0, 0.5),
}  # fmt: skip


class PlatePlan(Picture):
    """The plate as a plan; numbers that would lie on another are left to the table of stations."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Plan of the plate", QSize(600, 480), QSize(240, 160), parent)
        self._plate: PlateFlatness | None = None
        self._unit = "µm"
        self.written: list[str] = []

    def show_plate(self, plate: PlateFlatness | None, unit: str) -> None:
        """Draw a plate, or nothing."""
        self._plate, self._unit = plate, "µm" if unit == "mm" else "thou"
        self.setAccessibleDescription(self._told())
        self.update()

    def _told(self) -> str:
        if self._plate is None:
            return ""
        low, high = self._words(0.0), self._words(self._plate.flatness_mm)
        return f"heights from {low} to {high} {self._unit} above the lowest station"

    def missing(self) -> str:
        return "" if self._plate is not None else "No plate worked out yet"

    def _words(self, mm: float) -> str:
        return f"{in_unit(mm, self._unit):.{1 if self._unit == 'µm' else 2}f}"

    def draw(self, painter: QPainter) -> None:
        plate = self._plate
        assert plate is not None
        line = painter.fontMetrics().lineSpacing()
        room = QRectF(self.rect()).adjusted(3.5 * line, 3.4 * line, -3.5 * line, -2.0 * line)
        field = _shaped(room, plate)
        painter.setPen(QPen(theme.ink().ink))
        told = f"height above the lowest station [{self._unit}]; "
        told += "in brackets moved so that the centre line's middle is zero"
        above = QRectF(8, 2, self.width() - 16, field.top() - line - 4)
        painter.drawText(above, Qt.TextFlag.TextWordWrap, told)
        painter.setPen(pen(theme.ink().ink.rgba(), 1.4))
        painter.drawRect(field.adjusted(-1.3 * line, -line, 1.3 * line, line))
        painter.setPen(pen(theme.ink().rule.rgba(), 1.0))
        for name in plate.heights_mm:
            painter.drawLine(*(_at(field, end) for end in name.split("_")))
        self._heights(painter, field, plate)
        self._ends(painter, field, plate)

    def _heights(self, painter: QPainter, field: QRectF, plate: PlateFlatness) -> None:
        taken: list[QRectF] = []
        self.written = []
        for name in (*EDGES, *CENTRES, *DIAGONALS):
            heights = plate.heights_mm[name]
            start, end = (_at(field, corner) for corner in name.split("_"))
            for at, value in enumerate(heights):
                words = self._words(value)
                if name in CENTRES:
                    words = f"{words}\n({self._words(plate.centred_mm[name][at])})"
                place = start + (end - start) * (at / (len(heights) - 1))
                self._write(painter, place, words, taken)

    def _write(self, painter: QPainter, place: QPointF, words: str, taken: list[QRectF]) -> None:
        metrics = painter.fontMetrics()
        wide = max(metrics.horizontalAdvance(one) for one in words.split("\n")) + 4
        high = metrics.height() * (1 + words.count("\n"))
        box = QRectF(place.x() - wide / 2, place.y() - high / 2, wide, high)
        if any(box.intersects(other) for other in taken):
            return
        taken.append(box)
        self.written.append(words)
        painter.fillRect(box, theme.ink().sheet)
        painter.setPen(QPen(theme.ink().ink))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)

    def _ends(self, painter: QPainter, field: QRectF, plate: PlateFlatness) -> None:
        """A triangle up on the highest station, down on the lowest."""
        for pick, way in ((max, -1.0), (min, 1.0)):
            _value, name, at = pick(
                (height, name, at)
                for name, line in plate.heights_mm.items()
                for at, height in enumerate(line)
            )
            start, end = (_at(field, corner) for corner in name.split("_"))
            place = start + (end - start) * (at / (len(plate.heights_mm[name]) - 1))
            place += QPointF(0, way * 1.1 * painter.fontMetrics().height())
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(theme.ink().mark)
            shape = [QPointF(0, way * 5), QPointF(5, -way * 4), QPointF(-5, -way * 4)]
            painter.drawPolygon(QPolygonF([place + one for one in shape]))
            painter.setBrush(Qt.BrushStyle.NoBrush)


def _shaped(room: QRectF, plate: PlateFlatness) -> QRectF:
    """The plate in its own proportion, as its centre lines have steps."""
    wide, high = (len(plate.heights_mm[name]) - 1 for name in CENTRES)
    scale = min(room.width() / wide, room.height() / high)
    made = QRectF(0, 0, wide * scale, high * scale)
    made.moveCenter(room.center())
    return made


def _at(field: QRectF, place: str) -> QPointF:
    across, down = PLACES[place]
    return QPointF(field.left() + across * field.width(), field.top() + down * field.height())
