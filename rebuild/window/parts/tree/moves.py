"""The fewest row moves that turn one tree into another, in an order Qt's model signals allow.

Three passes: take away what is gone and holds nothing that stays; walk the wanted tree from the top
and put each row in its place; take away what is left over.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Hands:
    """What carries the steps out, and changes the tree as it goes."""

    insert: Callable[[int, int, int], None]  # node, parent, row
    remove: Callable[[int, int], None]  # parent, row
    move: Callable[[int, int, int, int], None]  # from parent, row, to parent, row in the list after removal


def rearrange(
    now: Mapping[int, list[int]], wanted: Mapping[int, Sequence[int]], root: int, hands: Hands
) -> None:
    """Bring ``now`` (children by node, changed by the hands) to ``wanted``."""
    goes_to = {child: parent for parent, listed in wanted.items() for child in listed}
    walk = _Walk(now, wanted, goes_to, root, hands)
    walk.take_away()
    walk.put_in_place()
    walk.take_away_the_rest()


@dataclass(frozen=True, slots=True)
class _Walk:
    now: Mapping[int, list[int]]
    wanted: Mapping[int, Sequence[int]]
    goes_to: Mapping[int, int]
    root: int
    hands: Hands

    def take_away(self) -> None:
        for parent in list(self.now):
            for row in range(len(self.now.get(parent, ())) - 1, -1, -1):
                node = self.now[parent][row]
                if node not in self.goes_to and not self._holds(node):
                    self.hands.remove(parent, row)

    def _holds(self, node: int) -> bool:
        return any(child in self.goes_to or self._holds(child) for child in self.now.get(node, ()))

    def put_in_place(self) -> None:
        queue = [self.root]
        for parent in queue:
            for row, node in enumerate(self.wanted.get(parent, ())):
                listed = self.now.get(parent, [])
                if row >= len(listed) or listed[row] != node:
                    self._put(parent, row, node)
            queue.extend(self.wanted.get(parent, ()))

    def _put(self, parent: int, row: int, node: int) -> None:
        listed = self.now.get(parent, [])
        if row + 1 < len(listed) and listed[row + 1] == node and self._send_on(parent, row):
            return
        for other, children in self.now.items():
            if node in children:
                self.hands.move(other, children.index(node), parent, row)
                return
        self.hands.insert(node, parent, row)

    def _send_on(self, parent: int, row: int) -> bool:
        """Move a row that went down or elsewhere: one step, where moving all behind it would be many."""
        standing = self.now[parent][row]
        to = self.goes_to.get(standing)
        if to is None or (to != parent and not self._can_take(to, standing)):
            return False
        room = len(self.now.get(to, ())) - (to == parent)
        self.hands.move(parent, row, to, min(self.wanted[to].index(standing), room))
        return True

    def _can_take(self, parent: int, node: int) -> bool:
        """Whether ``parent`` stands in the tree already, and not inside ``node``."""
        here: int | None = parent
        while here is not None and here != self.root:
            if here == node:
                return False
            here = next((key for key, listed in self.now.items() if here in listed), None)
        return here == self.root

    def take_away_the_rest(self) -> None:
        for parent in list(self.now):
            keep = len(self.wanted.get(parent, ()))
            while len(self.now.get(parent, ())) > keep:
                self.hands.remove(parent, len(self.now[parent]) - 1)
