"""The work graph of one machine: what can be started, what holds the rest, in which order, and what hangs on what.

Nodes are steps as typed, and work that follows from what is known (``derived``). This is the one place that
says whether something is ready: every list, date and refusal asks it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple

from rebuild.trade.schedule.in_order import in_order
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
    of ``links`` (the derived one of a loop first), and named in ``loops``; they hold all the same.

    >>> graph = WorkGraph((), ())
    >>> graph.ready
    ()
    """

    nodes: tuple[Node, ...]
    edges: tuple[Edge, ...]
    making: Mapping[int, tuple[int, ...]] = field(default_factory=dict)
    finishing: Mapping[int, tuple[Hold, ...]] = field(default_factory=dict)
    loops: tuple[tuple[int, ...], ...] = field(init=False)
    links: tuple[tuple[int, int], ...] = field(init=False)
    order: tuple[int, ...] = field(init=False)
    ready: tuple[Node, ...] = field(init=False)
    _by_key: dict[int, Node] = field(init=False)
    _held: dict[int, list[Edge]] = field(init=False)
    _after: Mapping[int, list[int]] = field(init=False)
    _waits: Mapping[int, int] = field(init=False)
    _places: dict[int, int] = field(init=False)
    _below: dict[int, int] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self._by_key = {node.key: node for node in self.nodes}
        still_open = {node.key for node in self.nodes if node.open}
        self._held = {}
        for edge in self.edges:
            if edge.before in still_open and edge.after in self._by_key:
                self._held.setdefault(edge.after, []).append(edge)
        self.ready = tuple(
            node
            for node in self.nodes
            if node.key in still_open and node.key not in self._held and not node.runs
        )
        pairs = dict.fromkeys(
            (edge.before, after)
            for after, found in self._held.items()
            if after in still_open
            for edge in found
        )
        laid = in_order((node.key for node in self.nodes if node.key in still_open), pairs, self._cut)
        self.loops, self.order = laid.loops, laid.order
        self.links = tuple(pair for pair in pairs if pair not in laid.cut) if laid.cut else tuple(pairs)
        self._after, self._waits = laid.after, laid.waits
        self._places = {key: place for place, key in enumerate(laid.order)}

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

    def freed_by(self, done: Collection[int]) -> tuple[Node, ...]:
        """What could be begun at once if ``done`` were done, or sets off by itself then, and cannot before."""
        if len(done) == 1:
            (only,) = done
            return tuple(self._by_key[key] for key in self._after.get(only, ()) if self._waits[key] == 1)
        gone = set(done)
        seen = dict.fromkeys(after for key in done for after in self._after.get(key, ()) if after not in gone)
        return tuple(
            self._by_key[key] for key in seen if all(edge.before in gone for edge in self._held[key])
        )

    def behind(self, keys: Iterable[int]) -> int:
        """How many open nodes come after any of ``keys``, directly or not, those themselves left out."""
        keys = tuple(keys)
        if not self._below and self.order:
            self._reach()
        if len(keys) == 1:
            return self._below.get(keys[0], 0).bit_count()
        mask, own = 0, 0
        for key in keys:
            if (place := self._places.get(key)) is not None:
                mask |= self._below[key]
                own |= 1 << place
        return (mask & ~own).bit_count()

    def _reach(self) -> None:
        """What lies behind each node as one bit a node: a union of what follows it."""
        places = self._places
        for key in reversed(self.order):
            mask = 0
            for after in self._after.get(key, ()):
                mask |= self._below[after] | 1 << places[after]
            self._below[key] = mask


def _typed(edge: Edge) -> bool:
    return edge.kind in (Holding.LINK, Holding.WHILE_OFF)
