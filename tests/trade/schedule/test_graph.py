"""The work graph against a general graph library.

Source: networkx, an oracle outside the project: a piece of open work can be begun when its subgraph of open work has
no arrow into it; what it holds up are its descendants there.
"""

from __future__ import annotations

import random
from itertools import pairwise

import networkx as nx
import pytest
from hypothesis import given, settings, strategies as st

from rebuild.trade.schedule.graph import Edge, Node, Ref, WorkGraph
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.work_graph import Holding, Standing

POINTS = ThreePoint(1, 2, 3)
KEYS = st.integers(1, 9)
PAIRS = st.lists(st.tuples(KEYS, KEYS).filter(lambda pair: pair[0] != pair[1]), max_size=20)


def node(key: int, state: TaskState = TaskState.OPEN, settled: str = "", elapsed: bool = False) -> Node:
    return Node(
        key,
        TaskKind.OTHER,
        f"work {key}",
        None,
        None,
        state,
        POINTS,
        True,
        elapsed,
        Ref("task", key),
        settled=settled,
    )


def laid(pairs: list[tuple[int, int]], closed: set[int]) -> tuple[WorkGraph, nx.DiGraph]:
    nodes = tuple(node(key, TaskState.DONE if key in closed else TaskState.OPEN) for key in range(1, 10))
    oracle = nx.DiGraph()
    oracle.add_nodes_from(one.key for one in nodes if one.open)
    oracle.add_edges_from(pair for pair in pairs if not closed.intersection(pair))
    return WorkGraph(nodes, tuple(Edge(*pair, Holding.LINK) for pair in pairs)), oracle


@given(PAIRS, st.sets(KEYS))
def test_ready_and_held_are_what_the_library_says(pairs: list[tuple[int, int]], closed: set[int]) -> None:
    graph, oracle = laid(pairs, closed)
    assert {one.key for one in graph.ready} == {key for key in oracle if not oracle.in_degree(key)}
    assert [one.key for one in graph.held()] == [key for key in oracle if oracle.in_degree(key)]
    for key in oracle:
        assert {hold.key for hold in graph.held_by(key)} == set(oracle.predecessors(key))
        assert (graph.standing(key) is Standing.HELD) == bool(oracle.in_degree(key))
    assert all(graph.standing(key) is Standing.CLOSED for key in closed)


@given(PAIRS, st.sets(KEYS), st.sets(KEYS, min_size=1, max_size=3))
def test_what_lies_behind_and_what_is_freed(
    pairs: list[tuple[int, int]], closed: set[int], done: set[int]
) -> None:
    forward = [pair for pair in pairs if pair[0] < pair[1]]
    graph, oracle = laid(forward, closed)
    mine = done & set(oracle)
    behind = set().union(*(nx.descendants(oracle, key) for key in mine)) - mine if mine else set()
    assert graph.behind(mine) == len(behind)
    left = oracle.subgraph(set(oracle) - mine)
    before = {key for key in oracle if not oracle.in_degree(key)}
    wanted = {key for key in left if not left.in_degree(key)} - before
    assert {one.key for one in graph.freed_by(mine)} == wanted
    for key in range(1, 11):  # closed ones, and one that is not there, too
        alone = [one for one in oracle.successors(key) if oracle.in_degree(one) == 1] if key in oracle else []
        held_up = nx.descendants(oracle, key) if key in oracle else ()
        assert graph.counts((key,)) == (len(alone), len(held_up))


@given(PAIRS)
def test_loops_are_named_and_what_is_left_is_an_order(pairs: list[tuple[int, int]]) -> None:
    graph, oracle = laid(pairs, set())
    assert bool(graph.loops) == (not nx.is_directed_acyclic_graph(oracle))
    kept = nx.DiGraph(list(graph.links))
    assert nx.is_directed_acyclic_graph(kept)
    place = {key: at for at, key in enumerate(graph.order)}
    assert sorted(place) == list(range(1, 10))
    assert all(place[before] < place[after] for before, after in graph.links)
    for loop in graph.loops:
        assert loop[0] == loop[-1]
        assert all(oracle.has_edge(*pair) for pair in pairwise(loop))
        assert not {one.key for one in graph.ready} & set(loop), "nothing in a loop may be begun"


def test_a_loop_is_cut_where_nobody_typed_it() -> None:
    edges = (
        Edge(1, 2, Holding.LINK),
        Edge(2, 3, Holding.MASTER, "the master first"),
        Edge(3, 1, Holding.LINK),
    )
    graph = WorkGraph((node(1), node(2), node(3)), edges)
    assert len(graph.loops) == 1
    assert set(graph.links) == {(1, 2), (3, 1)}
    assert [hold.sentence for hold in graph.held_by(3)] == ["the master first"], "it holds all the same"


@pytest.mark.parametrize(
    ("before", "ready"),
    [
        (node(1), False),
        (node(1, TaskState.UNDER_WAY), False),
        (node(1, TaskState.DONE), True),
        (node(1, TaskState.LEFT_OUT), True),
        (node(1, settled="ordered 2026-03-14"), True),
        (node(-1, TaskState.UNDER_WAY, elapsed=True), False),
    ],
)
def test_what_is_closed_or_settled_holds_nothing(before: Node, ready: bool) -> None:
    graph = WorkGraph((before, node(2)), (Edge(before.key, 2, Holding.LINK),))
    assert (graph.standing(2) is Standing.READY) is ready
    assert bool(graph.held_by(2)) is not ready


def test_what_runs_by_itself_is_neither_ready_nor_held() -> None:
    graph = WorkGraph((node(-1, elapsed=True), node(2, elapsed=True)), ())
    assert graph.standing(-1) is Standing.RUNS
    assert [one.key for one in graph.ready] == [2], "a typed step that sets off a wait is begun by hand"


@settings(max_examples=3)
@given(st.integers(0, 2**31))
def test_a_large_graph_is_answered_like_a_small_one(seed: int) -> None:
    chance = random.Random(seed)
    pairs = sorted({tuple(sorted(chance.sample(range(1, 400), 2))) for _ in range(900)})
    nodes = tuple(node(key, chance.choice((TaskState.OPEN, TaskState.DONE))) for key in range(1, 400))
    graph = WorkGraph(nodes, tuple(Edge(a, b, Holding.LINK) for a, b in pairs))
    still_open = {one.key for one in nodes if one.open}
    oracle = nx.DiGraph()
    oracle.add_nodes_from(still_open)
    oracle.add_edges_from(pair for pair in pairs if still_open.issuperset(pair))
    assert all(graph.behind([key]) == len(nx.descendants(oracle, key)) for key in still_open)
