"""The verdict on a line: never *conforms* beside a shape that is not allowed, nor without a named instrument."""

from __future__ import annotations

from dataclasses import replace

from rebuild.trade.geometry.steps import Heights
from rebuild.trade.geometry.straightness import SAME_MM, Reference, Shape, Straightness, straightness
from rebuild.trade.limits.judgement import Judgement, Rule, Verdict
from rebuild.trade.limits.uncertainty import Budget
from rebuild.trade.limits.verdict import judge
from rebuild.trade.results.working import Working
from rebuild.trade.sizes.show import show_length
from rebuild.work.surveys.data import SurveyData

NO_INSTRUMENT = "no instrument is named, so nothing is proven; name it in Set-up"


def judged(
    data: SurveyData, value_mm: float, budget: Budget, rule: Rule, workings: list[Working]
) -> Judgement | None:
    """A deviation against what the survey allows; None where nothing is allowed."""
    if data.allowed_mm is None:
        return None
    worked = judge(value_mm, None, data.allowed_mm, budget, rule, unit=data.allowed_unit)
    workings.append(worked.working)
    if data.instrument is None and worked.value.verdict is Verdict.CONFORMS:
        return replace(worked.value, verdict=Verdict.UNDECIDED, finding=NO_INSTRUMENT)
    return worked.value


def shape_judged(
    data: SurveyData,
    found: Straightness,
    heights: Heights,
    budget: Budget,
    rule: Rule,
    judgement: Judgement | None,
) -> tuple[Judgement | None, str]:
    """The verdict with the shape counted, and the words of a shape that is not the one allowed."""
    wanted = _wanted(data.sense)
    if wanted is None or found.shape in (wanted, Shape.STRAIGHT):
        return judgement, ""
    wrong_mm = _wrong_way(heights, wanted)
    proven = rule is Rule.SIMPLE or (budget.complete and wrong_mm > budget.U_mm)
    inch = data.allowed_unit == "in"
    wrong = show_length(wrong_mm, "in", 5) if inch else show_length(wrong_mm, "µm")
    said = f"{wrong} {'low' if wanted is Shape.CONVEX else 'high'}"
    if proven:
        words, verdict = f"{found.shape}, to be {wanted}", Verdict.DOES_NOT
        finding = f"does not conform: {found.shape}, {said}; it is to be {wanted}"
    else:
        words, verdict = f"{found.shape}, undecided", Verdict.UNDECIDED
        finding = f"undecided: {found.shape} by {said}, within its uncertainty; it is to be {wanted}"
    if judgement is None:
        return None, words
    if judgement.verdict is Verdict.DOES_NOT:
        return judgement, words
    return replace(judgement, verdict=verdict, finding=finding), words


def _wanted(sense: str) -> Shape | None:
    plain = sense.strip().casefold()
    return next((shape for shape in (Shape.CONVEX, Shape.CONCAVE) if plain.startswith(shape)), None)


def _wrong_way(heights: Heights, wanted: Shape) -> float:
    """How far the line goes to the wrong side of the line through its ends [mm]."""
    about = straightness(heights, Reference.ENDS).value.residual_mm
    wrong = -min(about) if wanted is Shape.CONVEX else max(about)
    return wrong if wrong > SAME_MM else 0.0
