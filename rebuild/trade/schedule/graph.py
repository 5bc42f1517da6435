"""The work graph of one machine: what can be started, what holds the rest, in which order, and what hangs on what.

Nodes are steps as typed, and work that follows from what is known (``derived``). This is the one place that
says whether something is ready: every list, date and refusal asks it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import InitVar, dataclass, field
from enum import Enum
from itertools import pairwise
from typing import NamedTuple

from rebuild.trade.schedule.frame import Frame
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.words.readings import Stage
from rebuild.words.steps import ConstraintKind, TaskKind, TaskState
from rebuild.words.work_graph import Holding, Standing

CLOSED = (TaskState.DONE, TaskState.LEFT_OUT)
_NOTHING: frozenset[ConstraintKind] = frozenset()


@dataclass(frozen=True, slots=True)
class Ref:
    """The very row a node or a hold speaks of."""

    table: str
    id: int


@dataclass(frozen=True, slots=True)
class Node:
    """One piece of work. ``settled`` says what has met its purpose although nobody ticked it (an order placed).

    Derived work has a key below nothing. ``elapsed``: its duration passes without hands. ``stage`` is the one a
    feature is to be measured at; ``until`` how long it runs by itself, in words.
    """

    key: int
    kind: TaskKind
    title: str
    part_id: int | None
    subassembly_id: int | None
    state: TaskState
    points: ThreePoint
    assumed: bool
    elapsed: bool
    ref: Ref
    place: str = ""
    needs: frozenset[ConstraintKind] = _NOTHING
    settled: str = ""
    stage: Stage | None = None

    @property
    def derived(self) -> bool:
        """Whether it follows from what is known, not from a typed step."""
        return self.key < 0

    @property
    def open(self) -> bool:
        """Whether it is still to be done."""
        return not self.settled and self.state not in CLOSED

    @property
    def under_way(self) -> bool:
        """Whether it was begun."""
        return self.state is TaskState.UNDER_WAY

    @property
    def runs(self) -> bool:
        """Whether it happens by itself: a delivery, a cure."""
        return self.elapsed and self.key < 0


class Edge(NamedTuple):
    """``before`` holds ``after``: how, in a sentence, and by which row (a link, a constraint). Made by thousands."""

    before: int
    after: int
    kind: Holding
    reason: str = ""
    target: int = 0


class Hold(NamedTuple):
    """What holds a piece of work: the sentence, the work that must come first, its very row, the row that says so.

    Made by thousands.
    """

    key: int
    kind: Holding
    title: str
    sentence: str
    ref: Ref
    target: int


@dataclass(frozen=True, slots=True)
class PartWork:
    """What is still to be done to have one part: ``first`` can be begun, or ``holds`` say why none can."""

    part_id: int
    own: tuple[Node, ...]
    first: tuple[Node, ...]
    holds: tuple[Hold, ...]

    @property
    def ready(self) -> bool:
        """Whether any of it can be begun now."""
        return bool(self.first)

    @property
    def runs(self) -> bool:
        """Whether it only has to arrive."""
        return not self.first and not self.holds


@dataclass(slots=True)
class WorkGraph:
    """Nodes and edges, answered once when made. ``finishing`` holds the end of a step, not its beginning.

    ``making`` names the nodes that make, rework or bring each part. Edges that would close a loop are left out
    of ``links`` (the derived one of a loop first), and named in ``loops``; they hold all the same. ``like`` is a graph
    laid before: where the same open work hangs together as in it, what follows from the ties is taken from there.

    >>> graph = WorkGraph((), ())
    >>> graph.ready
    ()
    """

    nodes: tuple[Node, ...]
    edges: tuple[Edge, ...]
    making: Mapping[int, tuple[int, ...]] = field(default_factory=dict)
    finishing: Mapping[int, tuple[Hold, ...]] = field(default_factory=dict)
    like: InitVar[WorkGraph | None] = None
    ready: tuple[Node, ...] = field(init=False)
    frame: Frame = field(init=False, compare=False, repr=False)
    _by_key: dict[int, Node] = field(init=False)
    _opened: tuple[int, ...] = field(init=False)
    _held: dict[int, list[Edge]] = field(init=False)

    def __post_init__(self, like: WorkGraph | None) -> None:
        self._by_key = {node.key: node for node in self.nodes}
        self._opened = tuple([node.key for node in self.nodes if node.open])
        ties = None if like is None else self._ties_of(like)
        self._held = self._hold() if like is None or ties is not _Ties.SAME else like._held
        held = self._held
        self.ready = tuple(
            [self._by_key[key] for key in self._opened if key not in held and not self._by_key[key].runs]
        )
        self.frame = self._lay() if like is None or ties is None else like.frame

    def _ties_of(self, like: WorkGraph) -> _Ties | None:
        """Whether the same open work hangs together as in another graph, and by the same words; None: otherwise."""
        if self._opened != like._opened or self._by_key.keys() != like._by_key.keys():
            return None
        if self.edges == like.edges:
            return _Ties.SAME
        same = len(self.edges) == len(like.edges) and all(
            one is two or one[:3] == two[:3] for one, two in zip(self.edges, like.edges, strict=True)
        )
        return _Ties.OTHER_WORDS if same else None

    def _hold(self) -> dict[int, list[Edge]]:
        still_open = set(self._opened)
        held: dict[int, list[Edge]] = {}
        for edge in self.edges:
            if edge[0] in still_open and edge[1] in self._by_key:
                held.setdefault(edge[1], []).append(edge)
        return held

    def _lay(self) -> Frame:
        still_open = set(self._opened)
        pairs = dict.fromkeys(
            [(edge[0], after) for after, found in self._held.items() if after in still_open for edge in found]
        )
        return Frame.of(self._opened, pairs, self._cut)

    @property
    def loops(self) -> tuple[tuple[int, ...], ...]:
        """Loops among the ties, each spelled out."""
        return self.frame.loops

    @property
    def links(self) -> tuple[tuple[int, int], ...]:
        """Ties among open work, less those that would close a loop."""
        return self.frame.links

    @property
    def order(self) -> tuple[int, ...]:
        """Open work in an order that respects every link."""
        return self.frame.order

    def _cut(self, loop: tuple[int, ...]) -> tuple[int, int]:
        """Which pair of a loop to leave out: the last that nobody typed, else the last."""
        around = list(pairwise(loop))
        typed = {(e.before, e.after) for after in loop for e in self._held.get(after, ()) if _typed(e)}
        return next((pair for pair in reversed(around) if pair not in typed), around[-1])

    def node(self, key: int) -> Node | None:
        """A node by its key; typed steps have their own id."""
        return self._by_key.get(key)

    def standing(self, key: int) -> Standing:
        """Ready, held, running by itself, or closed. Raises KeyError for a key that is not there."""
        node = self._by_key[key]
        if not node.open:
            return Standing.CLOSED
        if key in self._held:
            return Standing.HELD
        return Standing.RUNS if node.runs else Standing.READY

    def edges_into(self, key: int) -> tuple[Edge, ...]:
        """Every edge from open work into a node, in the order laid."""
        return tuple(self._held.get(key, ()))

    def held_by(self, key: int) -> tuple[Hold, ...]:
        """What must come before a node, one hold for each piece of work; empty when it is ready."""
        found: dict[int, Hold] = {}
        for edge in self._held.get(key, ()):
            if edge.before not in found:
                found[edge.before] = self.hold(edge)
        return tuple(found.values())

    def first_held_by(self, key: int) -> tuple[Hold, int] | None:
        """The first of ``held_by`` and how many there are; None when there is none."""
        edges = self._held.get(key)
        return None if edges is None else (self.hold(edges[0]), len({edge.before for edge in edges}))

    def hold(self, edge: Edge) -> Hold:
        """An edge as what it holds by."""
        before = self._by_key[edge.before]
        sentence = edge.reason or f"step “{before.title}” comes first"
        if edge.kind is Holding.LINK:
            sentence = f"step “{before.title}” comes first"
        return Hold(edge.before, edge.kind, before.title, sentence, before.ref, edge.target)

    def of_part(self, part_id: int) -> PartWork | None:
        """How the making of a part stands, or None when nothing of it is open."""
        own = tuple(node for key in self.making.get(part_id, ()) if (node := self._by_key[key]).open)
        if not own:
            return None
        keys = {node.key for node in own}
        first = tuple(node for node in own if self.standing(node.key) is Standing.READY)
        held = (hold for node in own for hold in self.held_by(node.key))
        holds = {hold.key: hold for hold in held if hold.key not in keys}
        return PartWork(part_id, own, first, () if first else tuple(holds.values()))

    def parts_to_make(self) -> tuple[PartWork, ...]:
        """Every part of which something is still to be made, reworked or brought."""
        found = (self.of_part(part_id) for part_id in self.making)
        return tuple(work for work in found if work is not None)

    def held(self) -> list[Node]:
        """Open work that cannot be begun, in the order laid."""
        by_key, held = self._by_key, self._held
        return [by_key[key] for key in self._opened if key in held]

    def freed_by(self, done: Collection[int]) -> tuple[Node, ...]:
        """What could be begun at once if ``done`` were done, or sets off by itself then, and cannot before."""
        after, waits = self.frame.after, self.frame.waits
        if len(done) == 1:
            (only,) = done
            return tuple([self._by_key[key] for key in after.get(only, ()) if waits[key] == 1])
        gone = set(done)
        seen = dict.fromkeys(then for key in done for then in after.get(key, ()) if then not in gone)
        return tuple(
            self._by_key[key] for key in seen if all(edge.before in gone for edge in self._held[key])
        )

    def behind(self, keys: Iterable[int]) -> int:
        """How many open nodes come after any of ``keys``, directly or not, those themselves left out."""
        return self.frame.behind(tuple(keys))

    def counts(self, keys: tuple[int, ...]) -> tuple[int, int]:
        """How many could be begun at once if all of ``keys`` were done, and how many come after them; counted once."""
        if len(keys) == 1:
            return self.frame.counts_of(keys[0])
        found = self.frame.counted.get(keys)
        if found is None:
            still = tuple([key for key in keys if key in self._by_key and self._by_key[key].open])
            found = self.frame.counted[keys] = (len(self.freed_by(still)), self.frame.behind(still))
        return found


class _Ties(Enum):
    """How the ties of a graph compare with those of another with the same open work."""

    SAME = "same"
    OTHER_WORDS = "the same work in other words"


def _typed(edge: Edge) -> bool:
    return edge.kind in (Holding.LINK, Holding.WHILE_OFF)
