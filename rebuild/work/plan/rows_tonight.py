"""What fits tonight: work that can be begun now, by how long, where, warm, alone or not, loud or not; and why.

Of long work that can be left and taken up again a slice is offered.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from rebuild.trade.schedule.graph import Node
from rebuild.trade.schedule.noise import is_loud
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.trade.schedule.slices import why_too_long
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.words.steps import ConstraintKind

#: No table: nothing here asks the file.
READS: frozenset[str] = frozenset()


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
        step
        for step in given.steps
        if step.key in given.ready and not step.elapsed and not why_not(step, tonight)
    ]
    return [_offer(given, step, tonight) for step in given.rank.in_order(found, own)]


def not_tonight(own: Node | None, offered: Collection[int], tonight: Tonight) -> str:
    """What is said when the owner's own next is ready, but not among the keys offered; else nothing."""
    if own is None or own.key in offered:
        return ""
    reason = why_not(own, tonight)
    return f"You meant to go on with “{own.title}”; not tonight{f': {reason}' if reason else ''}."


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


def why_not(step: Node, tonight: Tonight) -> str:
    """Why work that can be begun does not suit the evening; empty where it does."""
    whole = step.points.likely
    if too_long := why_too_long(step.kind, whole, tonight.minutes):
        return f"it takes {show_minutes(whole)} and there is {show_minutes(tonight.minutes)}; {too_long}"
    if tonight.place and step.place and tonight.place.lower() not in step.place.lower():
        return f"it is done at {step.place}"
    if ConstraintKind.WARMTH in step.needs and not tonight.warm:
        return "it needs warmth"
    if tonight.quiet and is_loud(step.title, step.kind):
        return "it is heard next door"
    alone = not (tonight.helper or tonight.hoist)
    return "it needs two people or a hoist" if alone and ConstraintKind.TWO_PEOPLE in step.needs else ""
