"""What follows from a decision: the work to remake, rework or buy a part, as far as it is not done yet."""

from __future__ import annotations

import re
from collections import defaultdict

from rebuild.trade.schedule.graph import CLOSED, Ref
from rebuild.trade.schedule.usual import MEASURE
from rebuild.words.decisions import Decision
from rebuild.words.making import MakingProgress
from rebuild.words.parts import Origin
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.waiting import WaitingKind
from rebuild.words.work_graph import Holding
from rebuild.work.plan.chains_of_making import BEGUN, Chain, accepting, bought, made, tool_ready
from rebuild.work.plan.facts import Facts, OrderFact, PartFact, SheetFact
from rebuild.work.plan.laying import MAKE_STEPS, Laying, Slot, key_of
from rebuild.work.records.field import show_day

#: Sizes in a sheet's words, which only the sheet itself fills in.
_FILLED_LATER = re.compile(r"\{(.*?)\}")
TO_MAKE = (Decision.REMAKE, Decision.REWORK, Decision.BUY)
_THERE = (Origin.REMADE, Origin.BOUGHT, Origin.DONOR)


def settled(facts: Facts) -> dict[int, str]:
    """Typed steps whose purpose was met without a tick: a buying step once ordered, a making step once accepted."""
    found: dict[int, str] = {}
    bought: dict[tuple[int, TaskKind], OrderFact] = {}
    for order in facts.orders:
        if order.ordered_at is None:
            continue
        kind = TaskKind.SEND_OUT if order.kind is WaitingKind.SENT_OUT else TaskKind.BUY
        if order.task_id is not None:
            found[order.task_id] = _ordered(order)
        elif order.part_id is not None:
            bought[(order.part_id, kind)] = order
    accepted = {sheet.part_id: sheet.progress is MakingProgress.ACCEPTED for sheet in _newest_sheets(facts)}
    for step in facts.steps if bought or any(accepted.values()) else ():
        if step.state in CLOSED or step.part_id is None:
            continue
        if (order_of := bought.get((step.part_id, step.kind))) is not None:
            found.setdefault(step.id, _ordered(order_of))
        if step.kind in (TaskKind.MAKE, TaskKind.REWORK) and accepted.get(step.part_id):
            found.setdefault(step.id, "its making sheet is accepted")
    if not found:
        return found
    kinds = {step.id: step.kind for step in facts.steps}
    return {key: words for key, words in found.items() if kinds.get(key) in MAKE_STEPS}


def _ordered(order: OrderFact) -> str:
    word = "sent out" if order.kind is WaitingKind.SENT_OUT else "ordered"
    return f"{word} {show_day(order.ordered_at)}" if order.ordered_at is not None else word


def _newest_sheets(facts: Facts) -> list[SheetFact]:
    """The newest sheet of each part that was not scrapped."""
    newest = {s.part_id: s for s in facts.sheets if s.progress is not MakingProgress.SCRAPPED}
    return list(newest.values())


class Makings:
    """Lays the making of every part decided, and ties what puts the part on to it."""

    def __init__(self, laying: Laying) -> None:
        self._laying = laying
        self._sheets = {sheet.part_id: sheet for sheet in _newest_sheets(laying.facts)}
        self._typed: dict[int, tuple[int, ...]] = {}
        self._tools: dict[int, list[int]] = defaultdict(list)
        self._tool_words: dict[int, str] = {}
        for tool in laying.facts.tools:
            self._tools[tool.sheet_id].append(tool.id)
            self._tool_words[tool.id] = _FILLED_LATER.sub(r"\1", tool.what)
        self._orders: dict[int, list[OrderFact]] = defaultdict(list)
        for order in laying.facts.orders:
            if order.part_id is not None:
                self._orders[order.part_id].append(order)
        self._not_final = {
            side.part_id for fit in laying.facts.fits for side in fit.sides if side.wait is not None
        }

    def lay(self) -> None:
        """Every part still to be made, reworked or brought."""
        for part in self._laying.facts.parts:
            if part.decision not in TO_MAKE:
                continue
            if not self.is_made(part):
                own = self._of(part)
                self._laying.making[part.id] = own
                self._laying.unmade.add(part.id)
                self._hold_what_puts_it_on(part, own)
            elif left := self._typed_making(part.id):
                self._laying.making[part.id] = left

    def is_made(self, part: PartFact) -> bool:
        """Whether anything shows that a part is there as decided.

        Where it came from; its sheet; its making steps; an order that arrived and was checked; readings of it as made.
        """
        if part.origin in _THERE:
            return True
        if (sheet := self._sheets.get(part.id)) is not None:
            return sheet.progress is MakingProgress.ACCEPTED
        if not self._typed_making(part.id) and any(
            step.kind in MAKE_STEPS and step.state is TaskState.DONE
            for step in self._laying.done_of_part.get(part.id, ())
        ):
            return True
        arrived = [order for order in self._orders.get(part.id, ()) if order.arrived_at is not None]
        if any(order.inspected_at is not None for order in arrived):
            return True
        return self._laying.measured.get(part.id, False) and part.id not in self._not_final

    def _typed_making(self, part_id: int) -> tuple[int, ...]:
        """Its open typed steps of making; asked several times of a part, and the same at each."""
        found = self._typed.get(part_id)
        if found is None:
            steps = self._laying.open_of_part.get(part_id, ())
            found = self._typed[part_id] = tuple(
                [step.id for step in steps if step.kind in MAKE_STEPS and self._laying.is_open(step.id)]
            )
        return found

    def _of(self, part: PartFact) -> tuple[int, ...]:
        if typed := self._typed_making(part.id):
            return (*typed, *self._about_the_sheet(part, typed))
        if any(o.ordered_at is not None or o.arrived_at is not None for o in self._orders.get(part.id, ())):
            return self._coming(part)
        if part.decision is Decision.BUY:
            listed = self._orders.get(part.id, ())
            return self._lay_chain(bought(part, listed[-1].id if listed else None))
        sheet = self._sheets.get(part.id)
        tools = self._wanting(sheet) if sheet is not None else ()
        return self._lay_chain(made(part, sheet, tools))

    def _lay_chain(self, chain: Chain) -> tuple[int, ...]:
        for node in chain.nodes:
            self._laying.put(node)
        for edge in chain.edges:
            self._laying.chain(edge)
        return chain.keys

    def _title(self, key: int) -> str:
        return self._laying.nodes[key].title

    def _about_the_sheet(self, part: PartFact, typed: tuple[int, ...]) -> tuple[int, ...]:
        """Typed making steps stand; a sheet beside them still wants its tools before and its acceptance after."""
        sheet = self._sheets.get(part.id)
        if sheet is None:
            return ()
        shaping = [key for key in typed if self._laying.nodes[key].kind in (TaskKind.MAKE, TaskKind.REWORK)]
        tools = self._missing_tools(part, sheet)
        accept = self._laying.step_of(part.id, TaskKind.INSPECT, ()) or self._accept(part, sheet)
        for key in shaping:
            for tool in tools:
                self._laying.tie(tool, key, Holding.CHAIN, f"{self._title(tool)} first")
            self._laying.tie(key, accept, Holding.CHAIN, f"{self._title(key)} first")
        return (*tools, *((accept,) if accept < 0 else ()))

    def _wanting(self, sheet: SheetFact) -> tuple[tuple[int, str], ...]:
        """The tools of a sheet that are not in hand, while it is not begun."""
        if sheet.progress in BEGUN:
            return ()
        return tuple([(tool, self._tool_words[tool]) for tool in self._tools.get(sheet.id, ())])

    def _missing_tools(self, part: PartFact, sheet: SheetFact) -> list[int]:
        return [self._laying.put(tool_ready(part, *tool)) for tool in self._wanting(sheet)]

    def _accept(self, part: PartFact, sheet: SheetFact) -> int:
        return self._laying.put(accepting(part, sheet))

    def _coming(self, part: PartFact) -> tuple[int, ...]:
        """What is ordered or sent out already only has to arrive and be checked; what arrived, to be checked."""
        arrived = [order for order in self._orders[part.id] if order.arrived_at is not None]
        check = self._laying.add(
            key_of(Slot.CHECK, part.id),
            TaskKind.INSPECT,
            f"Check {part.called} as it arrived",
            Ref("waiting", arrived[-1].id) if arrived else Ref("part", part.id),
            MEASURE,
            part=part,
        )
        keys = [
            key_of(Slot.DELIVERY, ORDERS + order.id)
            for order in self._orders[part.id]
            if order.ordered_at is not None and order.arrived_at is None
        ]
        for key in keys:
            self._laying.tie(key, check, Holding.CHAIN, f"{part.called} is not there yet")
        return (*keys, check)

    def _hold_what_puts_it_on(self, part: PartFact, own: tuple[int, ...]) -> None:
        last = _last(own, self._laying)
        for step in self._laying.put_on_by.get(part.id, ()):
            for key in last:
                self._laying.tie(
                    key,
                    step.id,
                    Holding.MAKING,
                    self._not_yet(part),
                    part.id,
                )

    def _not_yet(self, part: PartFact) -> str:
        if any(order.arrived_at is not None for order in self._orders.get(part.id, ())):
            return f"{part.called} arrived and is not checked yet"
        return f"{part.called} is decided {part.decision.value} and not made yet"


#: Deliveries of known orders are keyed above those that only follow from a decision to buy.
ORDERS = 500_000_000_000


def _last(own: tuple[int, ...], laying: Laying) -> list[int]:
    """The nodes of a making that nothing else of it follows."""
    keys = set(own)
    return [
        key
        for key in own
        if keys.isdisjoint(laying.after.get(key, ())) and keys.isdisjoint(laying.chained.get(key, ()))
    ]
