"""Twist of a bed from a level laid across it at stations: against its limit, and what it does to the work.

The saddle tilts with the ways it stands on; a tool H above them goes out by H times the change of slope, whatever the
ways are apart. A level that reads more means the rear way higher there, so the tool stands farther out and the work is
larger; laid the other way round, all signs turn.
"""

from __future__ import annotations

import math

from rebuild.errors import BadEntry
from rebuild.trade.geometry.line_doubt import RunsDoubt, difference
from rebuild.trade.geometry.straightness import twist_mm_per_m
from rebuild.trade.limits.verdict import Rule
from rebuild.trade.results.working import Sheet, Source, Status, Working
from rebuild.work.surveys.data import LineData, SurveyData, Twist
from rebuild.work.surveys.judged import judged
from rebuild.work.surveys.runs import slopes_of

_TILT = Source("Geometry", "a tool H above ways that tilt by s goes out by H s", Status.COMPUTED)


def twist_of(data: SurveyData, line: LineData, rule: Rule) -> tuple[Twist, list[Working]]:
    """One set of stations worked out. Raises BadEntry."""
    there, back = slopes_of(data, line, 1), slopes_of(data, line, 2)
    if back and len(back) != len(there):
        raise BadEntry(
            f"has {len(back)} readings, the way there {len(there)}.",
            where=f"{line.name}, back",
            way_out="Read every station twice, or none.",
        )
    slopes = [(a + b) / 2 for a, b in zip(there, back, strict=True)] if back else there
    step = data.step_mm or 0.0
    at = tuple(step * place for place in range(len(slopes)))
    worked = twist_mm_per_m(slopes, at)
    budget = difference(_doubt(data, there, back), " a metre")
    workings = [worked.working, budget.working]
    judgement = judged(data, worked.value, budget.value, rule, workings)
    off = tuple((slope - slopes[0]) / 1000 for slope in slopes)
    effect = None
    if data.height_mm is not None:
        effect = tuple(2 * data.height_mm * slope / 1000 for slope in off)
        workings.append(_effect(data.height_mm, effect))
    known = budget.value.U_mm if budget.value.components else None
    return Twist(line.name, at, off, worked.value, known, effect, judgement), workings


def _effect(height_mm: float, effect_mm: tuple[float, ...]) -> Working:
    sheet = Sheet("Twist and the turned diameter")
    worst = max(effect_mm, key=abs)
    sheet.equation(
        "diameter",
        f"2 H s = 2 × {height_mm:.5g} mm × slope less the first; at most {worst * 1000:+.1f} µm",
        _TILT,
    )
    sheet.note("Positive where the rear way stands higher: the level read with its plus to the rear.")
    return sheet.close()


def _doubt(data: SurveyData, there: list[float], back: list[float]) -> RunsDoubt:
    """What is known of one reading, in mm a metre."""
    limit = data.instrument.per_metre() if data.instrument is not None else None
    if not back:
        return RunsDoubt(limit)
    apart = [(a - b) / 1000 for a, b in zip(there, back, strict=True)]
    spread = math.sqrt(sum(value * value for value in apart) / (2 * len(apart)))
    return RunsDoubt(limit, spread, len(apart), 2)
