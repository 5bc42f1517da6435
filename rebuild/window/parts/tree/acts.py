"""What the tree does to the file: rename, move, put in order, remove. Sentences go to the desk."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.parts.tree.lines import BOX, ROOT, Kind, id_of, kind_of, part_node
from rebuild.window.parts.tree.model import TreeModel

RECORD = {Kind.PART: "part", Kind.SUBASSEMBLY: "subassembly"}


class TreeActs:
    """The acts on nodes; each is one entry in the journal."""

    def __init__(self, desk: Desk, model: TreeModel) -> None:
        self._desk = desk
        self._model = model

    def rename(self, node: int, name: str) -> bool:
        """Give a part or subassembly another name; False when it was refused (the sentence is said)."""
        from rebuild.work.editing.acts import edit

        line = self._model.line_of(node)
        if line is None or name == line.name:
            self._model.draft(node, None)
            return True
        try:
            edit(
                self._desk.store,
                RECORD[kind_of(node)],
                [id_of(node)],
                {"name": name},
                seen={"name": line.name},
            )
        except RebuildError as trouble:
            self._model.draft(node, name)
            self._desk.say(str(trouble), Say.TROUBLE)
            return False
        self._model.draft(node, None)
        return True

    def remove(self, nodes: Sequence[int]) -> None:
        """Remove parts, or subassemblies with all that lies in them; undo brings everything back."""
        from rebuild.work.editing.acts import remove

        for kind in (Kind.SUBASSEMBLY, Kind.PART):
            keys = [id_of(node) for node in self._topmost(nodes) if kind_of(node) is kind]
            if keys:
                act = partial(remove, self._desk.store, RECORD[kind], keys)
                self._desk.attempt(act, "Removed; Ctrl+Z brings it back.")

    def drop(self, nodes: Sequence[int], target: int, row: int) -> None:
        """Let go of dragged nodes over ``target`` before its row (−1: last)."""
        from rebuild.work.machines.acts import move_parts

        parts = [id_of(node) for node in nodes if kind_of(node) is Kind.PART]
        groups = [id_of(node) for node in nodes if kind_of(node) is Kind.SUBASSEMBLY]
        if parts and target != ROOT:
            at = None if row < 0 else self._index(target, row, Kind.PART, nodes)
            where = None if target == BOX else id_of(target)
            self._desk.attempt(lambda: move_parts(self._desk.store, parts, where, at))
        if parts and target == ROOT:
            self._desk.say("A part lies in a subassembly or among the loose parts; drop it on one of them.")
        for group in groups:
            self._move_group(group, target, row, nodes)

    def _move_group(self, group: int, target: int, row: int, nodes: Sequence[int]) -> None:
        from rebuild.work.machines.acts import move_subassembly

        if target == BOX:
            self._desk.say("Only parts can lie among the loose parts.")
            return
        at = None if row < 0 else self._index(target, row, Kind.SUBASSEMBLY, nodes)
        under = None if target == ROOT else id_of(target)
        self._desk.attempt(lambda: move_subassembly(self._desk.store, group, under, at))

    def shift(self, nodes: Sequence[int], by: int) -> None:
        """Move the chosen lines one place up (−1) or down (1) among their like."""
        from rebuild.work.machines.acts import move_parts, move_subassembly

        chosen = [node for node in nodes if node != BOX]
        if not chosen:
            return
        first = chosen[0]
        kind, parent = kind_of(first), self._model.parent_of(first)
        moving = [node for node in chosen if self._model.parent_of(node) == parent and kind_of(node) is kind]
        like = [node for node in self._model.children_of(parent) if kind_of(node) is kind]
        staying = [node for node in like if node not in moving]
        at = sum(1 for node in like[: like.index(moving[0])] if node not in moving) + by
        if not 0 <= at <= len(staying):
            return
        if kind is Kind.PART:
            where = None if parent == BOX else id_of(parent)
            keys = [id_of(node) for node in moving]
            self._desk.attempt(lambda: move_parts(self._desk.store, keys, where, at))
        else:
            under = None if parent == ROOT else id_of(parent)
            self._desk.attempt(lambda: move_subassembly(self._desk.store, id_of(moving[0]), under, at))

    def _index(self, target: int, row: int, kind: Kind, moving: Sequence[int]) -> int:
        """The place among the like that stay, for a drop before ``row``."""
        before = self._model.children_of(target)[:row]
        return sum(1 for node in before if kind_of(node) is kind and node not in moving)

    def _topmost(self, nodes: Sequence[int]) -> list[int]:
        """Without those that lie in another chosen one, and without the box."""
        chosen = set(nodes)
        found = []
        for node in nodes:
            above = self._model.parent_of(node)
            while above != ROOT and above not in chosen:
                above = self._model.parent_of(above)
            if above == ROOT and node != BOX:
                found.append(node)
        return found


def part_nodes(ids: Sequence[int]) -> list[int]:
    """The nodes of parts."""
    return [part_node(key) for key in ids]
