"""The runs of one line as heights, with what their repeats and their closure tell."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rebuild.trade.geometry.line_doubt import RunsDoubt
from rebuild.trade.geometry.steps import Heights, SlopeUnit, heights_of, slope_um_per_m, there_and_back
from rebuild.trade.results.working import Working
from rebuild.words.surveys import BY_STEPS
from rebuild.work.surveys.data import LineData, SurveyData


@dataclass(frozen=True, slots=True)
class Ran:
    """One line's heights, what is known of its readings, its closure [µm] (None: one run), and the workings."""

    heights: Heights
    doubt: RunsDoubt
    closure_um: float | None
    workings: tuple[Working, ...]


def slopes_of(data: SurveyData, line: LineData, run: int) -> list[float]:
    """One run as slopes [µm/m]. Raises BadEntry."""
    unit = SlopeUnit(data.unit)
    return [slope_um_per_m(value, unit, data.division_um_per_m) for _, value in line.runs.get(run, ())]


def ran(data: SurveyData, line: LineData) -> Ran:
    """One line's heights from its runs. Raises BadEntry when they do not fit each other."""
    return _steps(data, line) if data.method in BY_STEPS else _heights(data, line)


def _steps(data: SurveyData, line: LineData) -> Ran:
    step, named = data.step_mm or 0.0, data.instrument
    limit = named.per_metre() if named is not None else None
    there = slopes_of(data, line, 1)
    if not line.runs.get(2):
        worked = heights_of(there, step)
        return Ran(worked.value, RunsDoubt(limit), None, (worked.working,))
    allowed = None if data.closure_mm is None else data.closure_mm * 1000
    both = there_and_back(
        there,
        slopes_of(data, line, 2),
        step,
        allowed,
        unit=SlopeUnit(data.unit),
        division_um_per_m=data.division_um_per_m,
    )
    worked = heights_of(both.value.slopes_um_per_m, step)
    spread = both.value.u_slope_um_per_m * math.sqrt(2) / 1000
    doubt = RunsDoubt(limit, spread, len(there), 2, both.value.closure_um / 1000)
    return Ran(worked.value, doubt, both.value.closure_um, (both.working, worked.working))


def _heights(data: SurveyData, line: LineData) -> Ran:
    """Heights read as they are: two runs are taken as repeats, the closure is what the first station missed."""
    step, named = data.step_mm or 0.0, data.instrument
    limit = named.limit if named is not None else None
    there = [value for _, value in line.runs.get(1, ())]
    back = [value for _, value in line.runs.get(2, ())]
    at = tuple(step * place for place in range(len(there)))
    if not back:
        return Ran(Heights(at, tuple(there)), RunsDoubt(limit), None, ())
    both = there_and_back([value * 1000 for value in there], [value * 1000 for value in back], 1000.0)
    closure = back[0] - there[0]
    spread = both.value.u_slope_um_per_m * math.sqrt(2) / 1000
    mean = tuple(value / 1000 for value in both.value.slopes_um_per_m)
    doubt = RunsDoubt(limit, spread, len(there), 2, closure)
    return Ran(Heights(at, mean), doubt, closure * 1000, ())
