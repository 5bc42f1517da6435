"""The square code inside a page's text: twice side by side, so that a lost corner of one leaves the other."""

from __future__ import annotations

from typing import Any

from rebuild.sheets.labels.square import draw_square
from rebuild.sheets.paper import MM


def square_pair(code: str, side_mm: float) -> Any:
    """Two squares of ``side_mm`` beside each other, the first turned, as one thing to be set on a page."""
    from reportlab.platypus import Flowable

    class Pair(Flowable):  # type: ignore[misc]
        def __init__(self) -> None:
            super().__init__()
            self.width, self.height = 2 * side_mm * MM, side_mm * MM

        def draw(self) -> None:
            draw_square(self.canv, code, 0, 0, side_mm, turned=True)
            draw_square(self.canv, code, side_mm * MM, 0, side_mm)

    return Pair()
