"""Words hung on upright lines above or below a view, in rows, so that no line runs through words.

Placed from the right to the left: words that would cover the line of one not placed yet stand to the right of their own
line instead, and a row farther out than every line they cover. So a place is always found, like the steps of a stair.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.trade.drawing.laid import Style, width_of

#: Lines nearer to each other than this are drawn apart at their outer end [mm].
_APART = 0.5


@dataclass(frozen=True, slots=True)
class Asked:
    """Words and the place of their upright line [mm of paper]."""

    x: float
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Hung:
    """Words with their row (0 next to the view), where they stand, and where their line begins."""

    x: float
    lines: tuple[str, ...]
    row: int
    anchor: str
    words_x: float
    start_x: float
    span: tuple[float, float]


def hang(asked: Sequence[Asked], passing: Sequence[float], style: Style) -> list[Hung]:
    """Rows and places, in the order asked; words keep clear of ``passing`` lines where they can.

    >>> style = Style(text=3.0)
    >>> [one.row for one in hang([Asked(0.0, ("a long note",)), Asked(3.0, ("another",))], [], style)]
    [1, 0]
    """
    order = sorted(range(len(asked)), key=lambda at: (-asked[at].x, -at))
    placed: dict[int, Hung] = {}
    for number, at in enumerate(order):
        later = [asked[other].x for other in order[number + 1 :]]
        placed[at] = _place(asked[at], list(placed.values()), later, passing, style)
    return [placed[at] for at in range(len(asked))]


def _place(
    one: Asked, placed: Sequence[Hung], later: Sequence[float], passing: Sequence[float], style: Style
) -> Hung:
    wide = width_of(one.lines, style) + 2 * style.gap
    spans = (
        ("centre", one.x, (one.x - wide / 2, one.x + wide / 2)),
        ("left", one.x + style.gap, (one.x - 0.01, one.x + wide)),
    )
    rows = range(len(placed) + 2)
    free = [
        Hung(one.x, one.lines, row, anchor, words_x, one.x, span)
        for row in rows
        for anchor, words_x, span in spans
        if _fits(one.x, row, span, placed) and (anchor == "left" or not _any_in(later, span))
    ]
    clear = [made for made in free if not _any_in([x for x in passing if abs(x - one.x) > _APART], made.span)]
    made = clear[0] if clear and clear[0].row <= free[0].row + 1 else free[0]
    shared = any(abs(x - one.x) < _APART for x in (*passing, *later, *(other.x for other in placed)))
    nudge = style.gap if shared else 0.0
    return Hung(made.x, made.lines, made.row, made.anchor, made.words_x, made.x + nudge, made.span)


def _fits(x: float, row: int, span: tuple[float, float], placed: Sequence[Hung]) -> bool:
    for other in placed:
        if row == other.row and span[0] < other.span[1] and other.span[0] < span[1]:
            return False
        if span[0] < other.x < span[1] and row <= other.row:
            return False
        if other.span[0] < x < other.span[1] and row >= other.row:
            return False
    return True


def _any_in(places: Sequence[float], span: tuple[float, float]) -> bool:
    return any(span[0] < x < span[1] for x in places)
