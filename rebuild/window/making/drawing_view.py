"""The drawing of a part to be made, live on the screen: laid out anew for the room there is."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontInfo, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from rebuild.trade.drawing.ink import Drawing, Layer
from rebuild.trade.drawing.laid import LINE_STEP, Laid, Words, block, scale_words
from rebuild.trade.drawing.lay_out import best_fit
from rebuild.trade.limits.judgement import Verdict
from rebuild.window.ink import theme
from rebuild.window.ink.picture import Picture
from rebuild.window.ink.shapes import Shape, shape_pixmap
from rebuild.window.ink.strokes import pen
from rebuild.window.ink.theme import Ink
from rebuild.window.making.lines import VERDICT_SHAPES

#: Paper millimetres to one pixel size of the font, so that words come out in the window's own size.
WORDS_MM = 3.7
EDGE = 10


def pens(ink: Ink) -> dict[Layer, QPen]:
    """A pen for each sort of line."""
    return {
        Layer.OUTLINE: pen(ink.ink.rgba(), 1.6),
        Layer.HIDDEN: pen(ink.faint.rgba(), 1.0),
        Layer.CENTRE: pen(ink.faint.rgba(), 1.0, chain=True),
        Layer.THREAD: pen(ink.ink.rgba(), 1.0),
        Layer.HATCH: pen(ink.rule.rgba(), 1.0),
        Layer.DIMENSION: pen(ink.faint.rgba(), 1.0),
        Layer.NOTE: pen(ink.faint.rgba(), 1.0),
    }


class PartDrawing(Picture):
    """Shows one drawing, or the sentence why there is none; a chosen size is drawn in the marking colour."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Drawing of the part", QSize(620, 330), QSize(300, 190), parent)
        self._drawing: Drawing | None = None
        self._unit = "mm"
        self._instead = ""
        self._chosen = ""
        self.made: dict[str, Verdict] = {}
        self._kept: tuple[tuple[int, int, int], Laid] | None = None

    def show_drawing(
        self,
        drawing: Drawing | None,
        unit: str = "mm",
        instead: str = "",
        made: Mapping[str, Verdict] | None = None,
    ) -> None:
        """Show another drawing; ``instead`` is said when there is none. ``made``: verdicts by role, ticked off."""
        self._drawing, self._unit, self._instead = drawing, unit, instead
        self.made = dict(made or {})
        self._kept = None
        sizes = (
            []
            if drawing is None
            else [
                f"{one.role} {' to '.join(reversed(one.measure.lines(unit)))}{self._ticked(one.role)}"
                for one in drawing.dimensions
            ]
        )
        self.setAccessibleDescription(f"{'; '.join(sizes)} {unit}" if sizes else instead)
        self.update()

    def _ticked(self, role: str) -> str:
        return f", made: {self.made[role].value}" if role in self.made else ""

    def choose(self, role: str) -> None:
        """Mark the dimension of one role."""
        if role != self._chosen:
            self._chosen = role
            self.update()

    @property
    def laid(self) -> Laid | None:
        """The drawing as it is laid out now."""
        if self._drawing is None:
            return None
        key = (self.width(), self.height(), QFontInfo(self.font()).pixelSize())
        if self._kept is None or self._kept[0] != key:
            per_mm = key[2] / WORDS_MM
            room = ((self.width() - 2 * EDGE) / per_mm, (self.height() - 3 * EDGE) / per_mm)
            self._kept = (key, best_fit(self._drawing, max(room[0], 10.0), max(room[1], 10.0), self._unit))
        return self._kept[1]

    def missing(self) -> str:
        return self._instead or "Nothing to draw" if self.laid is None else ""

    def draw(self, painter: QPainter) -> None:
        laid = self.laid
        if laid is not None:
            self._draw_laid(painter, laid, theme.ink())

    def _draw_laid(self, painter: QPainter, laid: Laid, ink: Ink) -> None:
        left, bottom, right, top = laid.bounds
        per_mm = min(
            QFontInfo(self.font()).pixelSize() / WORDS_MM,
            (self.width() - 2 * EDGE) / max(right - left, 1e-6),
            (self.height() - 3 * EDGE) / max(top - bottom, 1e-6),
        )
        x0 = self.width() / 2 - per_mm * (left + right) / 2
        y0 = (self.height() - EDGE) / 2 + per_mm * (bottom + top) / 2

        def at(point: tuple[float, float]) -> QPointF:
            return QPointF(x0 + per_mm * point[0], y0 - per_mm * point[1])

        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        drawn = pens(ink)
        for run in laid.runs:
            painter.setPen(drawn[run.layer])
            painter.drawPolyline(QPolygonF([at(point) for point in run.points]))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink.faint)
        for head in laid.heads:
            painter.drawPolygon(QPolygonF([at(point) for point in head]))
        font = self.font()
        font.setPixelSize(max(8, round(laid.style.text * per_mm * 1.22)))
        painter.setFont(font)
        for words in laid.words:
            self._write(painter, words, laid, ink, (x0, y0, per_mm))
        painter.setFont(self.font())
        painter.setPen(QPen(ink.faint))
        painter.drawText(QPointF(EDGE, self.height() - 6), f"scale {scale_words(laid.scale)} · {self._unit}")

    def _write(
        self, painter: QPainter, words: Words, laid: Laid, ink: Ink, place: tuple[float, float, float]
    ) -> None:
        x0, y0, per_mm = place
        left, bottom, right, top = block(words, laid.style)
        room = QRectF(
            QPointF(x0 + per_mm * left, y0 - per_mm * top), QPointF(x0 + per_mm * right, y0 - per_mm * bottom)
        )
        painter.fillRect(room, ink.sheet)
        chosen = bool(words.role) and words.role == self._chosen
        painter.setPen(QPen(ink.mark if chosen else ink.ink))
        flags = {
            "left": Qt.AlignmentFlag.AlignLeft,
            "right": Qt.AlignmentFlag.AlignRight,
            "centre": Qt.AlignmentFlag.AlignHCenter,
        }[words.anchor]
        verdict = self.made.get(words.role)
        if verdict is not None:
            wide = max(painter.fontMetrics().horizontalAdvance(line) for line in words.lines)
            begins = {
                "left": room.left(),
                "right": room.right() - wide,
                "centre": room.center().x() - wide / 2,
            }[words.anchor]
            taken = QRectF(begins, room.top(), wide, room.height())
            self._tick(painter, taken, VERDICT_SHAPES[verdict], ink)
        step = laid.style.text * LINE_STEP * per_mm
        middle = room.center().y() - step * (len(words.lines) - 1) / 2
        for number, line in enumerate(words.lines):
            slot = QRectF(room.left() - 20, middle + number * step - step, room.width() + 40, 2 * step)
            slot.adjust(
                20 if flags is Qt.AlignmentFlag.AlignLeft else 0,
                0,
                -20 if flags is Qt.AlignmentFlag.AlignRight else 0,
                0,
            )
            painter.drawText(slot, flags | Qt.AlignmentFlag.AlignVCenter, line)

    def _tick(self, painter: QPainter, room: QRectF, shape: Shape, ink: Ink) -> None:
        """A size that is made is ticked off before its words: a tick when it conforms, else the verdict's shape."""
        side = round(QFontInfo(self.font()).pixelSize() * 1.1)
        shape = Shape.DONE if shape is Shape.CONFORMS else shape
        picture = shape_pixmap(shape, side, ink.mark, painter.device().devicePixelRatio())
        place = QPointF(room.left() - side - 4, room.center().y() - side / 2)
        if place.x() < 1:
            place.setX(min(room.right() + 2, self.width() - side - 1.0))
        painter.fillRect(QRectF(place.x() - 1, place.y() - 1, side + 2, side + 2), ink.sheet)
        painter.drawPixmap(place, picture)
