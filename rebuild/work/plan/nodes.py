"""Facts as nodes and edges: typed steps, typed links, and how derived work is made; the same facts give the same."""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from rebuild.trade.schedule.graph import Edge, Node, Ref
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.usual import DAY, of_kind, spread
from rebuild.words.readings import Stage
from rebuild.words.steps import ConstraintKind, LinkKind, TaskKind, TaskState
from rebuild.words.work_graph import Holding
from rebuild.work.plan.facts import LinkFact, PartFact, StepFact

#: Steps that set off a wait. An estimate of more than a day is the wait itself; a shorter one is the ordering.
ELAPSED = (TaskKind.BUY, TaskKind.SEND_OUT)


def derived(
    key: int,
    kind: TaskKind,
    title: str,
    ref: Ref,
    points: ThreePoint,
    *,
    part: PartFact | None = None,
    subassembly_id: int | None = None,
    elapsed: bool = False,
    assumed: bool = True,
    under_way: bool = False,
    stage: Stage | None = None,
) -> Node:
    """Work that follows from what is known."""
    return Node(
        key,
        kind,
        title,
        part.id if part is not None else None,
        part.subassembly_id if part is not None else subassembly_id,
        TaskState.UNDER_WAY if under_way else TaskState.OPEN,
        points,
        assumed,
        elapsed,
        ref,
        stage=stage,
    )


class Linked(NamedTuple):
    """The typed links as edges, which steps come right after each, and those that come after any.

    ``while_off`` are the links to what is done only while something is off. ``walked`` keeps what was last asked of
    ``reached_from``: one change of a step leaves the links, and all that comes after what needs power, as they were.
    """

    links: tuple[LinkFact, ...]
    edges: tuple[Edge, ...]
    after: Mapping[int, Sequence[int]]
    behind: frozenset[int]
    while_off: tuple[LinkFact, ...]
    walked: dict[tuple[int, ...], frozenset[int]]

    def reached_from(self, keys: Sequence[int]) -> frozenset[int]:
        """The keys given and all that comes after them by these links."""
        asked = tuple(keys)
        found = self.walked.get(asked)
        if found is None:
            if len(self.walked) >= MOST_WALKED:
                self.walked.clear()
            found = self.walked[asked] = self._walk(asked)
        return found

    def _walk(self, keys: tuple[int, ...]) -> frozenset[int]:
        seen = set(keys)
        queue = list(keys)
        after = self.after
        for key in queue:
            if key in after:
                fresh = [then for then in after[key] if then not in seen]
                seen.update(fresh)
                queue += fresh
        return frozenset(seen)


#: So many walks are kept of one machine's links; each may name all its steps.
MOST_WALKED = 8


#: What was made of the links of the last few machines: they change far less often than the rest.
_LINKED: deque[Linked] = deque(maxlen=4)


def linked_by(links: tuple[LinkFact, ...]) -> Linked:
    """The links as edges; the very same links (their table unchanged) give the very same edges."""
    kept = next((one for one in tuple(_LINKED) if one.links is links), None)
    if kept is None:
        kept = _linked(links)
        _LINKED.append(kept)
    return kept


def _linked(links: tuple[LinkFact, ...]) -> Linked:
    after: dict[int, list[int]] = {}
    for link in links:
        after.setdefault(link.before, []).append(link.after)
    edges = [
        Edge(
            link.before,
            link.after,
            Holding.WHILE_OFF if link.kind is LinkKind.WHILE_OFF else Holding.LINK,
            link.reason,
            link.id,
        )
        for link in links
    ]
    return Linked(
        links,
        tuple(edges),
        after,
        frozenset([link.after for link in links]),
        tuple([link for link in links if link.kind is LinkKind.WHILE_OFF]),
        {},
    )


@lru_cache(maxsize=20_000)
def typed_node(step: StepFact, needs: frozenset[ConstraintKind], settled: str) -> Node:
    """A typed step as a node; the same step gives the same node."""
    points = spread(step.low_min, step.likely_min, step.high_min)
    given = points if points is not None else of_kind(step.kind)
    return Node(
        step.id,
        step.kind,
        step.title,
        step.part_id,
        step.subassembly_id,
        step.state,
        given,
        points is None,
        step.kind in ELAPSED and given.longest > DAY,
        Ref("task", step.id),
        step.place,
        needs,
        settled,
    )
