"""A drawing laid out on paper at a scale: where its dimension lines, words and hatching stand [mm of paper].

The same placing serves the window, the printed sheet and the exchange file, so all three look alike.
"""

from __future__ import annotations

import math

from rebuild.trade.drawing.hang import Asked, hang
from rebuild.trade.drawing.hatch import hatch_lines
from rebuild.trade.drawing.ink import Dimension, Drawing, Layer, Note, Point, Side
from rebuild.trade.drawing.laid import (
    STYLE,
    Laid,
    Leader,
    Placed,
    Run,
    Style,
    Words,
    block,
    height_of,
    width_of,
)

SCALES = (10.0, 5.0, 4.0, 3.0, 2.0, 1.5, 1.0, 0.75, 0.5, 0.4, 0.25, 0.2, 0.1, 0.05, 0.02, 0.01)


def best_fit(drawing: Drawing, width: float, height: float, unit: str, style: Style = STYLE) -> Laid:
    """Laid out at the largest usual scale that fits the paper's ``width`` and ``height`` [mm].

    Smaller words are taken where they win enough scale; where nothing fits, what comes nearest to it.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> from rebuild.trade.drawing.shapes import draw
    >>> sizes = {"outside diameter": 30.0, "bore": 20.0, "thickness": 3.0}
    >>> washer = draw("washer", {role: Measure(role, size) for role, size in sizes.items()})
    >>> best_fit(washer, 200.0, 200.0, "mm").scale > best_fit(washer, 80.0, 80.0, "mm").scale
    True
    """
    tries = [
        (scale * (1.0 if cut is style else SMALL_IS_WORTH), scale, cut)
        for cut in (style, smaller(style))
        for scale in SCALES
    ]
    for _worth, scale, cut in sorted(tries, key=lambda each: each[0], reverse=True):
        if _bare_overflow(drawing, scale, width, height) <= 1.0:  # else what stands around it fits still less
            laid = lay_out(drawing, scale, unit, cut)
            if _overflow(laid, width, height) <= 1.0:
                return laid
    return min(
        (lay_out(drawing, scale, unit, cut) for _worth, scale, cut in tries),
        key=lambda laid: _overflow(laid, width, height),
    )


#: What a scale with smaller words counts against one with the usual words.
SMALL_IS_WORTH = 0.7


def smaller(style: Style) -> Style:
    """The same sizes, four fifths as large.

    >>> round(smaller(STYLE).text / STYLE.text, 6)
    0.8
    """
    return Style(
        *(0.8 * size for size in (style.text, style.gap, style.tier, style.head, style.beyond, style.hatch))
    )


def _bare_overflow(drawing: Drawing, scale: float, width: float, height: float) -> float:
    left, bottom, right, top = drawing.bounds
    return scale * max((right - left) / width, (top - bottom) / height)


def _overflow(laid: Laid, width: float, height: float) -> float:
    left, bottom, right, top = laid.bounds
    return max((right - left) / width, (top - bottom) / height)


def lay_out(drawing: Drawing, scale: float, unit: str, style: Style = STYLE) -> Laid:
    """Lay a drawing out at a scale [paper mm per mm]; words in ``unit``.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> from rebuild.trade.drawing.shapes import draw
    >>> sizes = {"outside diameter": 30.0, "bore": 20.0, "thickness": 3.0}
    >>> washer = draw("washer", {role: Measure(role, size) for role, size in sizes.items()})
    >>> laid = lay_out(washer, 2.0, "mm")
    >>> next(placed.dimension.role for placed in laid.placed), len(laid.placed)
    ('bore', 3)
    """
    laid = Laid(scale, style)
    for stroke in drawing.strokes:
        laid.runs.append(Run(stroke.layer, tuple(_at(point, scale) for point in stroke.points())))
    for region in drawing.regions:
        loop = [_at(point, scale) for point in region.loop]
        laid.runs += [Run(Layer.HATCH, pair) for pair in hatch_lines(loop, style.hatch)]
    left, bottom, right, top = (value * scale for value in drawing.bounds)
    upright = [d for d in drawing.dimensions if d.upright and d.inline_x is None]
    for side, edge in ((Side.LEFT, left), (Side.RIGHT, right)):
        for own in dict.fromkeys(d.edge for d in upright if d.side is side):
            group = [d for d in upright if d.side is side and d.edge == own]
            _upright(laid, group, edge if own is None else own * scale, unit)
    for side, edge in ((Side.TOP, top), (Side.BOTTOM, bottom)):
        level = [d for d in drawing.dimensions if not d.upright and d.side is side]
        edge = _hang(laid, drawing, side, edge, unit)
        _level(laid, level, edge, unit)
    return laid


def _at(point: Point, scale: float) -> Point:
    return point[0] * scale, point[1] * scale


def _upright(laid: Laid, dimensions: list[Dimension], edge: float, unit: str) -> None:
    """Heights beside the view, the smaller nearer; words beside their line."""
    style = laid.style
    outward = -1 if dimensions and dimensions[0].side is Side.LEFT else 1
    at = edge + outward * 2.2 * style.tier
    for dimension in sorted(dimensions, key=lambda d: d.measured_mm):
        lines = dimension.measure.lines(unit, diameter=dimension.diameter)
        a, b = _at(dimension.a, laid.scale), _at(dimension.b, laid.scale)
        for x, y in (a, b):
            _extension(laid, (x + outward * style.gap, y), (at + outward * style.beyond, y))
        _arrows(laid, (at, a[1]), (at, b[1]))
        text = (at + outward * style.gap, (a[1] + b[1]) / 2)
        laid.words.append(Words(lines, text, "right" if outward < 0 else "left", dimension.role))
        laid.placed.append(Placed(dimension, at, text))
        at += outward * (width_of(lines, style) + 2.2 * style.tier)


def _level(laid: Laid, dimensions: list[Dimension], edge: float, unit: str) -> float:
    """Lengths above or below the view, shorter ones nearer, in as few rows as they allow; the new edge."""
    style = laid.style
    if not dimensions:
        return edge
    outward = 1 if dimensions[0].side is Side.TOP else -1
    rows: list[list[tuple[float, float]]] = []
    placed: list[tuple[int, Dimension, tuple[str, ...]]] = []
    for dimension in sorted(dimensions, key=lambda d: d.measured_mm):
        lines = _length_lines(dimension, unit)
        span = _span(dimension, lines, laid)
        row = next((n for n, taken in enumerate(rows) if not _clash(span, taken)), len(rows))
        # A longer dimension stands outside every shorter one it spans.
        while row < len(rows) and _clash(span, rows[row]):
            row += 1
        if row == len(rows):
            rows.append([])
        rows[row].append(span)
        placed.append((row, dimension, lines))
    deepest = max(height_of(lines, style) for _, _, lines in placed)
    step = deepest + 1.6 * style.tier
    for row, dimension, lines in placed:
        at = edge + outward * (style.tier + deepest + row * step if outward < 0 else style.tier + row * step)
        _length_line(laid, dimension, lines, at, outward)
    return edge + outward * (style.tier + len(rows) * step)


def _length_lines(dimension: Dimension, unit: str) -> tuple[str, ...]:
    lines = dimension.measure.lines(unit)
    return tuple(f"({line})" for line in lines) if dimension.role.startswith("(") else lines


def _length_line(laid: Laid, dimension: Dimension, lines: tuple[str, ...], at: float, outward: int) -> None:
    style = laid.style
    a, b = _at(dimension.a, laid.scale), _at(dimension.b, laid.scale)
    for x, y in (a, b):
        _broken_at_words(laid, x, y + outward * style.gap, at + outward * style.beyond)
    _arrows(laid, (a[0], at), (b[0], at))
    centre, anchor = ((a[0] + b[0]) / 2, at + style.gap * 0.7 + height_of(lines, style) / 2), "centre"
    if _too_narrow(abs(b[0] - a[0]), lines, style):
        centre, anchor = (max(a[0], b[0]) + OUTSIDE * style.head + style.gap, at), "left"
    laid.words.append(Words(lines, centre, anchor, dimension.role))
    laid.placed.append(Placed(dimension, at, centre))


#: How far the tail of an arrow that points in from outside reaches, in arrow heads.
OUTSIDE = 2.2


def _too_narrow(run: float, lines: tuple[str, ...], style: Style) -> bool:
    """Whether words do not fit between their own extension lines."""
    return width_of(lines, style) + 0.6 * style.text > run


def _span(dimension: Dimension, lines: tuple[str, ...], laid: Laid) -> tuple[float, float]:
    style = laid.style
    a, b = sorted((dimension.a[0] * laid.scale, dimension.b[0] * laid.scale))
    reach = OUTSIDE * style.head if b - a < 3 * style.head else 0.0
    beyond = reach
    if _too_narrow(b - a, lines, style):
        beyond = OUTSIDE * style.head + style.gap + width_of(lines, style)
    return a - reach + 0.3, b + beyond - 0.3


def _clash(span: tuple[float, float], taken: list[tuple[float, float]]) -> bool:
    return any(span[0] < other[1] and other[0] < span[1] for other in taken)


def _hang(laid: Laid, drawing: Drawing, side: Side, edge: float, unit: str) -> float:
    """Words hung above or below the view; the new edge.

    They stand next to the view, before any length: every line among them is upright, so no leader meets a dimension.
    """
    asked: list[Dimension | Note] = [
        d for d in drawing.dimensions if d.inline_x is not None and d.side is side
    ]
    asked += [note for note in drawing.notes if note.side is side]
    if not asked:
        return edge
    outward = 1 if side is Side.TOP else -1
    level = [d for d in drawing.dimensions if not d.upright and d.side is side]
    passing = [point[0] * laid.scale for d in level for point in (d.a, d.b)]
    placed = hang([_hung(one, laid, unit) for one in asked], passing, laid.style)
    heights = [
        max(height_of(one.lines, laid.style) for one in placed if one.row == row)
        for row in range(1 + max(one.row for one in placed))
    ]
    for number, one in enumerate(placed):
        near = edge + outward * (
            2 * laid.style.tier + sum(heights[: one.row]) + one.row * 1.2 * laid.style.tier
        )
        spot = (one.words_x, near + outward * heights[one.row] / 2)
        what = asked[number]
        words = Words(one.lines, spot, one.anchor, what.role if isinstance(what, Dimension) else "")
        laid.words.append(words)
        if isinstance(what, Dimension):
            _through(laid, what, near)
            laid.placed.append(Placed(what, one.x, spot))
        else:
            _leader(laid, Leader(words, (one.start_x, near), _at(what.at, laid.scale)))
    return edge + outward * (2 * laid.style.tier + sum(heights) + 1.2 * laid.style.tier * (len(heights) - 1))


def _hung(one: Dimension | Note, laid: Laid, unit: str) -> Asked:
    if isinstance(one, Note):
        return Asked(one.at[0] * laid.scale, one.lines)
    assert one.inline_x is not None
    return Asked(one.inline_x * laid.scale, one.measure.lines(unit, diameter=one.diameter))


def _leader(laid: Laid, leader: Leader) -> None:
    laid.leaders.append(leader)
    laid.runs.append(Run(Layer.NOTE, (leader.start, leader.at)))
    _head(laid, leader.at, leader.start)


def _through(laid: Laid, dimension: Dimension, to: float) -> None:
    """A diameter's line through the view, drawn on to its words."""
    x = (dimension.inline_x or 0.0) * laid.scale
    low, high = sorted((dimension.a[1] * laid.scale, dimension.b[1] * laid.scale))
    ends = (low, to) if to > high else (to, high)
    laid.runs.append(Run(Layer.DIMENSION, ((x, ends[0]), (x, ends[1]))))
    _heads(laid, (x, low), (x, high))


def _extension(laid: Laid, a: Point, b: Point) -> None:
    laid.runs.append(Run(Layer.DIMENSION, (a, b)))


def _broken_at_words(laid: Laid, x: float, start: float, end: float) -> None:
    """An upright extension line, broken where it would run through words that hang there (ISO 129-1 lets it be)."""
    low, high = sorted((start, end))
    gap = laid.style.gap / 2
    blocks = [block(words, laid.style) for words in laid.words]
    for _left, bottom, _right, top in sorted(
        (one for one in blocks if one[0] < x < one[2] and low < one[3] and one[1] < high),
        key=lambda one: one[1],
    ):
        if bottom - gap > low:
            _extension(laid, (x, low), (x, bottom - gap))
        low = max(low, top + gap)
    if high > low:
        _extension(laid, (x, low), (x, high))


def _arrows(laid: Laid, a: Point, b: Point) -> None:
    """The dimension line with its heads, inside where there is room, else outside pointing in."""
    if math.dist(a, b) >= 3 * laid.style.head:
        laid.runs.append(Run(Layer.DIMENSION, (a, b)))
        _heads(laid, a, b)
        return
    along = math.dist(a, b) or 1.0
    reach = OUTSIDE * laid.style.head / along
    out_a = (a[0] + (a[0] - b[0]) * reach, a[1] + (a[1] - b[1]) * reach)
    out_b = (b[0] + (b[0] - a[0]) * reach, b[1] + (b[1] - a[1]) * reach)
    laid.runs.append(Run(Layer.DIMENSION, (out_a, out_b)))
    _head(laid, a, out_a)
    _head(laid, b, out_b)


def _heads(laid: Laid, a: Point, b: Point) -> None:
    _head(laid, a, b)
    _head(laid, b, a)


def _head(laid: Laid, tip: Point, tail: Point) -> None:
    """A slim arrow head at ``tip``, coming from ``tail``."""
    run = math.dist(tip, tail) or 1.0
    ux, uy = (tail[0] - tip[0]) / run, (tail[1] - tip[1]) / run
    long, half = laid.style.head, laid.style.head / 6
    x, y = tip[0] + ux * long, tip[1] + uy * long
    laid.heads.append((tip, (x - uy * half, y + ux * half), (x + uy * half, y - ux * half)))
