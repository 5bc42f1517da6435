"""Line drawings as lists of strokes, drawn once for the screen and for paper.

A drawing has its own units with y downward, like a sheet; whoever draws it scales it to the room there is.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

Point = tuple[float, float]


class Weight(Enum):
    """The line of a shop drawing."""

    OUTLINE = "outline"
    THIN = "thin"
    CENTRE = "centre line"
    MARK = "mark"  # what the test is about: the indicator, the level


@dataclass(frozen=True, slots=True)
class Stroke:
    """A polyline; ``closed`` joins its ends, ``filled`` blackens it."""

    points: tuple[Point, ...]
    weight: Weight = Weight.OUTLINE
    closed: bool = False
    filled: bool = False


@dataclass(frozen=True, slots=True)
class Lettering:
    """A word at a point: ``anchor`` is l(eft), m(iddle) or r(ight)."""

    at: Point
    text: str
    anchor: str = "m"


@dataclass(frozen=True, slots=True)
class Drawing:
    """Strokes and words on a field of so many units."""

    width: float
    height: float
    strokes: tuple[Stroke, ...]
    words: tuple[Lettering, ...] = ()


class Pad:
    """Collects strokes.

    >>> pad = Pad(10, 10)
    >>> pad.box(1, 1, 4, 2)
    >>> len(pad.drawing().strokes)
    1
    """

    def __init__(self, width: float, height: float) -> None:
        self._size = (width, height)
        self._strokes: list[Stroke] = []
        self._words: list[Lettering] = []

    def line(self, *points: Point, weight: Weight = Weight.OUTLINE) -> None:
        """A polyline."""
        self._strokes.append(Stroke(points, weight))

    def shape(self, *points: Point, weight: Weight = Weight.OUTLINE, filled: bool = False) -> None:
        """A closed outline."""
        self._strokes.append(Stroke(points, weight, True, filled))

    def box(self, x: float, y: float, width: float, height: float, weight: Weight = Weight.OUTLINE) -> None:
        """A rectangle by its upper left corner."""
        self.shape((x, y), (x + width, y), (x + width, y + height), (x, y + height), weight=weight)

    def arc(
        self,
        x: float,
        y: float,
        r: float,
        start: float = 0.0,
        end: float = 360.0,
        weight: Weight = Weight.OUTLINE,
    ) -> None:
        """An arc about a centre, degrees clockwise from the right; a whole turn is a closed circle."""
        whole = abs(end - start) >= 360.0
        count = max(6, int(abs(end - start) / 10))
        turns = [
            math.radians(start + (end - start) * at / count) for at in range(count + (0 if whole else 1))
        ]
        points = tuple((x + r * math.cos(turn), y + r * math.sin(turn)) for turn in turns)
        self._strokes.append(Stroke(points, weight, whole))

    def arrow(self, start: Point, tip: Point, weight: Weight = Weight.THIN, size: float = 2.4) -> None:
        """A line with a filled head at its tip."""
        self.line(start, tip, weight=weight)
        turn = math.atan2(tip[1] - start[1], tip[0] - start[0])
        back = [
            (tip[0] - size * 1.8 * math.cos(turn + side), tip[1] - size * 1.8 * math.sin(turn + side))
            for side in (0.32, -0.32)
        ]
        self.shape(tip, *back, weight=weight, filled=True)

    def hatch(self, x: float, y: float, width: float, height: float, step: float = 4.0) -> None:
        """Short section lines at 45 degrees in a rectangle."""
        offset = step
        while offset < width + height:
            start = (x + min(offset, width), y + max(0.0, offset - width))
            end = (x + max(0.0, offset - height), y + min(offset, height))
            self.line(start, end, weight=Weight.THIN)
            offset += step

    def word(self, x: float, y: float, text: str, anchor: str = "m") -> None:
        """A word on its baseline."""
        self._words.append(Lettering((x, y), text, anchor))

    def indicator(self, x: float, y: float, toward: Point, reach: float = 13.0) -> None:
        """A dial whose stylus touches ``(x, y)``, coming from the opposite of ``toward``."""
        length = math.hypot(*toward)
        dx, dy = -toward[0] / length, -toward[1] / length
        r = 4.6
        middle = (x + dx * reach, y + dy * reach)
        self.line((x, y), (middle[0] - dx * r, middle[1] - dy * r), weight=Weight.MARK)
        self.arc(*middle, r, weight=Weight.MARK)
        self.line(middle, (middle[0] + 1.9, middle[1] - 2.4), weight=Weight.MARK)
        self.arc(x, y, 0.7, weight=Weight.MARK)

    def drawing(self) -> Drawing:
        """What was drawn."""
        return Drawing(*self._size, tuple(self._strokes), tuple(self._words))
