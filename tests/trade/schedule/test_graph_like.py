"""A graph laid like another is the graph laid by itself, whichever input is another; and shares what is the same."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, strategies as st

from rebuild.trade.schedule.graph import Edge, Node, Ref, WorkGraph
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.work_graph import Holding

KEYS = st.integers(1, 7)
EDGES = st.lists(
    st.builds(
        Edge, KEYS, KEYS, st.sampled_from([Holding.LINK, Holding.MASTER]), st.sampled_from(["", "first"])
    ),
    max_size=14,
).map(lambda edges: tuple(edge for edge in edges if edge.before != edge.after))


def node(key: int) -> Node:
    return Node(
        key, TaskKind.OTHER, f"work {key}", None, None, TaskState.OPEN, ThreePoint(1, 2, 3), True, False,
        Ref("task", key),
    )  # fmt: skip


NODES = tuple(node(key) for key in range(1, 8))


def told(graph: WorkGraph) -> object:
    """All that a graph answers."""
    keys = [one.key for one in graph.nodes]
    return (
        graph.ready, graph.loops, graph.links, graph.order,
        [(graph.standing(key), graph.held_by(key), graph.edges_into(key), graph.counts((key,))) for key in keys],
        [(graph.behind([key]), graph.freed_by([key, keys[0]]), graph.counts((keys[-1], key))) for key in keys],
    )  # fmt: skip


def changed(
    nodes: tuple[Node, ...], edges: tuple[Edge, ...]
) -> list[tuple[tuple[Node, ...], tuple[Edge, ...]]]:
    """The same with each input of what follows from the ties changed in turn."""
    others = [replace(nodes[2], **one) for one in (
        {"title": "other words"}, {"state": TaskState.DONE}, {"state": TaskState.UNDER_WAY}, {"settled": "ordered"},
        {"elapsed": True}, {"points": ThreePoint(9, 9, 9)}, {"key": -3, "elapsed": True}, {"key": 9},
    )]  # fmt: skip
    found = [((*nodes[:2], other, *nodes[3:]), edges) for other in others]
    found += [(nodes[:-1], edges), ((*nodes, node(8)), edges), (nodes[::-1], edges)]
    if edges:
        (first, *rest) = edges
        found += [
            (nodes, tuple(rest)),
            (nodes, (*rest, first)),
            (nodes, (first._replace(kind=Holding.MASTER), *rest)),
            (nodes, (first._replace(reason="in other words"), *rest)),
            (nodes, (first._replace(target=5), *rest)),
            (nodes, (first._replace(before=first.after, after=first.before), *rest)),
        ]
    return found


@given(EDGES)
def test_a_graph_laid_like_another_answers_as_one_laid_by_itself(edges: tuple[Edge, ...]) -> None:
    first = WorkGraph(NODES, edges)
    told(first)
    for nodes, ties in changed(NODES, edges):
        assert told(WorkGraph(nodes, ties, like=first)) == told(WorkGraph(nodes, ties))
    assert told(first) == told(WorkGraph(NODES, edges))


def test_what_follows_from_the_ties_is_taken_over_where_they_are_the_same_and_nowhere_else() -> None:
    edges = (Edge(1, 2, Holding.LINK), Edge(2, 3, Holding.MASTER, "the master first"))
    first = WorkGraph(NODES, edges)
    retitled = (replace(NODES[0], title="other", points=ThreePoint(5, 6, 7)), *NODES[1:])
    assert WorkGraph(retitled, edges, like=first).frame is first.frame
    reworded = (edges[0], edges[1]._replace(reason="in other words"))
    again = WorkGraph(NODES, reworded, like=first)
    assert again.frame is first.frame
    assert [hold.sentence for hold in again.held_by(3)] == ["in other words"]
    assert WorkGraph(NODES, edges[:1], like=first).frame is not first.frame
    done = (replace(NODES[0], state=TaskState.DONE), *NODES[1:])
    assert WorkGraph(done, edges, like=first).frame is not first.frame
