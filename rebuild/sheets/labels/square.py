"""The square code of a tag: a QR symbol of ISO/IEC 18004 at its highest correction, drawn as filled squares."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from rebuild.sheets.paper import MM

#: The quiet zone the standard asks for, on every side [modules].
QUIET = 4


@lru_cache(maxsize=512)
def _modules(text: str) -> tuple[tuple[int, ...], ...]:
    import segno

    made = segno.make(text, error="h", boost_error=False, micro=False)
    return tuple(tuple(row) for row in made.matrix)


def modules_across(text: str) -> int:
    """Modules from edge to edge, quiet zone and all."""
    return len(_modules(text)) + 2 * QUIET


def draw_square(
    canvas: Any, text: str, left: float, low: float, side_mm: float, *, turned: bool = False
) -> None:
    """Draw a code with its quiet zone in a square of ``side_mm``, its left lower corner at (left, low) [pt].

    Three corners of the symbol hold the patterns it is found by; the fourth may be torn off. It is the right
    lower one, or, ``turned``, the right upper one: whichever lies at the corner of the label.
    """
    rows = _turned(_modules(text)) if turned else _modules(text)
    one = side_mm * MM / modules_across(text)
    top = low + side_mm * MM - QUIET * one
    outline = canvas.beginPath()
    for at, row in enumerate(rows):
        for first, long in _runs(row):
            # A hair higher than its row: viewers otherwise leave white lines between the rows.
            outline.rect(left + (QUIET + first) * one, top - (at + 1) * one, long * one, one * 1.02)
    canvas.setFillGray(0)
    canvas.drawPath(outline, stroke=0, fill=1)


def _turned(rows: tuple[tuple[int, ...], ...]) -> tuple[tuple[int, ...], ...]:
    """A quarter turn against the clock: what was right below is right above."""
    return tuple(zip(*rows, strict=True))[::-1]


def _runs(row: tuple[int, ...]) -> list[tuple[int, int]]:
    """Where dark modules of a row begin, and how many stand side by side."""
    found: list[tuple[int, int]] = []
    for at, dark in enumerate(row):
        if not dark:
            continue
        if found and sum(found[-1]) == at:
            found[-1] = (found[-1][0], found[-1][1] + 1)
        else:
            found.append((at, 1))
    return found
