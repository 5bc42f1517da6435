"""What next: work that can be done now, what waits on what, which part to make next and why, all from the graph."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import NamedTuple

from sqlalchemy import Connection

from rebuild.trade.results.working import Sheet, Source, Status, Working
from rebuild.trade.schedule.graph import Hold, Node, PartWork, WorkGraph
from rebuild.trade.schedule.plan import savings
from rebuild.trade.schedule.rank import Gain
from rebuild.trade.schedule.unswept import unswept
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.words.counted import counted
from rebuild.words.decisions import Decision
from rebuild.work.plan import rows_graph
from rebuild.work.plan.facts import PartFact
from rebuild.work.plan.next_up import next_up
from rebuild.work.plan.rows_graph import Work, work_graph
from rebuild.work.plan.rows_input import critical_shares_of, draw, is_to_be_drawn, planned, rank_of
from rebuild.work.records.field import show_day

#: The tables the lookups here ask.
READS = rows_graph.READS

_DRAWN = Source("three-point durations drawn 200 times, hands aside", "schedule simulation", Status.COMPUTED)
_RULE = Source(
    "rank by whether it can be begun, days the finish comes nearer, steps freed at once, held up in all, least work",
    status=Status.JUDGEMENT,
)


@dataclass(frozen=True, slots=True)
class Candidate:
    """A part to remake, rework or buy next: what it frees at once and holds up in all.

    ``first`` is what can be begun of it now.
    """

    part_id: int
    code: str
    name: str
    decision: Decision
    reason: str
    first: tuple[Node, ...]
    freed: tuple[str, ...]
    held_up: int
    minutes: float
    wait_min: float
    startable: bool
    holds: tuple[Hold, ...]
    gain: Gain

    @property
    def sentence(self) -> str:
        """Why it stands where it does, and what to begin with: put into words when asked."""
        return _sentence(self.first, self.holds, self.gain)

    @property
    def waits_for(self) -> tuple[str, ...]:
        """What it waits for, in words."""
        return tuple(hold.title for hold in self.holds)


class Waits(NamedTuple):
    """Open work that cannot be begun, and what holds it. Made by thousands."""

    node: Node
    graph: WorkGraph

    @property
    def holds(self) -> tuple[Hold, ...]:
        """What must come before it, put into words when asked: of thousands that wait few are looked at."""
        return self.graph.held_by(self.node.key)

    @property
    def title(self) -> str:
        """What the work is called."""
        return self.node.title


@dataclass(frozen=True, slots=True)
class WhatNext:
    """The state of the work of one machine. ``now`` leaves out what is only to be decided or answered."""

    now: tuple[Node, ...]
    waiting: tuple[Waits, ...]
    candidates: tuple[Candidate, ...]
    undecided: tuple[tuple[int, str], ...]
    questions: tuple[tuple[int, str], ...]


def what_next(connection: Connection, machine_id: int, now: dt.datetime | None = None) -> WhatNext:
    """Read the graph and say what comes next."""
    return next_of(work_graph(connection, machine_id, now))


def next_of(work: Work) -> WhatNext:
    """What comes next of some work, worked out once, and once more when its schedules are drawn."""
    if not is_to_be_drawn(work):
        draw(work)
    kept = work.told.get(bool(work.drawn))
    if isinstance(kept, WhatNext):
        return kept
    with unswept():
        found = _next_of(work)
    work.told[bool(work.drawn)] = found
    return found


def _next_of(work: Work) -> WhatNext:
    graph = work.graph
    return WhatNext(
        next_up(work),
        tuple([Waits(node, graph) for node in graph.held()]),
        candidates(work),
        undecided(work),
        tuple((key, text) for key, step_id, text in work.facts.questions if _is_open(work, step_id)),
    )


def _is_open(work: Work, step_id: int) -> bool:
    node = work.graph.node(step_id)
    return node is not None and node.open


def undecided(work: Work) -> tuple[tuple[int, str], ...]:
    """Parts with readings and no decision yet."""
    read = {part_id for part_id, _ in work.facts.read}
    return tuple(
        (part.id, part.called)
        for part in work.facts.parts
        if part.decision is Decision.OPEN and part.id in read
    )


def candidates(work: Work) -> tuple[Candidate, ...]:
    """Every part still to be made, reworked or brought, the most useful first."""
    parts = {part.id: part for part in work.facts.parts}
    making = (one for one in work.graph.parts_to_make() if not one.runs)
    found = [_candidate(work, parts[one.part_id], one) for one in making]
    places = {part_id: place for place, part_id in enumerate(rank_of(work).parts)}
    return tuple(sorted(found, key=lambda candidate: places.get(candidate.part_id, len(places))))


def why_next(
    connection: Connection, machine_id: int, part_id: int, now: dt.datetime | None = None
) -> Working | None:
    """How a part's place in the order is worked out, and the date of the finish with and without its work.

    None when nothing of the part is still to be made, reworked or brought.
    """
    work = work_graph(connection, machine_id, now)
    making = work.graph.of_part(part_id)
    part = next((part for part in work.facts.parts if part.id == part_id), None)
    return None if making is None or part is None else _working(work, part, making)


def _candidate(work: Work, part: PartFact, making: PartWork) -> Candidate:
    gain = _gain(work, making)
    return Candidate(
        part.id,
        part.code,
        part.name,
        part.decision,
        part.reason,
        making.first,
        _freed(work, making),
        gain.behind,
        gain.work_min,
        gain.wait_min,
        making.ready,
        making.holds,
        gain,
    )


def _freed(work: Work, making: PartWork) -> tuple[str, ...]:
    return tuple(node.title for node in work.graph.freed_by([node.key for node in making.own]))


def _gain(work: Work, making: PartWork) -> Gain:
    drawn = critical_shares_of(work)
    chance = max((drawn[node.key] for node in making.own if node.key in drawn), default=None)
    return rank_of(work).gain_of_part(making.part_id)._replace(chance=chance)


def _sentence(first: tuple[Node, ...], holds: tuple[Hold, ...], gain: Gain) -> str:
    start = f"Begin with “{first[0].title}”" if first else f"Not yet: {holds[0].sentence}"
    return f"{start}; {gain.reason}."


def _working(work: Work, part: PartFact, making: PartWork) -> Working:
    gain, freed = _gain(work, making), _freed(work, making)
    sheet = Sheet(f"Why {part.called} next")
    sheet.read(
        "still to be done for it",
        "; ".join(
            f"{node.title}{' (follows from the decision)' if node.derived else ''}" for node in making.own
        ),
    )
    sheet.equation("the finish comes nearer by", f"{gain.days:.1f} days on the longest way, hands aside")
    if gain.chance is not None:
        sheet.equation("drives the finish in", f"{gain.chance * 100:.0f} of 100 schedules drawn", _DRAWN)
    sheet.equation("freed at once", f"{len(freed)}: " + ("; ".join(freed) or "none"))
    sheet.equation("held up in all, directly or not", counted(gain.behind, "step"))
    assumed = sum(node.assumed for node in making.own)
    sheet.read(
        "likely work", show_minutes(gain.work_min) + (f", {assumed} of its times assumed" if assumed else "")
    )
    if making.holds:
        sheet.note("must itself wait for: " + "; ".join(hold.sentence for hold in making.holds))
    for saving in savings(planned(work), work.since, [part.id]):
        sheet.equation("finish as planned", f"{show_day(saving.finish)}, one pair of hands, the owner's week")
        sheet.equation("finish if it were ready today", f"{show_day(saving.sooner)}")
    sheet.note(_sentence(making.first, making.holds, gain))
    sheet.result(
        "rank",
        f"{gain.days:.1f} days, {len(freed)} freed, {gain.behind} held up, {show_minutes(gain.work_min)}",
        _RULE,
    )
    return sheet.close()
