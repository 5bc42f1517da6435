"""Curves in the flow of a page, as vectors: told apart by stroke and mark, with round ticks and a legend."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from reportlab.platypus import Flowable

from rebuild.sheets import fonts
from rebuild.sheets.book import measure
from rebuild.sheets.book.lettering import write
from rebuild.trade.sizes.ticks import tick_words, ticks

_DASHES: tuple[tuple[float, ...], ...] = ((), (5, 2.5), (1.2, 1.8), (7, 2, 1.2, 2), (3, 1.5), (9, 3))
_TEXT = 7.0


@dataclass(frozen=True, slots=True)
class Curve:
    """One curve; ``u`` are half lengths of its bars, ``faint`` draws it in grey.

    Curves of one ``style`` bear the same stroke and mark; without one each gets the next.
    """

    name: str
    xs: tuple[float, ...]
    ys: tuple[float, ...]
    u: tuple[float, ...] = ()
    faint: bool = False
    style: int | None = None


@dataclass(frozen=True, slots=True)
class Axes:
    """Names of the axes, and levels drawn across with their words."""

    across: str
    up: str
    levels: tuple[tuple[float, str], ...] = ()


class Plot(Flowable):  # type: ignore[misc]
    """Curves told apart by stroke and mark, never by colour, with the legend under them."""

    def __init__(self, curves: Sequence[Curve], axes: Axes, wide: float, high: float) -> None:
        super().__init__()
        self._curves = tuple(curve for curve in curves if curve.xs)
        self._axes, self._wide, self._high = axes, wide, high
        self._legend = 11.0 * ((len(self._curves) + 2) // 3)
        self.spaceBefore, self.spaceAfter = 3, 6

    def wrap(self, _room: float, _high: float) -> tuple[float, float]:
        """Its size."""
        return self._wide, self._high + self._legend + 26

    def draw(self) -> None:
        """Put it on the page."""
        canvas = self.canv
        canvas.saveState()
        left, low, right, top = 42.0, self._legend + 26, self._wide - 6, self._high + self._legend + 18
        xs = [x for curve in self._curves for x in curve.xs]
        ys = [
            y + sign * bar
            for curve in self._curves
            for y, bar in zip(curve.ys, curve.u or (0.0,) * len(curve.ys), strict=True)
            for sign in (-1, 1)
        ] + [level for level, _ in self._axes.levels]
        across, up = ticks(min(xs), max(xs)), ticks(min(ys), max(ys))
        scale_x = _Scale(across[0], across[-1], left, right)
        scale_y = _Scale(up[0], up[-1], low, top)
        self._grid(canvas, across, up, scale_x, scale_y)
        for level, words in self._axes.levels:
            canvas.setDash(8, 3)
            canvas.setLineWidth(0.8)
            canvas.setStrokeGray(0)
            canvas.line(left, scale_y(level), right, scale_y(level))
            canvas.setDash()
            write(canvas, words, right - 2, scale_y(level) + 2, "r", 6.5)
        for at, curve in enumerate(self._curves):
            self._curve(canvas, curve, at if curve.style is None else curve.style, scale_x, scale_y)
        self._legend_lines(canvas)
        canvas.restoreState()

    def _grid(self, canvas: Any, across: Sequence[float], up: Sequence[float], x: _Scale, y: _Scale) -> None:
        canvas.setLineWidth(0.25)
        canvas.setStrokeGray(0.8)
        for value in across:
            canvas.line(x(value), y.low, x(value), y.high)
            write(canvas, tick_words(value, across), x(value), y.low - 9, "m", _TEXT)
        for value in up:
            canvas.line(x.low, y(value), x.high, y(value))
            write(canvas, tick_words(value, up), x.low - 4, y(value) - 2.4, "r", _TEXT)
        canvas.setStrokeGray(0)
        canvas.setLineWidth(0.7)
        canvas.rect(x.low, y.low, x.high - x.low, y.high - y.low)
        write(canvas, self._axes.across, x.high, y.low - 19, "r", _TEXT)
        write(canvas, self._axes.up, x.low, y.high + 4, "l", _TEXT)

    def _curve(self, canvas: Any, curve: Curve, at: int, x: _Scale, y: _Scale) -> None:
        grey = 0.55 if curve.faint else 0.0
        canvas.setStrokeGray(grey)
        canvas.setLineWidth(1.0)
        dashes = _DASHES[at % len(_DASHES)]
        canvas.setDash(*((list(dashes), 0) if dashes else ([], 0)))
        points = [(x(a), y(b)) for a, b in zip(curve.xs, curve.ys, strict=True)]
        path = canvas.beginPath()
        for number, point in enumerate(points):
            (path.lineTo if number else path.moveTo)(*point)
        canvas.drawPath(path)
        canvas.setDash([], 0)
        for (px, _), b, bar in zip(points, curve.ys, curve.u, strict=bool(curve.u)):
            canvas.setLineWidth(0.6)
            canvas.line(px, y(b - bar), px, y(b + bar))
        for px, py in points:
            _mark(canvas, at, px, py)

    def _legend_lines(self, canvas: Any) -> None:
        column = self._wide / 3
        for at, curve in enumerate(self._curves):
            left, base = (at % 3) * column + 6, self._legend - 9 - 11 * (at // 3)
            style = at if curve.style is None else curve.style
            dashes = _DASHES[style % len(_DASHES)]
            canvas.setStrokeGray(0.55 if curve.faint else 0.0)
            canvas.setLineWidth(1.0)
            canvas.setDash(*((list(dashes), 0) if dashes else ([], 0)))
            canvas.line(left, base + 2.5, left + 24, base + 2.5)
            canvas.setDash([], 0)
            _mark(canvas, style, left + 12, base + 2.5)
            words = measure.lines(fonts.printable(curve.name), column - 36, fonts.NORMAL, _TEXT)[0]
            write(canvas, words, left + 29, base, "l", _TEXT)


@dataclass(frozen=True, slots=True)
class _Scale:
    """From values to points on the page."""

    first: float
    last: float
    low: float
    high: float

    def __call__(self, value: float) -> float:
        span = (self.last - self.first) or 1.0
        return self.low + (value - self.first) / span * (self.high - self.low)


def _mark(canvas: Any, at: int, x: float, y: float) -> None:
    """An open mark: ring, square, triangle, diamond, cross, bar."""
    r = 2.1
    canvas.setFillGray(1)
    canvas.setLineWidth(0.8)
    kind = at % 6
    if kind == 0:
        canvas.circle(x, y, r, stroke=1, fill=1)
    elif kind == 1:
        canvas.rect(x - r, y - r, 2 * r, 2 * r, stroke=1, fill=1)
    elif kind in (2, 3):
        path = canvas.beginPath()
        corners = (
            ((0, 1.3), (1.2, -0.9), (-1.2, -0.9)) if kind == 2 else ((0, 1.4), (1.4, 0), (0, -1.4), (-1.4, 0))
        )
        for number, (dx, dy) in enumerate(corners):
            (path.lineTo if number else path.moveTo)(x + dx * r, y + dy * r)
        path.close()
        canvas.drawPath(path, stroke=1, fill=1)
    else:
        canvas.line(x - r, y - (r if kind == 4 else 0), x + r, y + (r if kind == 4 else 0))
        canvas.line(x - (r if kind == 4 else 0), y + r, x + (r if kind == 4 else 0), y - r)
    canvas.setFillGray(0)
