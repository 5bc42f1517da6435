"""What a plan is worked out from, as frozen values: open steps, links, parts to be made, the week."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.week import Week
from rebuild.words.decisions import Decision
from rebuild.words.steps import ConstraintKind, TaskKind


@dataclass(frozen=True, slots=True)
class PlanStep:
    """One open step, or what must pass after one (``cure_of``): a rest, or a delivery."""

    key: int
    title: str
    kind: TaskKind
    under_way: bool
    subassembly_id: int | None
    part_id: int | None
    points: ThreePoint
    assumed: bool
    elapsed: bool
    place: str
    needs: frozenset[ConstraintKind]
    cure_of: int | None = None


@dataclass(frozen=True, slots=True)
class PlanInput:
    """All that the plan is worked out from."""

    steps: tuple[PlanStep, ...]
    links: tuple[tuple[int, int], ...]
    parts: dict[int, tuple[str, Decision]]
    week: Week
    week_is_set: bool
