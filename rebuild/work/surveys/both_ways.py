"""What the ways of a survey do to the work: each alone, and front and rear together, station by station."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.errors import RebuildError
from rebuild.trade.geometry.ways import Way, guide_of, ways_effect
from rebuild.trade.geometry.wear_effect import WayDrop
from rebuild.trade.results.working import Working
from rebuild.work.surveys.data import BothWays, LineResult, SurveyData

#: Turned at this diameter where the survey names none [mm].
USUAL_WORK_MM = 25.0


def alone(data: SurveyData, way: Way, deepest_mm: float) -> tuple[WayDrop | None, Working | None]:
    """What one way does to the work where it lies deepest, the others unworn; None for what is no way of known size."""
    if data.height_mm is None or data.spacing_mm is None or way is Way.OTHER:
        return None, None
    front = deepest_mm if way.front else 0.0
    rear = deepest_mm if way.rear else 0.0
    side = deepest_mm if way is Way.SIDEWAYS else 0.0
    try:
        worked = ways_effect(
            front,
            rear,
            data.height_mm,
            data.spacing_mm,
            data.work_mm or USUAL_WORK_MM,
            guide_of((way,)),
            side,
        )
    except RebuildError:
        return None, None
    return worked.value, worked.working


def both_ways(data: SurveyData, lines: Sequence[LineResult]) -> tuple[BothWays | None, Working | None]:
    """Front and rear way together; None without both over the same stations, or without the sizes of the lathe.

    Each way counts from its own reference line, so an even taper, or a twist of the whole bed, is not in it: a level
    laid across tells that.
    """
    front = next((line for line in lines if line.way.front and line.found is not None), None)
    rear = next((line for line in lines if line.way.rear and line.found is not None), None)
    if data.height_mm is None or data.spacing_mm is None or front is None or rear is None:
        return None, None
    assert front.found is not None
    assert rear.found is not None
    assert front.heights is not None
    assert rear.heights is not None
    if front.heights.at_mm != rear.heights.at_mm:
        return None, None
    side = _sideways(lines, len(front.found.residual_mm))
    guide = guide_of((front.way, rear.way))
    try:
        worked = [
            ways_effect(-f, -r, data.height_mm, data.spacing_mm, data.work_mm or USUAL_WORK_MM, guide, s)
            for f, r, s in zip(front.found.residual_mm, rear.found.residual_mm, side, strict=True)
        ]
    except RebuildError:
        return None, None
    at = max(range(len(worked)), key=lambda one: abs(worked[one].value.diameter_error_mm))
    found = BothWays(
        front.line.name,
        rear.line.name,
        guide,
        front.heights.at_mm,
        tuple(one.value.diameter_error_mm for one in worked),
        worked[at].value,
        front.heights.at_mm[at],
    )
    return found, worked[at].working


def _sideways(lines: Sequence[LineResult], count: int) -> tuple[float, ...]:
    """How far the guide has gone to the front at each station, from a line of its own; none where there is none."""
    for line in lines:
        if line.way is Way.SIDEWAYS and line.found is not None and len(line.found.residual_mm) == count:
            return line.found.residual_mm
    return (0.0,) * count
