"""How wide the columns of a table are, from what they hold."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

#: How much of the room a column that gives way first still has.
YIELD = 0.15


@dataclass(frozen=True, slots=True)
class Need:
    """What a column asks for [px]: ``natural`` shows all on one line, under ``least`` a word or a number is cut."""

    natural: int
    least: int


def share_widths(
    needs: Sequence[Need], room: int, yields: Sequence[int] = (), spare_to: int = -1
) -> list[int]:
    """Widths [px] of columns in a room [px].

    With room for all, each has what it needs and the one at ``spare_to`` the rest. Without, the widest give way first,
    alike, none under its least; what then still does not fit is scrolled to. Those at ``yields`` give way before
    the widest, to no less than ``YIELD`` of the room.

    >>> share_widths([Need(40, 40), Need(60, 30)], 120)
    [40, 80]
    >>> share_widths([Need(40, 40), Need(60, 30)], 120, spare_to=0)
    [60, 60]
    >>> share_widths([Need(40, 40), Need(300, 30), Need(120, 50)], 200)
    [40, 80, 80]
    >>> share_widths([Need(40, 40), Need(300, 150)], 100)
    [40, 150]
    >>> share_widths([Need(200, 60), Need(200, 30)], 300, [1])
    [200, 100]
    """
    if not needs:
        return []
    spare = room - sum(need.natural for need in needs)
    if spare >= 0:
        widths = [need.natural for need in needs]
        widths[spare_to] += spare
        return widths
    over = -spare
    for at in yields:
        need = needs[at]
        given = min(over, need.natural - max(need.least, int(YIELD * room)))
        needs = [*needs[:at], Need(need.natural - max(0, given), need.least), *needs[at + 1 :]]
        over -= max(0, given)
    low, high = 0, max(need.natural for need in needs)
    while low < high:
        cap = (low + high + 1) // 2
        if sum(_under(need, cap) for need in needs) <= room:
            low = cap
        else:
            high = cap - 1
    widths = [_under(need, low) for need in needs]
    left = room - sum(widths)
    if left > 0:
        tight = max(range(len(needs)), key=lambda at: needs[at].natural - widths[at])
        widths[tight] += left
    return widths


def _under(need: Need, cap: int) -> int:
    return max(need.least, min(need.natural, cap))
