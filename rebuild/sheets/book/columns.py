"""Columns of a table and how wide each becomes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from rebuild.sheets.paper import MM

#: Between two columns [pt].
GAP = 7.0
#: No column is squeezed below this unless its words are shorter [pt].
LEAST = 30.0


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its heading, whether numbers stand to the right, and a width of its own [mm] if it has one."""

    head: str
    right: bool = False
    mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Need:
    """What a column would like: unbroken, and no narrower than its longest word [pt]."""

    natural: float
    least: float


def widths(columns: Sequence[Column], needs: Sequence[Need], room: float) -> tuple[float, ...]:
    """The width of each column [pt]; what is left over goes to the last.

    >>> widths((Column("a"), Column("b")), (Need(20, 10), Need(500, 40)), 207)
    (20, 180.0)
    """
    free = room - GAP * (len(columns) - 1)
    found = [column.mm * MM for column in columns]
    open_ones = [at for at, column in enumerate(columns) if not column.mm]
    free -= sum(found)
    while open_ones:
        fair = free / len(open_ones)
        small = [at for at in open_ones if needs[at].natural <= fair]
        if not small:
            break
        for at in small:
            found[at] = needs[at].natural
            free -= found[at]
        open_ones = [at for at in open_ones if at not in small]
    if open_ones:
        _share(found, open_ones, needs, free)
    elif free > 0 and columns and not columns[-1].right:
        found[-1] += free
    return tuple(found)


def _share(found: list[float], open_ones: Sequence[int], needs: Sequence[Need], free: float) -> None:
    """Divide what is left among columns that want more: by the root of what they want, none below its word."""
    weights = {at: sqrt(needs[at].natural) for at in open_ones}
    least = {at: min(max(needs[at].least, LEAST), free / len(open_ones)) for at in open_ones}
    extra = max(0.0, free - sum(least.values()))
    total = sum(weights.values())
    for at in open_ones:
        found[at] = least[at] + extra * weights[at] / total
