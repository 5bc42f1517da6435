"""The lines of the plan's one list: every open step, part to be had and question, with why and what holds it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from rebuild.trade.schedule.graph import Hold, Node
from rebuild.trade.schedule.rank import LEAST_DAYS, Gain
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.window.ink.shapes import Shape, shape_for
from rebuild.words.work_graph import Holding
from rebuild.work.plan.next_up import why
from rebuild.work.plan.rows_graph import Work
from rebuild.work.plan.rows_input import rank_of
from rebuild.work.plan.rows_what_next import Candidate, WhatNext, next_of


class Sort(Enum):
    """Which lines: the value is the word of the filter."""

    NOW = "can be done now"
    HELD = "held up"
    PARTS = "parts to make, rework or buy"
    ASKED = "to decide or answer"


@dataclass(frozen=True, slots=True)
class Listed:
    """One line; ``sentence`` is why it stands where it does. ``goes_to`` is its step, part or question."""

    sort: Sort
    shape: Shape
    what: str
    part: str
    time: str
    unblocks: str
    days: str
    held_by: str
    sentence: str
    goes_to: Node | Candidate | tuple[str, int]

    @property
    def key(self) -> tuple[str, int]:
        """What makes it the same line when the list is read again."""
        if isinstance(self.goes_to, Node):
            return "step", self.goes_to.key
        if isinstance(self.goes_to, Candidate):
            return "had", self.goes_to.part_id
        return self.goes_to

    @property
    def cells(self) -> tuple[str, ...]:
        """What stands in the columns."""
        return self.what, self.part, self.time, self.unblocks, self.days, self.held_by


def listed(work: Work, own: Node | None = None) -> list[Listed]:
    """The lines, in the order of the rank: what can be begun, what is to be decided, parts, and what is held up.

    ``own`` is what the owner meant to go on with: it stands first, and says so.
    """
    found = next_of(work)
    parts = {part.id: part.called for part in work.facts.parts}
    now = sorted(found.now, key=lambda node: own is None or node.key != own.key)
    return [
        *(_step(work, node, parts, (), own) for node in now),
        *_asked(found),
        *(_part(one) for one in found.candidates),
        *(_step(work, one.node, parts, one.holds) for one in found.waiting),
    ]


def _step(
    work: Work, node: Node, parts: dict[int, str], holds: tuple[Hold, ...], own: Node | None = None
) -> Listed:
    gain = rank_of(work).gain(node.key)
    reasons = [_held_by(hold) for hold in holds]
    said = why(work, node, own)
    sentence = (
        f"{said[:1].upper()}{said[1:]}."
        if not reasons
        else f"Not yet: {_some_of(reasons)}. Then it {_then(said)}."
    )
    return Listed(
        Sort.HELD if holds else Sort.NOW,
        Shape.WAITS if holds else shape_for(node.state),
        node.title,
        parts.get(node.part_id, "") if node.part_id is not None else "",
        show_minutes(node.points.likely) + (" (assumed)" if node.assumed else ""),
        str(gain.freed),
        _days(gain),
        _first_of(reasons),
        sentence,
        node,
    )


def _then(said: str) -> str:
    return said if said.startswith(("brings", "lies", "unblocks")) else f"goes on: {said}"


def _part(candidate: Candidate) -> Listed:
    reason = f"{candidate.decision.value}: {candidate.reason}. " if candidate.reason else ""
    return Listed(
        Sort.PARTS,
        shape_for(candidate.decision),
        f"{candidate.decision.value} {candidate.name}",
        f"{candidate.code} {candidate.name}".strip(),
        show_minutes(candidate.minutes) if candidate.minutes else "",
        str(len(candidate.freed)),
        "",
        _held_by(candidate.holds[0]) if candidate.holds else "",
        f"{reason}{candidate.sentence}",
        candidate,
    )


def _asked(found: WhatNext) -> list[Listed]:
    decide = [
        Listed(Sort.ASKED, Shape.OPEN, "decide on it", name, "", "", "", "",
               f"{name} is measured and nothing is decided about it.", ("part", part_id))
        for part_id, name in found.undecided
    ]  # fmt: skip
    answer = [
        Listed(Sort.ASKED, Shape.ASKED, text, "", "", "", "", "",
               "An open step waits for the answer.", ("question", key))
        for key, text in found.questions
    ]  # fmt: skip
    return [*decide, *answer]


def _days(gain: Gain) -> str:
    return f"{gain.days:.1f}" if gain.days >= LEAST_DAYS else ""


def _held_by(hold: Hold) -> str:
    """A step that comes first by its name alone; anything else as a sentence."""
    return hold.title if hold.kind in (Holding.LINK, Holding.WHILE_OFF) else hold.sentence


#: So many holds are said in the sentence; the rest are counted.
_SAID = 6


def _some_of(reasons: list[str]) -> str:
    more = f"; and {len(reasons) - _SAID} more" if len(reasons) > _SAID else ""
    return "; ".join(reasons[:_SAID]) + more


def _first_of(reasons: list[str]) -> str:
    more = f" and {len(reasons) - 1} more" if len(reasons) > 1 else ""
    return f"{reasons[0]}{more}" if reasons else ""
