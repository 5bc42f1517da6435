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


#: Dates told by the evening are no others a quarter of an hour later.
A_QUARTER = dt.timedelta(minutes=15)


@dataclass(frozen=True, slots=True)
class Dated:
    """An answer, of which work, and when it was begun."""

    given: PlanInput
    begun: dt.datetime
    answer: Answer

    def stands(self, given: PlanInput, now: dt.datetime) -> bool:
        """Whether it answers for this very work still, on the same day."""
        soon = dt.timedelta() <= now - self.begun < A_QUARTER
        return given is self.given and soon and now.date() == self.begun.date()


def work_out(given: PlanInput, now: dt.datetime, *, draws: int = 2000, seed: int = 1) -> Answer:
    """The plan as from ``now``, with its chances out of ``draws`` plans drawn from ``seed``."""
    try:
        return Answer(make_plan(given, now), chances(given, now, draws=draws, seed=seed))
    except RebuildError as trouble:
        return Answer(None, None, str(trouble))
