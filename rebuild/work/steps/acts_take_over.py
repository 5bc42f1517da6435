"""Take derived work over: it becomes typed steps, with its ties kept, to be edited like any other."""

from __future__ import annotations

from itertools import pairwise

from sqlalchemy import func, select

from rebuild.errors import BadEntry, NotThere
from rebuild.model.records.steps import Link, Task
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.schedule.graph import Node, WorkGraph
from rebuild.trade.schedule.network import loop_closed_by
from rebuild.words.steps import LinkKind
from rebuild.work.plan.laying import Slot, can_take_over, slot_of
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.plan.treatments_in_work import part_and_treatment


def take_over(store: Store, machine_id: int, key: int) -> tuple[int, ...]:
    """Turn derived work into typed steps; the first id is that of the work asked for.

    The making of a part is taken over as a whole, in its order. What held the work, and what it holds, become links
    where both are typed; ties to other derived work are laid by themselves.

    Raises:
        NotThere: it no longer follows from anything.
        BadEntry: it only follows, as a delivery does, and cannot be a step.
    """
    with store.act(Act.TAKE_OVER, "") as tx:
        graph = work_graph(tx.connection, machine_id).graph
        node = graph.node(key)
        if node is None or not node.derived or not node.open:
            raise NotThere("This work no longer follows from anything.", way_out="Look at the plan again.")
        nodes = _together(graph, node)
        made = {one.key: _step(tx, machine_id, one) for one in nodes}
        _tie(tx, graph, nodes, made)
        tx.subject = f"“{node.title}”" + (f" and {len(nodes) - 1} more" if len(nodes) > 1 else "")
        return (made[key], *(step for one, step in made.items() if one != key))


def _together(graph: WorkGraph, node: Node) -> tuple[Node, ...]:
    if not can_take_over(node):
        raise BadEntry(
            "only follows from what is known and cannot be a step of its own.",
            where="Take over",
            value=node.title,
            way_out="Settle it where it comes from: the order, the question, the fit or the sheet.",
        )
    own = graph.making.get(node.part_id or 0, ())
    if node.key not in own:
        return (node,)
    found = (graph.node(key) for key in own)
    return tuple(one for one in found if one is not None and one.open and can_take_over(one))


def _step(tx: Tx, machine_id: int, node: Node) -> int:
    last = tx.session.scalar(
        select(func.max(Task.position)).where(
            Task.machine_id == machine_id, Task.subassembly_id.is_(node.subassembly_id)
        )
    )
    points = None if node.assumed else node.points
    task = Task(
        machine_id=machine_id,
        subassembly_id=node.subassembly_id,
        part_id=node.part_id,
        title=node.title,
        kind=node.kind,
        state=node.state,
        treatment=part_and_treatment(slot_of(node.key)[1])[1] if slot_of(node.key)[0] is Slot.TREAT else None,
        low_min=points.shortest if points else None,
        likely_min=points.likely if points else None,
        high_min=points.longest if points else None,
        position=0 if last is None else last + 1,
    )
    tx.session.add(task)
    tx.session.flush()
    return task.id


def _tie(tx: Tx, graph: WorkGraph, nodes: tuple[Node, ...], made: dict[int, int]) -> None:
    """Links for the ties among the new steps, and to and from typed ones; what is left between is bridged."""
    pairs: dict[tuple[int, int], str] = {}
    for edge in graph.edges:
        ends = (made.get(edge.before, edge.before), made.get(edge.after, edge.after))
        if (edge.before in made or edge.after in made) and min(ends) > 0:
            pairs.setdefault(ends, edge.reason)
    steps = [made[one.key] for one in nodes]
    for before, after in pairwise(steps):
        pairs.setdefault((before, after), "")
    links = [
        (row.before_id, row.after_id) for row in tx.session.execute(select(Link.before_id, Link.after_id))
    ]
    for (before, after), reason in pairs.items():
        if loop_closed_by(before, after, links) is None:
            tx.session.add(Link(before_id=before, after_id=after, kind=LinkKind.BEFORE, reason=reason))
            links.append((before, after))
    tx.session.flush()
