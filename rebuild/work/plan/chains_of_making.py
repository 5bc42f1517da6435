"""The work to remake, rework or buy one part, one after the other: the same of the same part, sheet and tools."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from rebuild.trade.schedule.graph import Edge, Node, Ref
from rebuild.trade.schedule.usual import (
    ACCEPT,
    DAY,
    DRAW_UP,
    GET_TOOL,
    LEAD,
    MATERIAL,
    MEASURE,
    of_kind,
    spread,
)
from rebuild.words.decisions import Decision
from rebuild.words.making import MakingProgress
from rebuild.words.steps import TaskKind
from rebuild.words.work_graph import Holding
from rebuild.work.plan.facts import PartFact, SheetFact
from rebuild.work.plan.laying import Slot, key_of
from rebuild.work.plan.nodes import derived

#: A sheet that is further has its tools and its material.
BEGUN = (MakingProgress.BEING_MADE, MakingProgress.MADE)


class Chain(NamedTuple):
    """Work that follows one after the other for one part."""

    keys: tuple[int, ...]
    nodes: tuple[Node, ...]
    edges: tuple[Edge, ...]


def _chain(stages: list[list[Node]]) -> Chain:
    """Each stage after the whole of the one before it; what is side by side in one waits for none beside it."""
    stages = [stage for stage in stages if stage]
    nodes = tuple([node for stage in stages for node in stage])
    edges = [
        Edge(before.key, after.key, Holding.CHAIN, f"{before.title} first")
        for earlier, later in pairwise(stages)
        for after in later
        for before in earlier
    ]
    return Chain(tuple([node.key for node in nodes]), nodes, tuple(edges))


@lru_cache(maxsize=10_000)
def made(part: PartFact, sheet: SheetFact | None, tools: tuple[tuple[int, str], ...]) -> Chain:
    """Sheet, material beside tools, make, accept: what is left; the same of the same part, sheet and tools."""
    progress = sheet.progress if sheet is not None else None
    ref = Ref("making_sheet", sheet.id) if sheet is not None else Ref("part", part.id)
    rework = part.decision is Decision.REWORK
    drawn: list[Node] = []
    to_hand: list[Node] = []
    if progress is MakingProgress.DRAFT or (sheet is None and not rework):
        words = f"{'Release' if sheet is not None else 'Draw up'} the making sheet of {part.called}"
        drawn.append(derived(key_of(Slot.SHEET, part.id), TaskKind.DECIDE, words, ref, DRAW_UP, part=part))
    if progress not in BEGUN and not rework and (sheet is None or not sheet.blank_at):
        words = f"Material for {part.called} to hand"
        to_hand.append(derived(key_of(Slot.MATERIAL, part.id), TaskKind.BUY, words, ref, MATERIAL, part=part))
    if sheet is not None:
        to_hand += [tool_ready(part, *tool) for tool in tools]
    shaped = [_shaping(part, ref, under_way=progress is MakingProgress.BEING_MADE)]
    if sheet is not None:
        accept = accepting(part, sheet)
    else:
        words = f"Measure {part.called} as {'reworked' if rework else 'made'} and accept it"
        accept = derived(key_of(Slot.ACCEPT, part.id), TaskKind.INSPECT, words, ref, ACCEPT, part=part)
    return _chain([drawn, to_hand, shaped if progress is not MakingProgress.MADE else [], [accept]])


def _shaping(part: PartFact, ref: Ref, *, under_way: bool) -> Node:
    """To make or rework it: as estimated with the decision, else the usual."""
    kind = TaskKind.REWORK if part.decision is Decision.REWORK else TaskKind.MAKE
    given = spread(None, part.work_min, None)
    return derived(
        key_of(Slot.MAKE, part.id),
        kind,
        f"{kind.value.capitalize()} {part.called}{f': {part.method}' if part.method else ''}",
        ref,
        given if given is not None else of_kind(kind),
        part=part,
        assumed=given is None,
        under_way=under_way,
    )


def tool_ready(part: PartFact, tool: int, words: str) -> Node:
    """To have a tool of a sheet in hand; it is closed on the tool's own row."""
    return derived(
        key_of(Slot.TOOL, tool),
        TaskKind.OTHER,
        f"Get ready for {part.called}: {words}",
        Ref("making_tool", tool),
        GET_TOOL,
        part=part,
    )


def accepting(part: PartFact, sheet: SheetFact) -> Node:
    return derived(
        key_of(Slot.ACCEPT, part.id),
        TaskKind.INSPECT,
        f"Measure and accept {part.called} by its making sheet",
        Ref("making_sheet", sheet.id),
        ACCEPT,
        part=part,
    )


@lru_cache(maxsize=10_000)
def bought(part: PartFact, order: int | None) -> Chain:
    """To look for it or order it (on the ``order`` listed for it), its delivery, and its check."""
    ref = Ref("part", part.id)
    ordering = ref if order is None else Ref("waiting", order)
    days = part.wait_days
    lead = spread(None, days * DAY, None) if days is not None else None
    return _chain([
        [derived(key_of(Slot.ORDER, part.id), TaskKind.BUY,
                 f"Look whether {part.called} is there already, else order it", ordering, of_kind(TaskKind.BUY),
                 part=part)],
        [derived(key_of(Slot.DELIVERY, part.id), TaskKind.BUY, f"{part.called} to arrive", ref,
                 lead or LEAD[TaskKind.BUY], part=part, elapsed=True, assumed=lead is None)],
        [derived(key_of(Slot.CHECK, part.id), TaskKind.INSPECT, f"Check {part.called} as it arrived", ref, MEASURE,
                 part=part)],
    ])  # fmt: skip
