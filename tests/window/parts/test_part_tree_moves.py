"""From any tree to any other by rows, keeping the rules of Qt's models on the way."""

from __future__ import annotations

import random

import pytest
from PySide6.QtGui import QFont
from pytestqt.modeltest import ModelTester

from rebuild.window.parts.tree.lines import ROOT, Kind, Line, Lines, node_of, part_node
from rebuild.window.parts.tree.model import TreeModel
from rebuild.window.parts.tree.moves import Hands, rearrange


def as_lines(children: dict[int, list[int]]) -> Lines:
    nodes = {child for listed in children.values() for child in listed}
    return Lines(
        {key: list(listed) for key, listed in children.items()},
        {node: Line("", str(node), (str(node), "", "", ""), "") for node in nodes},
    )


@pytest.mark.parametrize("seed", range(30))
def test_any_tree_becomes_any_other_by_rows(seed: int, qapp: object, qtmodeltester: ModelTester) -> None:
    chance = random.Random(seed)
    model = TreeModel(QFont())
    model.show(as_lines(_any_tree(chance)))
    qtmodeltester.check(model)
    for _ in range(4):
        wanted = _any_tree(chance)
        model.follow(as_lines(wanted))
        found = {node: list(model.children_of(node)) for node in (ROOT, *model.nodes())}
        assert {key: listed for key, listed in found.items() if listed} == {
            key: listed for key, listed in wanted.items() if listed
        }
        qtmodeltester.check(model)


def _any_tree(chance: random.Random) -> dict[int, list[int]]:
    """A tree over a random part of the same nodes, in random order and nesting."""
    groups = [node_of(Kind.SUBASSEMBLY, key) for key in range(1, 7) if chance.random() < 0.8]
    chance.shuffle(groups)
    children: dict[int, list[int]] = {ROOT: []}
    for place, node in enumerate(groups):
        children[chance.choice([ROOT, *groups[:place]])].append(node)
        children[node] = []
    for key in chance.sample(range(1, 30), chance.randint(0, 20)):
        children[chance.choice([ROOT, *groups])].append(part_node(key))
    return children


def test_one_row_gone_down_is_one_move() -> None:
    now = {ROOT: [1, 2, 3, 4, 5]}
    moves = []

    def move(old: int, row: int, new: int, at: int) -> None:
        moves.append((row, at))
        now[new].insert(at, now[old].pop(row))

    hands = Hands(lambda *_: None, lambda *_: None, move)
    rearrange(now, {ROOT: [2, 3, 4, 5, 1]}, ROOT, hands)
    assert (now, moves) == ({ROOT: [2, 3, 4, 5, 1]}, [(0, 4)])
    rearrange(
        now, {ROOT: [2, 3, 5, 1]}, ROOT, Hands(hands.insert, lambda parent, row: now[parent].pop(row), move)
    )
    assert (now, moves) == ({ROOT: [2, 3, 5, 1]}, [(0, 4)])


def test_part_gone_to_another_subassembly_is_one_move() -> None:
    now = {ROOT: [1, 2], 1: [10, 11, 12, 13], 2: [20, 21]}
    moves = []

    def move(old: int, row: int, new: int, at: int) -> None:
        moves.append((old, row, new, at))
        now[new].insert(at, now[old].pop(row))

    wanted = {ROOT: [1, 2], 1: [11, 12, 13], 2: [10, 20, 21]}
    rearrange(now, wanted, ROOT, Hands(lambda *_: None, lambda *_: None, move))
    assert (now, moves) == (wanted, [(1, 0, 2, 0)])
