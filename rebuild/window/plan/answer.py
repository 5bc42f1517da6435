"""What the dated views show: the plan with its chances, worked out beside the window from frozen values."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from rebuild.errors import RebuildError
from rebuild.trade.schedule.plan import Chances, Plan, chances, make_plan
from rebuild.trade.schedule.plan_input import PlanInput


@dataclass(frozen=True, slots=True)
class Answer:
    """A plan with its chances, or why there is none."""

    plan: Plan | None
    chances: Chances | None
    trouble: str = ""


def work_out(given: PlanInput, now: dt.datetime, *, draws: int = 2000, seed: int = 1) -> Answer:
    """The plan as from ``now``, with its chances out of ``draws`` plans drawn from ``seed``."""
    try:
        return Answer(make_plan(given, now), chances(given, now, draws=draws, seed=seed))
    except RebuildError as trouble:
        return Answer(None, None, str(trouble))
