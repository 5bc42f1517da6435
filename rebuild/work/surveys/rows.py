"""Surveys as rows: each with its lines, its runs as typed, and the instrument it names."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, Row, select

from rebuild.errors import NotThere
from rebuild.model.tables.readings import Instruments
from rebuild.model.tables.surveys import SurveyLines, SurveyReadings, Surveys
from rebuild.words.readings import InstrumentKind, Stage
from rebuild.words.surveys import SurveyMethod
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.surveys.data import LineData, Named, SurveyData

#: The tables the lookups here ask.
READS = frozenset({"instrument", "survey", "survey_line", "survey_reading"})
#: What a slope instrument's error limit is over, by the unit it reads in [mm].
_SLOPE_LENGTH = {"mm": 1000.0, "in": 304.8}
_BY_SLOPE = (InstrumentKind.LEVEL, InstrumentKind.AUTOCOLLIMATOR)


@dataclass(frozen=True, slots=True)
class SurveyRow:
    """One survey in the list."""

    id: int
    name: str
    method: SurveyMethod
    stage: Stage
    part_id: int | None
    before_id: int | None


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
    survey = Surveys.of(row)
    return _data(survey, lines, runs, _named(connection, survey.instrument_id))


def _data(
    row: Surveys,
    lines: Sequence[Row[int, str]],
    runs: dict[int, dict[int, list[tuple[str, float]]]],
    instrument: Named | None,
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
        instrument,
        "mm" if row.allowed_unit in (None, "mm", "µm") else "in",
    )


def _named(connection: Connection, key: int | None) -> Named | None:
    """The instrument a survey names; one that shows a slope has its limit over a length."""
    if key is None:
        return None
    row = connection.execute(select(Instruments.kind, Instruments.unit).where(Instruments.id == key)).first()
    limit = instrument_limits(connection).get(key)
    if row is None or limit is None:
        return None
    over = _SLOPE_LENGTH.get(row.unit, 1000.0) if row.kind in _BY_SLOPE else None
    return Named(limit, over)
