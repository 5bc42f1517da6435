"""What is offered next: the owner's own next before the rank, why, and what drives the finish."""

from __future__ import annotations

import re

from rebuild.trade.schedule.graph import Node, Ref
from rebuild.trade.schedule.plan import drivers
from rebuild.words.steps import TaskKind
from rebuild.work.plan.laying import Slot, said_elsewhere, slot_of
from rebuild.work.plan.rows_graph import Work
from rebuild.work.plan.rows_input import critical_shares_of, planned, rank_of

#: Which share of the words of a clause and a title must agree for the owner's note to speak of that work.
_ALIKE = 0.6
_WORD = re.compile(r"[\w-]{3,}")
_CLAUSE = re.compile(r"[,;.]")
MOST_DRIVERS = 4
#: Why one piece of work may stand before the order every list keeps.
OWN_FIRST = "first because you wrote it as your next"


def next_up(work: Work, own: Node | None = None) -> tuple[Node, ...]:
    """Work that can be begun now, in the order of the rank; ``own``, what the owner meant to do, before it."""
    offered = (node for node in work.graph.ready if not said_elsewhere(node))
    return rank_of(work).in_order(offered, None if own is None else own.key)


def to_decide(work: Work) -> tuple[Node, ...]:
    """What was measured and is to be decided, and nothing stands before that."""
    return tuple(
        node
        for node in work.graph.ready
        if said_elsewhere(node) and slot_of(node.key)[0] is Slot.DECIDE and node.kind is TaskKind.DECIDE
    )


def why(work: Work, node: Node, own: Node | None = None) -> str:
    """Why a piece of work is offered, as the end of a sentence; ``own`` is what the owner meant to do."""
    reason = rank_of(work).gain(node.key).reason
    said = f"under way, {reason}" if node.under_way else reason
    return f"{OWN_FIRST}; {said}" if own is not None and own.key == node.key else said


def own_next(work: Work, said: str) -> tuple[Node | None, str]:
    """The ready work the owner's note speaks of first, or why not that: nothing like it, or what holds it."""
    if not said.strip():
        return None, ""
    best, share = None, _ALIKE
    for words in filter(None, (set(_WORD.findall(clause)) for clause in _CLAUSE.split(said.lower()))):
        for node in work.graph.nodes if best is None else ():
            alike = _alike(words, set(_WORD.findall(node.title.lower()))) if node.open else 0.0
            if alike > share or (alike == share and best is None):
                best, share = node, alike
    if best is None:
        return None, f"You meant to go on with “{said}”; no open work is called like that."
    holds = work.graph.held_by(best.key)
    if holds:
        return None, f"You meant to go on with “{said}”; not yet: {holds[0].sentence}."
    return best, ""


def _alike(words: set[str], title: set[str]) -> float:
    """How much of the shorter of two sets of words the other holds; one word in common is none."""
    common = len(words & title)
    least = min(len(words), len(title))
    return common / least if common > 1 or least == common == 1 else 0.0


def _share_in_words(share: float) -> str:
    """In how many of the schedules drawn.

    >>> _share_in_words(1.0), _share_in_words(0.42), _share_in_words(0.996)
    ('in every schedule drawn', 'in 42 % of the schedules drawn', 'in nearly every schedule drawn')
    >>> _share_in_words(0.005)
    'in under 1 % of the schedules drawn'
    """
    if share >= 1.0:
        return "in every schedule drawn"
    if share < 0.01:
        return "in under 1 % of the schedules drawn"
    return (
        "in nearly every schedule drawn"
        if share >= 0.995
        else f"in {share * 100:.0f} % of the schedules drawn"
    )


def what_drives(work: Work) -> tuple[tuple[Ref, str, str], ...]:
    """What drives the finish, as the dates say it: (row, words, in how many of the schedules drawn)."""
    found = drivers(planned(work), critical_shares_of(work))[:MOST_DRIVERS]
    return tuple((one.ref, one.name, _share_in_words(one.share)) for one in found)
