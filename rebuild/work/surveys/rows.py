"""Surveys as rows, and worked out: heights, straightness, closure, twist, flatness, effect on the work."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from statistics import median

from sqlalchemy import Connection, Row, select

from rebuild.errors import NotThere, RebuildError
from rebuild.model.tables.surveys import SurveyLines, SurveyReadings, Surveys
from rebuild.trade.geometry.flatness import PlateFlatness, plate_flatness
from rebuild.trade.geometry.steps import (
    Heights,
    SlopeUnit,
    heights_of,
    slope_um_per_m,
    there_and_back,
    with_uncertainty,
)
from rebuild.trade.geometry.straightness import Reference, Shape, Straightness, straightness, twist_mm_per_m
from rebuild.trade.geometry.wear_effect import WayDrop, front_way_drop
from rebuild.trade.limits.component import Component
from rebuild.trade.limits.uncertainty import combine
from rebuild.trade.limits.verdict import Judgement, Rule, Verdict, judge
from rebuild.trade.results.working import Source, Status, Working, joined
from rebuild.words.readings import Stage
from rebuild.words.surveys import BY_STEPS, SurveyMethod

#: The tables the lookups here ask.
READS = frozenset({"survey", "survey_line", "survey_reading"})

#: A reading this many times farther from the middle of its run than is usual there is hinted at.
ODD_TIMES = 8.0
_CLOSURE = Source("spread of the run there against the run back", status=Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class SurveyRow:
    """One survey in the list."""

    id: int
    name: str
    method: SurveyMethod
    stage: Stage
    part_id: int | None
    before_id: int | None


@dataclass(frozen=True, slots=True)
class LineData:
    """One line as typed: the runs by number, text and value by place."""

    id: int
    name: str
    runs: Mapping[int, tuple[tuple[str, float], ...]]


@dataclass(frozen=True, slots=True)
class SurveyData:
    """A survey as stored."""

    id: int
    name: str
    method: SurveyMethod
    stage: Stage
    unit: str
    division_um_per_m: float | None
    step_mm: float | None
    allowed_mm: float | None
    closure_mm: float | None
    sense: str
    height_mm: float | None
    spacing_mm: float | None
    work_mm: float | None
    before_id: int | None
    lines: tuple[LineData, ...]


@dataclass(frozen=True, slots=True)
class LineResult:
    """One line worked out, or the trouble that keeps it from being."""

    line: LineData
    heights: Heights | None = None
    found: Straightness | None = None
    closure_um: float | None = None
    u_mm: float | None = None
    judgement: Judgement | None = None
    drop: WayDrop | None = None
    trouble: str = ""
    hint: str = ""


@dataclass(frozen=True, slots=True)
class SurveyResult:
    """A survey worked out against one reference."""

    data: SurveyData
    reference: Reference
    lines: tuple[LineResult, ...]
    twist_mm_per_m: float | None = None
    plate: PlateFlatness | None = None
    trouble: str = ""
    working: Working = field(default_factory=lambda: Working("Survey"))


def surveys(connection: Connection, machine_id: int) -> list[SurveyRow]:
    """A machine's surveys in order."""
    rows = connection.execute(
        select(Surveys.id, Surveys.name, Surveys.method, Surveys.stage, Surveys.part_id, Surveys.before_id)
        .where(Surveys.machine_id == machine_id)
        .order_by(Surveys.position, Surveys.id)
    )
    return [SurveyRow(row.id, row.name, row.method, row.stage, row.part_id, row.before_id) for row in rows]


def survey_data(connection: Connection, survey_id: int) -> SurveyData:
    """One survey as stored. Raises NotThere."""
    row = connection.execute(select(*Surveys.columns()).where(Surveys.id == survey_id)).first()
    if row is None:
        raise NotThere(f"The survey no. {survey_id} is no longer there.", way_out="Choose another.")
    lines = connection.execute(
        select(SurveyLines.id, SurveyLines.name)
        .where(SurveyLines.survey_id == survey_id)
        .order_by(SurveyLines.position)
    ).all()
    readings = connection.execute(
        select(SurveyReadings.line_id, SurveyReadings.run, SurveyReadings.typed, SurveyReadings.value)
        .join(SurveyLines, SurveyLines.id == SurveyReadings.line_id)
        .where(SurveyLines.survey_id == survey_id)
        .order_by(SurveyReadings.line_id, SurveyReadings.run, SurveyReadings.place)
    )
    runs: dict[int, dict[int, list[tuple[str, float]]]] = {}
    for reading in readings:
        runs.setdefault(reading.line_id, {}).setdefault(reading.run, []).append(
            (reading.typed, reading.value)
        )
    return _data(Surveys.of(row), lines, runs)


def _data(
    row: Surveys, lines: Sequence[Row[int, str]], runs: dict[int, dict[int, list[tuple[str, float]]]]
) -> SurveyData:
    return SurveyData(
        row.id,
        row.name,
        row.method,
        row.stage,
        row.unit,
        row.division_um_per_m,
        row.step_mm,
        row.allowed_mm,
        row.closure_mm,
        row.sense,
        row.height_mm,
        row.spacing_mm,
        row.work_mm,
        row.before_id,
        tuple(
            LineData(key, name, {run: tuple(values) for run, values in runs.get(key, {}).items()})
            for key, name in lines
        ),
    )


def work_out(data: SurveyData, reference: Reference, rule: Rule = Rule.CONFORMANCE_95) -> SurveyResult:
    """Work a survey out; what keeps a line from being worked out is said on that line."""
    if data.method is SurveyMethod.PLATE:
        return _plate(data, reference)
    if data.method is SurveyMethod.ACROSS:
        return _across(data, reference)
    workings: list[Working] = []
    lines = tuple(_line(data, line, reference, rule, workings) for line in data.lines)
    return SurveyResult(data, reference, lines, working=joined(data.name, workings))


def _slopes(data: SurveyData, values: Sequence[tuple[str, float]]) -> list[float]:
    unit = SlopeUnit(data.unit)
    return [slope_um_per_m(value, unit, data.division_um_per_m) for _, value in values]


def _line(
    data: SurveyData, line: LineData, reference: Reference, rule: Rule, workings: list[Working]
) -> LineResult:
    try:
        heights, closure, u_slope = _heights(data, line, workings)
        worked = straightness(heights, reference)
    except RebuildError as trouble:
        return LineResult(line, trouble=str(trouble))
    workings.append(worked.working)
    u_mm = None
    if u_slope is not None:
        heights = with_uncertainty(heights, u_slope)
        u_mm = max(heights.u_mm) * math.sqrt(2)
    judgement = _judged(data, worked.value, u_mm, rule, workings)
    drop = _drop(data, worked.value, workings)
    return LineResult(line, heights, worked.value, closure, u_mm, judgement, drop, hint=odd_reading(line))


def odd_reading(line: LineData) -> str:
    """A hint at the reading that stands out of its run, a slipped sign or decimal; it is used all the same."""
    for run, readings in line.runs.items():
        values = [value for _, value in readings]
        if len(values) < 5:
            continue
        middle = median(values)
        usual = median(abs(value - middle) for value in values) or max(abs(middle) * 0.05, 1e-9)
        worst = max(range(len(values)), key=lambda at: abs(values[at] - middle))
        off = abs(values[worst] - middle)
        if off > ODD_TIMES * usual:
            sign = " With the other sign it would fit." if abs(-values[worst] - middle) < off / 4 else ""
            return (
                f"Run {run}, reading {worst + 1} ({readings[worst][0]}) stands out of its run.{sign} "
                "It is used as it is; read it again if in doubt."
            )
    return ""


def _heights(
    data: SurveyData, line: LineData, workings: list[Working]
) -> tuple[Heights, float | None, float | None]:
    there, back = line.runs.get(1, ()), line.runs.get(2, ())
    step = data.step_mm or 0.0
    if data.method not in BY_STEPS:
        values = [value for _, value in there]
        return Heights(tuple(step * at for at in range(len(values))), tuple(values)), None, None
    if not back:
        worked = heights_of(_slopes(data, there), step)
        workings.append(worked.working)
        return worked.value, None, None
    allowed = None if data.closure_mm is None else data.closure_mm * 1000
    both = there_and_back(_slopes(data, there), _slopes(data, back), step, allowed)
    worked = heights_of(both.value.slopes_um_per_m, step)
    workings += [both.working, worked.working]
    return worked.value, both.value.closure_um, both.value.u_slope_um_per_m


def _judged(
    data: SurveyData, found: Straightness, u_mm: float | None, rule: Rule, workings: list[Working]
) -> Judgement | None:
    if data.allowed_mm is None:
        return None
    budget = None
    if u_mm is not None:
        part = Component("runs there and back", u_mm, math.inf, "at the widest station", _CLOSURE)
        budget = combine([part]).value
    judged = judge(found.deviation_mm, None, data.allowed_mm, budget, rule)
    workings.append(judged.working)
    return judged.value


def shape_refused(data: SurveyData, found: Straightness) -> str:
    """A sentence when the shape is not the one allowed, else nothing."""
    wanted = data.sense.strip().lower()
    for shape in (Shape.CONVEX, Shape.CONCAVE):
        if wanted.startswith(shape.value) and found.shape not in (shape, Shape.STRAIGHT):
            return f"is {found.shape.value}; only {shape.value} is allowed"
    return ""


def _drop(data: SurveyData, found: Straightness, workings: list[Working]) -> WayDrop | None:
    """What the deepest station of this line does to turned work, if it is a front way of known size."""
    if data.height_mm is None or data.spacing_mm is None:
        return None
    deepest = max(found.to_remove_mm)
    try:
        worked = front_way_drop(deepest, data.height_mm, data.spacing_mm, data.work_mm or 25.0)
    except RebuildError:
        return None
    workings.append(worked.working)
    return worked.value


def _plate(data: SurveyData, reference: Reference) -> SurveyResult:
    try:
        slopes = {line.name: _slopes(data, line.runs.get(1, ())) for line in data.lines}
        worked = plate_flatness(slopes, data.step_mm or 0.0, data.closure_mm)
    except RebuildError as trouble:
        return SurveyResult(
            data, reference, tuple(LineResult(line) for line in data.lines), trouble=str(trouble)
        )
    step = data.step_mm or 0.0
    lines = tuple(
        LineResult(line, Heights(tuple(step * at for at in range(len(heights))), heights))
        for line in data.lines
        if (heights := worked.value.heights_mm.get(line.name)) is not None
    )
    return SurveyResult(data, reference, lines, plate=worked.value, working=worked.working)


def _across(data: SurveyData, reference: Reference) -> SurveyResult:
    """A level laid across at stations: its span is the twist; each line is one set of stations."""
    lines, workings, spans = [], [], []
    step = data.step_mm or 0.0
    for line in data.lines:
        try:
            slopes = _slopes(data, line.runs.get(1, ()))
            worked = twist_mm_per_m(slopes, [step * at for at in range(len(slopes))])
        except RebuildError as trouble:
            lines.append(LineResult(line, trouble=str(trouble)))
            continue
        workings.append(worked.working)
        spans.append(worked.value)
        lines.append(LineResult(line))
    twist = max(spans) if spans else None
    return SurveyResult(data, reference, tuple(lines), twist, working=joined(data.name, workings))


def verdict_word(result: LineResult) -> Verdict:
    """The verdict of a line, its shape counted."""
    if result.judgement is None:
        return Verdict.NO_SPEC
    return result.judgement.verdict
