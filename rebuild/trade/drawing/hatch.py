"""Hatching: 45° lines clipped to a closed outline."""

from __future__ import annotations

import math
from collections.abc import Sequence

from rebuild.trade.results.door import door

Point = tuple[float, float]


@door()
def hatch_lines(loop: Sequence[Point], spacing: float) -> list[tuple[Point, Point]]:
    """The 45° strokes inside a closed outline, ``spacing`` apart; an outline that crosses itself counts odd-even.

    >>> len(hatch_lines([(0, 0), (10, 0), (10, 10), (0, 10)], 2.0))
    8
    """
    # Turned by -45°, the strokes are level and clipping is a walk along each.
    turned = [_turn(point, -1) for point in loop]
    low, high = min(y for _, y in turned), max(y for _, y in turned)
    strokes = []
    y = math.floor(low / spacing) * spacing + spacing / 2
    while y < high:
        crossings = sorted(_crossings(turned, y))
        for start, end in zip(crossings[::2], crossings[1::2], strict=False):
            if end - start > 1e-6:
                strokes.append((_turn((start, y), 1), _turn((end, y), 1)))
        y += spacing
    return strokes


def _crossings(loop: Sequence[Point], y: float) -> list[float]:
    found = []
    for (x0, y0), (x1, y1) in zip(loop, (*loop[1:], loop[0]), strict=True):
        if (y0 <= y) != (y1 <= y):
            found.append(x0 + (x1 - x0) * (y - y0) / (y1 - y0))
    return found


def _turn(point: Point, way: int) -> Point:
    half = math.sqrt(0.5)
    x, y = point
    return (x - way * y) * half, (way * x + y) * half
