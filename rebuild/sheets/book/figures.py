"""Drawings in the flow of a page, as vectors: strokes of our own sketches, plates seen from above."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from reportlab.platypus import Flowable

from rebuild.sheets import fonts
from rebuild.sheets.book import measure
from rebuild.sheets.book.lettering import write
from rebuild.sheets.paper import MM
from rebuild.sheets.strokes_pdf import FREE_MM, Mark, mark_all
from rebuild.trade.drawing.sketch import Drawing, Weight

_WIDTHS = {Weight.OUTLINE: 0.8, Weight.THIN: 0.35, Weight.CENTRE: 0.35, Weight.MARK: 1.1}


class Sketch(Flowable):  # type: ignore[misc]
    """A line drawing scaled to a width [pt]; ``marks`` are spots on it, as shares of its size, numbered round it."""

    def __init__(self, drawing: Drawing, wide: float, marks: Sequence[Mark] = ()) -> None:
        super().__init__()
        self._drawing, self._wide, self._marks = drawing, wide, tuple(marks)
        self._free = FREE_MM * MM if self._marks else 0.0
        self._scale = wide / drawing.width
        self.spaceBefore, self.spaceAfter = 3, 5

    def wrap(self, _room: float, _high: float) -> tuple[float, float]:
        """Its size."""
        return self._wide + 2 * self._free, self._drawing.height * self._scale + 2 * self._free

    def draw(self) -> None:
        """Put it on the page."""
        canvas, scale, high = self.canv, self._scale, self._drawing.height * self._scale
        canvas.saveState()
        canvas.translate(self._free, self._free)
        canvas.setLineJoin(1)
        for stroke in self._drawing.strokes:
            canvas.setLineWidth(_WIDTHS[stroke.weight] * min(1.0, 0.6 + scale / 4))
            canvas.setDash(*(([6, 2, 1, 2], 0) if stroke.weight is Weight.CENTRE else ([], 0)))
            path = canvas.beginPath()
            for at, (x, y) in enumerate(stroke.points):
                (path.lineTo if at else path.moveTo)(x * scale, high - y * scale)
            if stroke.closed:
                path.close()
            canvas.drawPath(path, stroke=1, fill=1 if stroke.filled else 0)
        canvas.setDash([], 0)
        for word in self._drawing.words:
            write(
                canvas,
                word.text,
                word.at[0] * scale,
                high - word.at[1] * scale,
                word.anchor,
                max(5.5, 6 * scale),
            )
        mark_all(canvas, self._marks, self._wide / MM, high / MM)
        canvas.restoreState()


class Beside(Flowable):  # type: ignore[misc]
    """Two things side by side, the left one [pt] wide; it is never broken."""

    def __init__(self, left: Flowable, right: Sequence[Flowable], wide: float) -> None:
        super().__init__()
        self._left, self._right, self._wide = left, tuple(right), wide
        self._heights: tuple[float, ...] = ()
        self.spaceAfter = 6

    def wrap(self, room: float, high: float) -> tuple[float, float]:
        """Its size."""
        free = room - self._wide - 12
        self._heights = tuple(one.wrap(free, high)[1] + one.getSpaceAfter() for one in self._right)
        self._high = max(self._left.wrap(self._wide, high)[1], sum(self._heights))
        return room, self._high

    def draw(self) -> None:
        """Put both on the page, their tops level."""
        top = self._high
        self._left.drawOn(self.canv, 0, top - self._left.wrap(self._wide, top)[1])
        for one, height in zip(self._right, self._heights, strict=True):
            one.drawOn(self.canv, self._wide + 12, top - height + one.getSpaceAfter())
            top -= height


#: Corners and middles of a plate as shares of its width and height, from the lower left.
_PLACES = {
    "NW": (0, 1), "NE": (1, 1), "SW": (0, 0), "SE": (1, 0), "N": (0.5, 1), "S": (0.5, 0), "E": (1, 0.5),
    "W": (0, 0.5),
}  # fmt: skip


class Plate(Flowable):  # type: ignore[misc]
    """A plate from above: its eight lines with the height of every station above the lowest."""

    def __init__(self, heights: Mapping[str, Sequence[float]], wide: float, places: int) -> None:
        """``heights`` by line name, already in the unit to be shown, with so many decimal places."""
        super().__init__()
        self._places = places
        self._heights, self._wide = dict(heights), wide
        self._size = (wide, wide * 0.68)
        self.spaceBefore, self.spaceAfter = 4, 8

    def wrap(self, _room: float, _high: float) -> tuple[float, float]:
        """Its size."""
        return self._size[0], self._size[1] + 30

    def draw(self) -> None:
        """Put it on the page."""
        canvas = self.canv
        canvas.saveState()
        left, low = 22.0, 14.0
        wide, high = self._size[0] - 44, self._size[1]
        canvas.setLineWidth(1.0)
        canvas.rect(left - 12, low - 10, wide + 24, high + 20)
        seen: set[tuple[int, int]] = set()
        for name, heights in self._heights.items():
            (x0, y0), (x1, y1) = (_PLACES[end] for end in name.split("_"))
            a, b = (left + x0 * wide, low + y0 * high), (left + x1 * wide, low + y1 * high)
            canvas.setLineWidth(0.5)
            canvas.setStrokeGray(0.45)
            canvas.line(*a, *b)
            for at, value in enumerate(heights):
                share = at / (len(heights) - 1)
                place = (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
                if (round(place[0]), round(place[1])) not in seen:
                    seen.add((round(place[0]), round(place[1])))
                    self._height(canvas, place, value)
        canvas.restoreState()

    def _height(self, canvas: Any, place: tuple[float, float], value: float) -> None:
        words = f"{value:.{self._places}f}"
        wide = measure.width(words, fonts.NORMAL, 6.2) + 2.4
        canvas.setFillGray(1)
        canvas.rect(place[0] - wide / 2, place[1] - 3.6, wide, 7.2, stroke=0, fill=1)
        write(canvas, words, place[0], place[1] - 2.2, "m", 6.2)
