"""A work graph while it is laid: typed steps first, then what follows from them, each tie with its reason."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from enum import IntEnum

from rebuild.trade.schedule.graph import CLOSED, Edge, Hold, Node, Ref, WorkGraph
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.words.readings import Stage
from rebuild.words.steps import ConstraintKind, TaskKind
from rebuild.words.work_graph import Holding
from rebuild.work.plan.facts import Facts, PartFact, StepFact
from rebuild.work.plan.nodes import derived, linked_by, typed_node

MAKE_STEPS = (TaskKind.MAKE, TaskKind.BUY, TaskKind.REWORK, TaskKind.SEND_OUT)
_NO_NEEDS: frozenset[ConstraintKind] = frozenset()


class Slot(IntEnum):
    """What a derived node is about; with the id of a row it makes the node's key."""

    SHEET = 2
    MATERIAL = 3
    TOOL = 4
    MAKE = 5
    ACCEPT = 6
    ORDER = 7
    DELIVERY = 8
    CHECK = 9
    MEASURE = 10
    DECIDE = 11
    CHOOSE = 12
    LOOK = 13
    WRONG = 14
    HAZARD = 15
    QUESTION = 16
    CLOCK = 17
    PROVE = 18
    FETCH = 19
    FIND = 20
    OFF_AGAIN = 21
    MEANS = 22
    GATE = 23
    PROMISE = 24
    TREAT = 25
    JOINT = 26
    CHECKS = 27
    PUT_BACK = 28


#: Derived work that is shown among decisions and answers: it takes no time at the bench and has no date.
_SAID_ELSEWHERE: frozenset[int] = frozenset((Slot.DECIDE, Slot.QUESTION, Slot.CHOOSE, Slot.WRONG, Slot.GATE))
#: Room for the ids of one slot; the keys just below nothing are the waits that follow a step (``rows_input``).
ROOM = 1_000_000_000_000


def key_of(slot: Slot, row_id: int) -> int:
    """The key of derived work about a row: the same at every laying.

    >>> slot_of(key_of(Slot.MAKE, 7))
    (<Slot.MAKE: 5>, 7)
    """
    return -(slot * ROOM + row_id)


def slot_of(key: int) -> tuple[Slot, int]:
    """What a derived key is about, and the row's id."""
    slot, row_id = divmod(-key, ROOM)
    return Slot(slot), row_id


def said_elsewhere(node: Node) -> bool:
    """Whether it is only to be decided, answered or cleared, and stands in a list of its own."""
    return node.key <= -ROOM and -node.key // ROOM in _SAID_ELSEWHERE


#: Work of a part's making, which is taken over together; deliveries and a sheet's tools go on following.
_OF_A_MAKING = (Slot.SHEET, Slot.MATERIAL, Slot.MAKE, Slot.ACCEPT, Slot.ORDER, Slot.CHECK)
#: Work a typed step of the same part and kind takes the place of.
_ALONE = (Slot.DECIDE, Slot.MEASURE, Slot.HAZARD, Slot.TREAT)


def draws_up(node: Node) -> bool:
    """Whether it is to draw up a making sheet its part has not got yet."""
    return node.ref.table == "part" and node.key <= -ROOM and slot_of(node.key)[0] is Slot.SHEET


def orders(node: Node) -> bool:
    """Whether it is to order its part, of which nothing stands on the list of orders yet."""
    return node.ref.table == "part" and node.key <= -ROOM and slot_of(node.key)[0] is Slot.ORDER


def can_take_over(node: Node) -> bool:
    """Whether derived work can become a typed step."""
    return node.derived and not node.elapsed and slot_of(node.key)[0] in (*_OF_A_MAKING, *_ALONE)


class Laying:
    """Nodes and edges so far, and the facts by what they are asked for."""

    def __init__(self, facts: Facts) -> None:
        self.facts = facts
        self.nodes: dict[int, Node] = {}
        self.edges: list[Edge] = []
        self.making: dict[int, tuple[int, ...]] = {}
        #: Derived cleaning and painting of each part.
        self.treated: dict[int, list[int]] = defaultdict(list)
        #: Parts that are not there as decided: nothing of them is missing or elsewhere yet.
        self.unmade: set[int] = set()
        self.finishing: dict[int, list[Hold]] = defaultdict(list)
        #: Whether anything runs by itself.
        self.runs = False
        self.parts: dict[int, PartFact] = {part.id: part for part in facts.parts}
        self.steps: dict[int, StepFact] = {step.id: step for step in facts.steps}
        self.open_of_part: dict[int, list[StepFact]] = defaultdict(list)
        self.done_of_part: dict[int, list[StepFact]] = defaultdict(list)
        linked = linked_by(facts.links)
        self.after = linked.after
        self.linked = linked
        self.chained: dict[int, list[int]] = defaultdict(list)
        self.puts_on: dict[int, list[int]] = defaultdict(list)
        self.put_on_by: dict[int, list[StepFact]] = defaultdict(list)
        self.measured: dict[int, bool] = dict(facts.read)
        self._index()

    def _index(self) -> None:
        for step_id, part_id in self.facts.puts_on:
            self.puts_on[step_id].append(part_id)
        for step in self.facts.steps:
            if step.part_id is not None:
                done = step.state in CLOSED
                (self.done_of_part if done else self.open_of_part)[step.part_id].append(step)
            if step.kind is TaskKind.REFIT:
                own = [*self.puts_on.get(step.id, ()), *((step.part_id,) if step.part_id else ())]
                for part_id in dict.fromkeys(own):
                    self.put_on_by[part_id].append(step)

    def typed(self, settled: dict[int, str]) -> None:
        """Lay the typed steps and their links; ``settled`` says which have met their purpose, and by what."""
        needs: dict[int, set[ConstraintKind]] = {}
        for need in self.facts.needs:
            needs.setdefault(need.task_id, set()).add(need.kind)
        for step in self.facts.steps:
            mine = needs.get(step.id)
            self.nodes[step.id] = typed_node(
                step, frozenset(mine) if mine else _NO_NEEDS, settled.get(step.id, "")
            )
        self.edges += self.linked.edges

    def beside_links(self) -> list[Edge]:
        """The edges laid so far that are no typed links: those follow from the links, which are laid first."""
        return self.edges[len(self.linked.edges) :]

    def add(
        self,
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
    ) -> int:
        """Lay derived work once; returns its key."""
        if key in self.nodes:
            return key
        return self.put(
            derived(
                key, kind, title, ref, points, part=part, subassembly_id=subassembly_id, elapsed=elapsed,
                assumed=assumed, under_way=under_way, stage=stage,
            )
        )  # fmt: skip

    def put(self, node: Node) -> int:
        """Lay derived work as it is, once; returns its key."""
        if node.key not in self.nodes:
            self.runs = self.runs or node.elapsed
            self.nodes[node.key] = node
        return node.key

    def chain(self, edge: Edge) -> None:
        """Tie what follows something of the same making."""
        self.chained[edge.before].append(edge.after)
        self.edges.append(edge)

    def tie(self, before: int, after: int, kind: Holding, reason: str = "", target: int = 0) -> None:
        """Say that one holds the other."""
        if kind is Holding.CHAIN:
            self.chained[before].append(after)
        if before != after:
            self.edges.append(Edge(before, after, kind, reason, target))

    def is_open(self, key: int) -> bool:
        """Whether a node is there and still to be done."""
        node = self.nodes.get(key)
        return node is not None and node.open

    def step_of(self, part_id: int, kind: TaskKind, before: Sequence[int] = ()) -> int | None:
        """The open typed step that takes the place of derived work of its part and kind.

        Never one that comes after what it would hold (``before``) by the typed links.
        """
        mine = [step.id for step in self.open_of_part.get(part_id, ()) if step.kind is kind]
        found = [key for key in mine if self.is_open(key)]
        behind = self.behind(before) if found and before else frozenset()
        return next((key for key in found if key not in behind), None)

    def behind(self, keys: Sequence[int]) -> frozenset[int]:
        """The keys given and all that comes after them by the typed links."""
        return self.linked.reached_from(keys)

    def close(self, like: WorkGraph | None = None) -> WorkGraph:
        """The graph, answered; ``like`` is the one laid before, whose order stands where the ties are the same."""
        return WorkGraph(
            tuple(self.nodes.values()),
            tuple(self.edges),
            self.making,
            {key: tuple(holds) for key, holds in self.finishing.items()},
            like,
        )
