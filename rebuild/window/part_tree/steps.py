"""The fewest row moves that turn one tree into another, in an order Qt's model signals allow.

Three passes: take away what is gone and holds nothing that stays; walk the wanted tree from the top
and put each row in its place; take away what is left over.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Hands:
    """What carries the steps out: ``(parent, row)`` for each; ``move`` gives the row before it is moved."""

    insert: Callable[[int, int, int], None]  # node, parent, row
    remove: Callable[[int, int], None]  # parent, row
    move: Callable[[int, int, int, int], None]  # from parent, row, to parent, row in the list after removal


def rearrange(
    now: Mapping[int, list[int]], wanted: Mapping[int, Sequence[int]], root: int, hands: Hands
) -> None:
    """Bring ``now`` (changed by the hands as they go) to ``wanted``."""
    wanted_parent = {child: parent for parent, listed in wanted.items() for child in listed}
    _take_away(now, wanted_parent, hands)
    queue = [root]
    for parent in queue:
        for row, node in enumerate(wanted.get(parent, ())):
            _put_in_place(now, wanted, wanted_parent, parent, row, node, hands)
        queue.extend(wanted.get(parent, ()))
    for parent in list(now):
        keep = len(wanted.get(parent, ()))
        while len(now.get(parent, ())) > keep:
            hands.remove(parent, len(now[parent]) - 1)


def _take_away(now: Mapping[int, list[int]], wanted: Mapping[int, int], hands: Hands) -> None:
    for parent in list(now):
        for row in range(len(now.get(parent, ())) - 1, -1, -1):
            node = now[parent][row]
            if node not in wanted and not _holds(now, node, wanted):
                hands.remove(parent, row)


def _holds(now: Mapping[int, list[int]], node: int, wanted: Mapping[int, int]) -> bool:
    return any(child in wanted or _holds(now, child, wanted) for child in now.get(node, ()))


def _put_in_place(
    now: Mapping[int, list[int]],
    wanted: Mapping[int, Sequence[int]],
    wanted_parent: Mapping[int, int],
    parent: int,
    row: int,
    node: int,
    hands: Hands,
) -> None:
    listed = now.get(parent, [])
    if row < len(listed) and listed[row] == node:
        return
    if row + 1 < len(listed) and listed[row + 1] == node and wanted_parent.get(listed[row]) == parent:
        # One row went down: moving it beats moving all that it passed.
        hands.move(parent, row, parent, min(wanted[parent].index(listed[row]), len(listed) - 1))
        return
    for other, children in now.items():
        if node in children:
            hands.move(other, children.index(node), parent, row)
            return
    hands.insert(node, parent, row)
