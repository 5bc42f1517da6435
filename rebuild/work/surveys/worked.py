"""A survey worked out: heights, straightness with its uncertainty and verdict, plate, twist, errors over a length."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from rebuild.errors import RebuildError
from rebuild.trade.geometry.flatness import plate_flatness
from rebuild.trade.geometry.lead_error import dial_error, lead_error
from rebuild.trade.geometry.line_doubt import difference, line_doubt
from rebuild.trade.geometry.odd_step import odd_step
from rebuild.trade.geometry.steps import Heights, SlopeUnit, slope_um_per_m
from rebuild.trade.geometry.straightness import Reference, straightness
from rebuild.trade.geometry.ways import Way, way_named
from rebuild.trade.limits.verdict import Rule
from rebuild.trade.results.working import Working, joined
from rebuild.words.surveys import BY_STEPS, SurveyMethod
from rebuild.work.surveys.both_ways import alone, both_ways
from rebuild.work.surveys.data import LineData, LineResult, SurveyData, SurveyResult, Twist
from rebuild.work.surveys.judged import judged, shape_judged
from rebuild.work.surveys.runs import Ran, ran
from rebuild.work.surveys.twisted import twist_of

#: A lead error is judged over this length [mm].
LEAD_OVER_MM = 300.0


def work_out(data: SurveyData, reference: Reference, rule: Rule = Rule.CONFORMANCE_95) -> SurveyResult:
    """Work a survey out; what keeps a line from being worked out is said on that line."""
    return _WAYS.get(data.method, _straight)(data, reference, rule)


def _straight(data: SurveyData, reference: Reference, rule: Rule) -> SurveyResult:
    workings: list[Working] = []
    lines = tuple(_line(data, line, reference, rule, workings) for line in data.lines)
    both, working = both_ways(data, lines)
    if working is not None:
        workings.append(working)
    return SurveyResult(data, reference, lines, both=both, working=joined(data.name, workings))


def _line(
    data: SurveyData, line: LineData, reference: Reference, rule: Rule, workings: list[Working]
) -> LineResult:
    way = way_named(line.name)
    try:
        read = ran(data, line)
        worked = straightness(read.heights, reference)
    except RebuildError as trouble:
        return LineResult(line, way, trouble=str(trouble), hint=odd_reading(line))
    workings += [*read.workings, worked.working]
    found = worked.value
    doubt = line_doubt(read.heights, found, read.doubt, data.method in BY_STEPS)
    workings.append(doubt.working)
    budget = doubt.value.budget
    judgement = judged(data, found.deviation_mm, budget, rule, workings)
    judgement, words = shape_judged(data, found, read.heights, budget, rule, judgement)
    heights = Heights(read.heights.at_mm, read.heights.height_mm, doubt.value.station_u_mm)
    drop, working = alone(data, way, max(found.to_remove_mm))
    if working is not None:
        workings.append(working)
    known = budget.U_mm if budget.components else None
    return LineResult(
        line,
        way,
        heights,
        found,
        read.closure_um,
        known,
        budget.k,
        judgement,
        drop,
        words,
        "",
        odd_reading(line),
    )


def odd_reading(line: LineData) -> str:
    """A question about the reading that breaks its run's curve, a slipped sign or decimal; it is used all the same."""
    for run, readings in line.runs.items():
        odd = odd_step([value for _, value in readings], _finest([text for text, _ in readings]))
        if odd is not None:
            sign = " With the other sign it would fit." if odd.other_sign else ""
            return (
                f"Run {run}, reading {odd.at + 1} ({readings[odd.at][0]}) breaks the run's own curve: about "
                f"{odd.fits:.4g} would lie on it.{sign} It is used as it is; read it again if in doubt."
            )
    return ""


def _finest(texts: Sequence[str]) -> float:
    """What the readings were read to: one of the last place typed, at the finest."""
    places = [len(_digits_after_point(text)) for text in texts]
    return 10.0 ** -max(places, default=0)


def _digits_after_point(text: str) -> str:
    tail = text.replace(",", ".").partition(".")[2]
    return tail[: next((at for at, mark in enumerate(tail) if not mark.isdigit()), len(tail))]


def _plate(data: SurveyData, reference: Reference, _rule: Rule) -> SurveyResult:
    unit = SlopeUnit(data.unit)
    try:
        slopes = {
            line.name: [
                slope_um_per_m(value, unit, data.division_um_per_m) for _, value in line.runs.get(1, ())
            ]
            for line in data.lines
        }
        worked = plate_flatness(slopes, data.step_mm or 0.0, data.closure_mm)
    except RebuildError as trouble:
        lines = tuple(LineResult(line, hint=odd_reading(line)) for line in data.lines)
        return SurveyResult(data, reference, lines, trouble=str(trouble))
    step = data.step_mm or 0.0
    lines = tuple(
        LineResult(
            line,
            heights=Heights(tuple(step * at for at in range(len(heights))), heights),
            hint=odd_reading(line),
        )
        for line in data.lines
        if (heights := worked.value.heights_mm.get(line.name)) is not None
    )
    return SurveyResult(data, reference, lines, plate=worked.value, working=worked.working)


def _across(data: SurveyData, reference: Reference, rule: Rule) -> SurveyResult:
    """A level laid across at stations: its span is the twist; each line is one set of stations."""
    lines: list[LineResult] = []
    twists: list[Twist] = []
    workings: list[Working] = []
    for line in data.lines:
        try:
            twist, working = twist_of(data, line, rule)
        except RebuildError as trouble:
            lines.append(LineResult(line, trouble=str(trouble)))
            continue
        twists.append(twist)
        workings += working
        lines.append(LineResult(line, judgement=twist.judgement, hint=odd_reading(line)))
    return SurveyResult(data, reference, tuple(lines), tuple(twists), working=joined(data.name, workings))


def _errors(data: SurveyData, reference: Reference, rule: Rule) -> SurveyResult:
    """Errors over a length: of a leadscrew at stations, of a dial at its marks; no line is laid through them."""
    workings: list[Working] = []
    lines = []
    for line in data.lines:
        try:
            read = ran(data, line)
            lines.append(_error(data, line, read, rule, workings))
        except RebuildError as trouble:
            lines.append(LineResult(line, trouble=str(trouble), hint=odd_reading(line)))
    return SurveyResult(data, reference, tuple(lines), working=joined(data.name, workings))


def _error(data: SurveyData, line: LineData, read: Ran, rule: Rule, workings: list[Working]) -> LineResult:
    heights = read.heights
    doubt = difference(read.doubt)
    if data.method is SurveyMethod.DIAL:
        dial = dial_error(heights.height_mm)
        workings += [dial.working, doubt.working]
        judgement = judged(data, dial.value.whole_mm, doubt.value, rule, workings)
        return LineResult(
            line, Way.OTHER, heights, None, read.closure_um, doubt.value.U_mm, doubt.value.k, judgement,
            hint=odd_reading(line), dial=dial.value,
        )  # fmt: skip
    lead = lead_error(heights.at_mm, heights.height_mm, LEAD_OVER_MM)
    workings += [lead.working, doubt.working]
    judgement = judged(data, lead.value.worst_mm, doubt.value, rule, workings)
    return LineResult(
        line, Way.OTHER, heights, None, read.closure_um, doubt.value.U_mm, doubt.value.k, judgement,
        hint=odd_reading(line), lead=lead.value,
    )  # fmt: skip


_WAYS: dict[SurveyMethod, Callable[[SurveyData, Reference, Rule], SurveyResult]] = {
    SurveyMethod.PLATE: _plate,
    SurveyMethod.ACROSS: _across,
    SurveyMethod.LEADSCREW: _errors,
    SurveyMethod.DIAL: _errors,
}
