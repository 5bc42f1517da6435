"""Surveys of ways and plates: lines of step or height readings, run there and back, before and after."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import (
    Cell,
    as_count,
    as_moment,
    as_number,
    as_text,
    goes_with,
    maybe,
    one_of,
    points_at,
)
from rebuild.words.readings import Stage
from rebuild.words.surveys import SurveyMethod


class Surveys(Journaled, name="survey"):
    """One survey with one set-up; its lines are way surfaces, or the eight lines of a plate.

    ``unit`` is a slope unit (arcsec, mm/m, in/ft, divisions) for step methods, else mm or in.
    ``before_id`` names the survey it is compared with.
    """

    machine_id: Cell[int] = goes_with("machine", index=True)
    part_id: Cell[int | None] = points_at("part", index=True)
    before_id: Cell[int | None] = points_at("survey", index=True)
    name: Cell[str] = as_text()
    method: Cell[SurveyMethod] = one_of(SurveyMethod)
    stage: Cell[Stage] = one_of(Stage, Stage.AS_FOUND)
    unit: Cell[str] = as_text("mm/m")
    division_um_per_m: Cell[float | None] = maybe(as_number())
    step_text: Cell[str | None] = maybe(as_text())
    step_unit: Cell[str | None] = maybe(as_text())
    step_mm: Cell[float | None] = maybe(as_number())
    allowed_text: Cell[str | None] = maybe(as_text())
    allowed_unit: Cell[str | None] = maybe(as_text())
    allowed_mm: Cell[float | None] = maybe(as_number())
    closure_text: Cell[str | None] = maybe(as_text())
    closure_unit: Cell[str | None] = maybe(as_text())
    closure_mm: Cell[float | None] = maybe(as_number())
    height_text: Cell[str | None] = maybe(as_text())
    height_unit: Cell[str | None] = maybe(as_text())
    height_mm: Cell[float | None] = maybe(as_number())
    spacing_text: Cell[str | None] = maybe(as_text())
    spacing_unit: Cell[str | None] = maybe(as_text())
    spacing_mm: Cell[float | None] = maybe(as_number())
    work_text: Cell[str | None] = maybe(as_text())
    work_unit: Cell[str | None] = maybe(as_text())
    work_mm: Cell[float | None] = maybe(as_number())
    sense: Cell[str] = as_text("")
    instrument_id: Cell[int | None] = points_at("instrument", index=True)
    temperature_c: Cell[float | None] = maybe(as_number())
    taken_at: Cell[dt.datetime | None] = maybe(as_moment())
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)


class SurveyLines(Journaled, name="survey_line"):
    """One line of a survey: a way surface, or a plate's line by its name."""

    indexes = (("ix_survey_line_survey_position", "survey_id", "position"),)

    survey_id: Cell[int] = goes_with("survey")
    name: Cell[str] = as_text()
    position: Cell[int] = as_count(0)


class SurveyReadings(Journaled, name="survey_reading"):
    """One reading: which run (1 there, 2 back), which place in the line, as typed and its value in the survey's unit.

    For a step method ``value`` is the slope figure; for heights it is mm.
    """

    indexes = (("ix_survey_reading_line_run", "line_id", "run", "place"),)

    line_id: Cell[int] = goes_with("survey_line")
    run: Cell[int] = as_count(1)
    place: Cell[int] = as_count()
    typed: Cell[str] = as_text()
    value: Cell[float] = as_number()
