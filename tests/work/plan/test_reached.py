"""What comes after some steps by the typed links: walked once, and again for each other thing it rests on.

Source: networkx, an oracle outside the project: the keys and their descendants.
"""

from __future__ import annotations

import networkx as nx
from hypothesis import given, strategies as st

from rebuild.work.plan import nodes
from rebuild.work.plan.facts import LinkFact
from rebuild.work.plan.nodes import linked_by

KEYS = st.integers(1, 9)
PAIRS = st.lists(st.tuples(KEYS, KEYS).filter(lambda pair: pair[0] < pair[1]), max_size=16)


def links_of(pairs: list[tuple[int, int]]) -> tuple[LinkFact, ...]:
    return tuple(LinkFact(at, before, after) for at, (before, after) in enumerate(pairs, 1))


def reached(pairs: list[tuple[int, int]], keys: list[int]) -> set[int]:
    graph = nx.DiGraph(pairs)
    graph.add_nodes_from(keys)
    return set(keys).union(*(nx.descendants(graph, key) for key in keys))


@given(PAIRS, PAIRS, st.lists(st.lists(KEYS, max_size=3), min_size=1, max_size=2 * nodes.MOST_WALKED))
def test_reached_is_what_the_library_says(
    pairs: list[tuple[int, int]], others: list[tuple[int, int]], asked: list[list[int]]
) -> None:
    first, second = links_of(pairs), links_of(others)
    for keys in (*asked, *asked):  # the second time from what was kept, or walked again where too much was
        assert linked_by(first).reached_from(keys) == reached(pairs, keys)
        assert linked_by(second).reached_from(keys) == reached(others, keys), "links of another machine"
        assert len(linked_by(first).walked) <= nodes.MOST_WALKED


def test_it_is_walked_once() -> None:
    links = links_of([(1, 2), (2, 3)])
    once = linked_by(links).reached_from([1])
    assert linked_by(links).reached_from((1,)) is once
