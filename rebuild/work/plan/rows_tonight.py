"""What fits tonight: work that can be begun now, by how long, where, warm or cold, alone or not."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.trade.schedule.graph import Node
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.words.steps import ConstraintKind

#: No table: nothing here asks the file.
READS: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Tonight:
    """What the evening offers: how long, where, warm or cold, alone or not."""

    minutes: float = 30
    place: str = ""
    warm: bool = True
    helper: bool = False


def fits_tonight(given: PlanInput, tonight: Tonight) -> list[Node]:
    """Work that can be begun now and fits the evening, what fills it best first."""
    found = [
        step for step in given.steps if step.key in given.ready and not step.elapsed and _suits(step, tonight)
    ]
    return sorted(found, key=lambda step: (not step.under_way, -step.points.likely))


def _suits(step: Node, tonight: Tonight) -> bool:
    if step.points.likely > tonight.minutes:
        return False
    if tonight.place and step.place and tonight.place.lower() not in step.place.lower():
        return False
    if ConstraintKind.WARMTH in step.needs and not tonight.warm:
        return False
    return tonight.helper or ConstraintKind.TWO_PEOPLE not in step.needs
