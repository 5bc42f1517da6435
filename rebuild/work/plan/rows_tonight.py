"""What fits tonight: work that can be begun now, by how long, where, warm, alone or not, loud or not; and why.

Of long work that can be left and taken up again a slice is offered.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from rebuild.trade.schedule.graph import Node
from rebuild.trade.schedule.noise import is_loud
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.words.steps import ConstraintKind, TaskKind

#: No table: nothing here asks the file.
READS: frozenset[str] = frozenset()
#: Work that can be left half done and taken up another evening; a coat, a refit or a run-in cannot.
_SLICED = (TaskKind.MAKE, TaskKind.REWORK, TaskKind.CLEAN, TaskKind.MEASURE, TaskKind.INSPECT)
#: Less than this is no slice: it goes in setting up [minutes].
LEAST_SLICE = 20.0


@dataclass(frozen=True, slots=True)
class Tonight:
    """What the evening offers: how long, where, warm or cold, alone or not, a hoist, and whether it must be quiet."""

    minutes: float = 30
    place: str = ""
    warm: bool = True
    helper: bool = False
    quiet: bool = False
    hoist: bool = False


@dataclass(frozen=True, slots=True)
class Offer:
    """Work for tonight: how many of its minutes, whether that is a slice of it, and why it is offered."""

    node: Node
    minutes: float
    slice: bool
    why: str

    @property
    def takes(self) -> str:
        """How long of it tonight: ``45 min of its 7 h``."""
        whole = show_minutes(self.node.points.likely)
        return f"{show_minutes(self.minutes)} of its {whole}" if self.slice else whole

    @property
    def told(self) -> str:
        """What it is, and which part of it where it does not fit whole."""
        return f"{self.node.title} ({self.takes})" if self.slice else self.node.title


def offers(given: PlanInput, tonight: Tonight, own: int | None = None) -> list[Offer]:
    """Work that can be begun now and suits the evening, in the order of the rank, with why; ``own`` before all."""
    found = [
        step for step in given.steps if step.key in given.ready and not step.elapsed and _suits(step, tonight)
    ]
    return [_offer(given, step, tonight) for step in given.rank.in_order(found, own)]


def not_tonight(own: Node | None, offered: Collection[int]) -> str:
    """What is said when the owner's own next is ready, but not among the keys offered; else nothing."""
    if own is None or own.key in offered:
        return ""
    return f"You meant to go on with “{own.title}”; it does not fit tonight."


def fits_tonight(given: PlanInput, tonight: Tonight) -> list[Node]:
    """The same as the work alone."""
    return [offer.node for offer in offers(given, tonight)]


def together(offered: Sequence[Offer], minutes: float) -> list[Offer]:
    """Of what is offered, best first, what one evening of so many minutes holds together."""
    chosen: list[Offer] = []
    left = minutes
    for offer in offered:
        if not chosen or offer.minutes <= left:
            chosen.append(offer)
            left -= offer.minutes
    return chosen


def _offer(given: PlanInput, step: Node, tonight: Tonight) -> Offer:
    whole = step.points.likely
    minutes = min(whole, tonight.minutes)
    said = [f"{show_minutes(minutes)} of its {show_minutes(whole)}" if minutes < whole else "fits whole"]
    if step.assumed:
        said[0] += ", assumed"
    said.append(given.rank.gain(step.key).reason)
    if tonight.quiet:
        said.append("quiet")
    if ConstraintKind.TWO_PEOPLE in step.needs:
        said.append("with the helper" if tonight.helper else "with the hoist")
    return Offer(step, minutes, minutes < whole, "; ".join(filter(None, said)))


def _suits(step: Node, tonight: Tonight) -> bool:
    sliced = step.kind in _SLICED and tonight.minutes >= LEAST_SLICE
    if step.points.likely > tonight.minutes and not sliced:
        return False
    if tonight.place and step.place and tonight.place.lower() not in step.place.lower():
        return False
    if ConstraintKind.WARMTH in step.needs and not tonight.warm:
        return False
    if tonight.quiet and is_loud(step.title, step.kind):
        return False
    return tonight.helper or tonight.hoist or ConstraintKind.TWO_PEOPLE not in step.needs
