"""Precedence, with networkx as the oracle."""

from __future__ import annotations

from graphlib import CycleError
from itertools import pairwise

import networkx as nx
import pytest
from hypothesis import given, strategies as st

from rebuild.trade.schedule.network import (
    held_up_by,
    loop_closed_by,
    loop_in,
    ordered,
    predecessors,
)

KEYS = st.integers(0, 9)
LINKS = st.lists(st.tuples(KEYS, KEYS), max_size=25)
FORWARD = st.lists(st.tuples(KEYS, KEYS).filter(lambda pair: pair[0] < pair[1]), max_size=25)


def graph(links: list[tuple[int, int]]) -> nx.DiGraph:
    made = nx.DiGraph()
    made.add_edges_from(links)
    return made


def is_chain(loop: tuple[int, ...], links: list[tuple[int, int]]) -> bool:
    return all(pair in links for pair in pairwise(loop))


@given(LINKS)
def test_a_loop_is_found_exactly_when_there_is_one(links: list[tuple[int, int]]) -> None:
    loop = loop_in(links)
    assert (loop is None) == nx.is_directed_acyclic_graph(graph(links))
    if loop is not None:
        assert loop[0] == loop[-1]
        assert len(loop) > 1
        assert is_chain(loop, links)


@given(FORWARD, KEYS, KEYS)
def test_a_link_that_closes_a_loop_is_known_with_its_shortest_loop(
    links: list[tuple[int, int]], before: int, after: int
) -> None:
    made = graph(links)
    made.add_nodes_from([before, after])
    loop = loop_closed_by(before, after, links)
    assert (loop is not None) == nx.has_path(made, after, before)
    if loop is not None and before != after:
        assert is_chain(loop, [*links, (before, after)])
        assert loop[0] == loop[-1] == after
        assert loop[-2] == before
        assert len(loop) - 1 == nx.shortest_path_length(made, after, before) + 1


@given(FORWARD)
def test_an_order_respects_every_link(links: list[tuple[int, int]]) -> None:
    order = ordered(links, range(10))
    assert sorted(order) == list(range(10))
    assert all(order.index(before) < order.index(after) for before, after in links)


def test_there_is_no_order_in_a_loop() -> None:
    with pytest.raises(CycleError):
        ordered([(1, 2), (2, 1)])


@given(LINKS, st.sets(KEYS, min_size=1, max_size=3))
def test_everything_behind_a_step_is_held_up(links: list[tuple[int, int]], start: set[int]) -> None:
    made = graph(links)
    made.add_nodes_from(start)
    wanted = set().union(*(nx.descendants(made, key) for key in start)) - start
    assert held_up_by(start, links) == wanted


def test_predecessors_name_every_key() -> None:
    assert predecessors([("a", "b"), ("a", "c")]) == {"a": set(), "b": {"a"}, "c": {"a"}}
