"""The lines of the plan's one list: every open step, part to be had and question, with why and what holds it."""

from __future__ import annotations

from enum import Enum
from functools import lru_cache
from typing import NamedTuple

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


class Listed(NamedTuple):
    """One line, made by thousands. ``goes_to`` is its step, part or question; ``asked`` what is said of a question;
    ``own`` the step the owner meant to go on with.
    """

    sort: Sort
    shape: Shape
    what: str
    part: str
    time: str
    unblocks: str
    days: str
    held_by: str
    goes_to: Node | Candidate | tuple[str, int]
    work: Work
    asked: str = ""
    own: Node | None = None

    @property
    def sentence(self) -> str:
        """Why it stands where it does: put into words for the line that is looked at."""
        if isinstance(self.goes_to, Node):
            return _why(self.work, self.goes_to, self.own)
        if isinstance(self.goes_to, Candidate):
            reason = f"{self.goes_to.decision.value}: {self.goes_to.reason}. " if self.goes_to.reason else ""
            return f"{reason}{self.goes_to.sentence}"
        return self.asked

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
    waiting = [one.node for one in found.waiting]
    return [
        *[_step(work, node, parts, own) for node in now],
        *_asked(work, found),
        *[_part(work, one) for one in found.candidates],
        *[_step(work, node, parts) for node in waiting],
    ]


def _step(work: Work, node: Node, parts: dict[int, str], own: Node | None = None) -> Listed:
    gain = rank_of(work).gain(node.key)
    held = work.graph.first_held_by(node.key)
    return Listed(
        Sort.HELD if held else Sort.NOW,
        Shape.WAITS if held else shape_for(node.state),
        node.title,
        parts.get(node.part_id, "") if node.part_id is not None else "",
        _minutes(node.points.likely) + (" (assumed)" if node.assumed else ""),
        str(gain.freed),
        _days(gain),
        _first_of(*held) if held else "",
        node,
        work,
        own=own,
    )


def _why(work: Work, node: Node, own: Node | None) -> str:
    said = why(work, node, own)
    reasons = [_held_by(hold) for hold in work.graph.held_by(node.key)]
    if not reasons:
        return f"{said[:1].upper()}{said[1:]}."
    return f"Not yet: {_some_of(reasons)}. Then it {_then(said)}."


@lru_cache(maxsize=2_000)
def _minutes(minutes: float) -> str:
    return show_minutes(minutes)


def _then(said: str) -> str:
    return said if said.startswith(("brings", "lies", "unblocks")) else f"goes on: {said}"


def _part(work: Work, candidate: Candidate) -> Listed:
    return Listed(
        Sort.PARTS,
        shape_for(candidate.decision),
        f"{candidate.decision.value} {candidate.name}",
        f"{candidate.code} {candidate.name}".strip(),
        show_minutes(candidate.minutes) if candidate.minutes else "",
        str(len(candidate.freed)),
        "",
        _held_by(candidate.holds[0]) if candidate.holds else "",
        candidate,
        work,
    )


def _asked(work: Work, found: WhatNext) -> list[Listed]:
    decide = [
        Listed(Sort.ASKED, Shape.OPEN, "decide on it", name, "", "", "", "", ("part", part_id), work,
               f"{name} is measured and nothing is decided about it.")
        for part_id, name in found.undecided
    ]  # fmt: skip
    answer = [
        Listed(Sort.ASKED, Shape.ASKED, text, "", "", "", "", "", ("question", key), work,
               "An open step waits for the answer.")
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


def _first_of(first: Hold, many: int) -> str:
    return f"{_held_by(first)} and {many - 1} more" if many > 1 else _held_by(first)
