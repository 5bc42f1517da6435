"""How each geometry test is set up, as small line drawings: what stands, what moves, what the indicator touches."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from rebuild.trade.charts.machine_outlines import HEIGHT, WIDTH
from rebuild.trade.charts.milling_sketches import MILLING
from rebuild.trade.charts.turning_sketches import TURNING
from rebuild.trade.drawing.sketch import Drawing, Pad


def sketch_names() -> tuple[str, ...]:
    """Every sketch there is, to choose from for a test of one's own.

    >>> "tram" in sketch_names()
    True
    """
    return tuple(_SKETCHES)


@cache
def sketch(name: str) -> Drawing | None:
    """The drawing of a set-up, or None for a name without one.

    >>> len(sketch("bar-parallel").strokes) > 10
    True
    """
    draw = _SKETCHES.get(name)
    if draw is None:
        return None
    pad = Pad(WIDTH, HEIGHT)
    draw(pad)
    return pad.drawing()


_SKETCHES: dict[str, Callable[[Pad], None]] = {**TURNING, **MILLING}
