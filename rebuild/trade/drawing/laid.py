"""A drawing on paper: runs, arrow heads, words and where dimension lines stand [mm of paper]."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from rebuild.trade.drawing.ink import Dimension, Layer, Point
from rebuild.trade.results.door import door

#: Width of a character against its height, on the wide side so that words never touch.
CHAR_WIDTH = 0.64
LINE_STEP = 1.35


@dataclass(frozen=True, slots=True)
class Style:
    """Sizes on paper [mm]."""

    text: float = 3.2
    gap: float = 1.2
    tier: float = 3.2
    head: float = 2.4
    beyond: float = 1.4
    hatch: float = 2.2


STYLE = Style()


@dataclass(frozen=True, slots=True)
class Run:
    """A polyline on paper."""

    layer: Layer
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Words:
    """Lines of text: ``at`` is the middle of the block for ``centre``, its inner edge for left and right."""

    lines: tuple[str, ...]
    at: Point
    anchor: str
    role: str = ""


@dataclass(frozen=True, slots=True)
class Leader:
    """A note's line on paper: its words, where it leaves them, and what it points at."""

    words: Words
    start: Point
    at: Point


@dataclass(frozen=True, slots=True)
class Placed:
    """A dimension's line on paper: the two points measured, and its line's place (x when upright, else y)."""

    dimension: Dimension
    line_at: float
    text_at: Point


@dataclass(slots=True)
class Laid:
    """Everything on paper, and the room it takes: left, bottom, right, top."""

    scale: float
    style: Style
    runs: list[Run] = field(default_factory=list)
    heads: list[tuple[Point, Point, Point]] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)
    placed: list[Placed] = field(default_factory=list)
    leaders: list[Leader] = field(default_factory=list)

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """The room everything takes, words included."""
        points = [point for run in self.runs for point in run.points]
        for words in self.words:
            left, bottom, right, top = block(words, self.style)
            points += [(left, bottom), (right, top)]
        xs, ys = [p[0] for p in points], [p[1] for p in points]
        return min(xs), min(ys), max(xs), max(ys)


@door()
def scale_words(scale: float) -> str:
    """The scale as a drawing states it.

    >>> scale_words(2.0), scale_words(0.5), scale_words(1.5)
    ('2:1', '1:2', '3:2')
    """
    if scale == 1.5:
        return "3:2"
    if scale == 0.75:
        return "3:4"
    return f"{scale:g}:1" if scale >= 1 else f"1:{1 / scale:g}"


def block(words: Words, style: Style) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of a block of words on paper.

    >>> block(Words(("40",), (10.0, 5.0), "left"), Style(text=5.0))  # two characters of 5 x 0.64 mm
    (10.0, 2.5, 16.4, 7.5)
    """
    wide = width_of(words.lines, style)
    high = height_of(words.lines, style)
    x, y = words.at
    left = {"centre": x - wide / 2, "left": x, "right": x - wide}[words.anchor]
    return left, y - high / 2, left + wide, y + high / 2


def width_of(lines: Sequence[str], style: Style) -> float:
    """The room a block of words takes across [mm].

    >>> round(width_of(("40 ±0.3", "40"), Style(text=5.0)), 6)  # seven characters of 5 x 0.64 mm
    22.4
    """
    return max(len(line) for line in lines) * style.text * CHAR_WIDTH


def height_of(lines: Sequence[str], style: Style) -> float:
    """The room a block of words takes in height [mm].

    >>> height_of(("40",), Style(text=4.0)), round(height_of(("40.1", "39.9"), Style(text=4.0)), 6)
    (4.0, 9.4)
    """
    return style.text * (1 + LINE_STEP * (len(lines) - 1))
