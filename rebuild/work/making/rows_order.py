"""In which order to make things: master before follower across all open fits, and what each waits for."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import StrEnum

from sqlalchemy import Connection

from rebuild.trade.schedule.graph import Hold, Node, PartWork
from rebuild.trade.schedule.network import ordered
from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.words.steps import TaskKind
from rebuild.words.work_graph import Holding
from rebuild.work.plan import rows_graph
from rebuild.work.plan.facts import FitFact
from rebuild.work.plan.making_of_parts import TO_MAKE
from rebuild.work.plan.rows_graph import Work, work_graph
from rebuild.work.plan.rows_input import rank_of

#: The tables the lookups here ask.
READS = rows_graph.READS


class NeedKind(StrEnum):
    """What something to be made waits for."""

    MAKE = "make first"
    MEASURE = "measure first"
    DECIDE = "decide first"
    CHOOSE = "choose the master"
    STEP = "step first"


@dataclass(frozen=True, slots=True)
class Need:
    """One thing a part waits for: a part to be made, a measurement (feature and stage), a decision, a step."""

    kind: NeedKind
    fit_id: int
    fit: str
    part_id: int
    feature_id: int
    title: str
    stage: Stage | None
    sentence: str


@dataclass(frozen=True, slots=True)
class MakeRow:
    """A part to be made, reworked or bought. ``loop`` spells out the loop it is in.

    ``tonight`` is the graph's own answer whether it may be begun now, ``first`` with what.
    """

    part_id: int
    title: str
    decision: Decision
    method: str
    needs: tuple[Need, ...]
    frees: tuple[str, ...]
    minutes: float
    tonight: bool
    first: str = ""
    loop: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ToMeasure:
    """A measurement that something waits for, and what."""

    part_id: int
    feature_id: int
    title: str
    stage: Stage | None
    now: bool
    waiting: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class MakingOrder:
    """What is still to be made, master before follower."""

    rows: tuple[MakeRow, ...]
    measurements: tuple[ToMeasure, ...]
    loops: tuple[tuple[str, ...], ...]

    @property
    def tonight(self) -> tuple[MakeRow, ...]:
        """What may be started now."""
        return tuple(row for row in self.rows if row.tonight)


def making_order(connection: Connection, machine_id: int, now: dt.datetime | None = None) -> MakingOrder:
    """The order of making of a machine."""
    return order_of(work_graph(connection, machine_id, now))


def order_of(work: Work) -> MakingOrder:
    """The order of making of some work: by how many masters deep a part lies, then by rank."""
    parts = {part.id: part for part in work.facts.parts}
    making = {one.part_id: one for one in work.graph.parts_to_make() if not one.runs}
    owner = {node.key: part_id for part_id, one in making.items() for node in one.own}
    needs = {part_id: _needs(work, one, owner) for part_id, one in making.items()}
    loops = [_parts_round(work, loop) for loop in work.graph.loops]
    edges = [(need.part_id, key) for key, found in needs.items() for need in found if need.part_id in making]
    cut = {(loop[-2], loop[-1]) for loop in loops if len(loop) > 1}
    rank = rank_of(work)
    depth = _depths([pair for pair in dict.fromkeys(edges) if pair not in cut], making)
    found = tuple(
        MakeRow(
            key,
            parts[key].called,
            parts[key].decision,
            parts[key].method or "",
            () if making[key].ready else needs[key],
            tuple(parts[after].called for before, after in dict.fromkeys(edges) if before == key),
            rank.gain_of_part(key).work_min,
            making[key].ready,
            making[key].first[0].title if making[key].ready else "",
            next((tuple(parts[k].called for k in loop) for loop in loops if key in loop), ()),
        )
        for key in sorted(making, key=lambda key: (depth[key], rank.place_of_part(key)))
    )
    return MakingOrder(
        found, _measurements(found), tuple(tuple(parts[key].called for key in loop) for loop in loops)
    )


def _parts_round(work: Work, loop: tuple[int, ...]) -> tuple[int, ...]:
    """A loop of work as the parts it goes through, the first again at the end."""
    found: list[int] = []
    for key in loop:
        node = work.graph.node(key)
        if node is not None and node.part_id is not None and node.part_id not in found[-1:]:
            found.append(node.part_id)
    return (*found, found[0]) if found and found[0] != found[-1] else tuple(found)


def _needs(work: Work, making: PartWork, owner: dict[int, int]) -> tuple[Need, ...]:
    """What a part waits for, told by what it hangs on in the end: a master, a decision, a step."""
    fits = {fit.id: fit for fit in work.facts.fits}
    own = {node.key for node in making.own}
    holds = (hold for node in making.own for hold in work.graph.held_by(node.key) if hold.key not in own)
    found: dict[str, Need] = {}
    for hold in holds:
        need = _need(work, hold, fits, owner)
        found.setdefault(need.sentence, need)
    return tuple(found.values())


def _need(work: Work, hold: Hold, fits: dict[int, FitFact], owner: dict[int, int]) -> Need:
    node = work.graph.node(hold.key)
    assert node is not None
    fit = fits.get(hold.target) if hold.kind in (Holding.MASTER, Holding.CHOOSE) else None
    if fit is None:
        part_id = owner.get(hold.key, 0)
        return Need(NeedKind.STEP, 0, "", part_id, 0, hold.title, None, hold.sentence)
    if hold.kind is Holding.CHOOSE:
        return Need(NeedKind.CHOOSE, fit.id, fit.title, 0, 0, fit.title, None, hold.sentence)
    wait = fit.sides[fit.master or 0].wait
    assert wait is not None
    return Need(
        _kind(fit, node),
        fit.id,
        fit.title,
        wait.part_id,
        wait.feature_id,
        wait.title,
        wait.stage,
        wait.sentence,
    )


def _kind(fit: FitFact, node: Node) -> NeedKind:
    if fit.sides[fit.master or 0].decision in TO_MAKE:
        return NeedKind.MAKE
    return NeedKind.DECIDE if node.kind is TaskKind.DECIDE else NeedKind.MEASURE


def _depths(edges: list[tuple[int, int]], parts: dict[int, PartWork]) -> dict[int, int]:
    before: dict[int, list[int]] = {}
    for first, after in edges:
        before.setdefault(after, []).append(first)
    depth: dict[int, int] = {}
    for key in ordered(edges, parts):
        depth[key] = max((depth[one] + 1 for one in before.get(key, ())), default=0)
    return depth


def _measurements(made: tuple[MakeRow, ...]) -> tuple[ToMeasure, ...]:
    waiting: dict[tuple[int, int, Stage | None], list[str]] = {}
    needs: dict[tuple[int, int, Stage | None], Need] = {}
    for row in made:
        for need in row.needs:
            if need.kind in (NeedKind.MAKE, NeedKind.MEASURE):
                key = (need.part_id, need.feature_id, need.stage)
                needs[key] = need
                waiting.setdefault(key, []).append(row.title)
    return tuple(
        ToMeasure(
            *key[:2], need.title, key[2], need.kind is NeedKind.MEASURE, tuple(dict.fromkeys(waiting[key]))
        )
        for key, need in needs.items()
    )
