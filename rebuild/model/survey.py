"""Surveys of ways and plates: lines of step or height readings, run there and back, before and after."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.readings import Stage
from rebuild.words.surveys import SurveyMethod


class Survey(Record):
    """One survey with one set-up; its lines are way surfaces, or the eight lines of a plate.

    ``unit`` is a slope unit (arcsec, mm/m, in/ft, divisions) for step methods, else mm or in.
    ``before_id`` names the survey it is compared with.
    """

    __tablename__ = "survey"

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"), index=True)
    part_id: Mapped[int | None] = mapped_column(ForeignKey("part.id", ondelete="SET NULL"), index=True)
    before_id: Mapped[int | None] = mapped_column(ForeignKey("survey.id", ondelete="SET NULL"), index=True)
    name: Mapped[str]
    method: Mapped[SurveyMethod] = mapped_column(word(SurveyMethod))
    stage: Mapped[Stage] = mapped_column(word(Stage), default=Stage.AS_FOUND)
    unit: Mapped[str] = mapped_column(default="mm/m")
    division_um_per_m: Mapped[float | None]
    step_text: Mapped[str | None]
    step_unit: Mapped[str | None]
    step_mm: Mapped[float | None]
    allowed_text: Mapped[str | None]
    allowed_unit: Mapped[str | None]
    allowed_mm: Mapped[float | None]
    closure_text: Mapped[str | None]
    closure_unit: Mapped[str | None]
    closure_mm: Mapped[float | None]
    height_text: Mapped[str | None]
    height_unit: Mapped[str | None]
    height_mm: Mapped[float | None]
    spacing_text: Mapped[str | None]
    spacing_unit: Mapped[str | None]
    spacing_mm: Mapped[float | None]
    work_text: Mapped[str | None]
    work_unit: Mapped[str | None]
    work_mm: Mapped[float | None]
    sense: Mapped[str] = mapped_column(default="")
    instrument_id: Mapped[int | None] = mapped_column(
        ForeignKey("instrument.id", ondelete="SET NULL"), index=True
    )
    temperature_c: Mapped[float | None]
    taken_at: Mapped[dt.datetime | None]
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)


class SurveyLine(Record):
    """One line of a survey: a way surface, or a plate's line by its name."""

    __tablename__ = "survey_line"
    __table_args__ = table_args(Index("ix_survey_line_survey_position", "survey_id", "position"))

    survey_id: Mapped[int] = mapped_column(ForeignKey("survey.id", ondelete="CASCADE"))
    name: Mapped[str]
    position: Mapped[int] = mapped_column(default=0)


class SurveyReading(Record):
    """One reading: which run (1 there, 2 back), which place in the line, as typed and its value in the survey's unit.

    For a step method ``value`` is the slope figure; for heights it is mm.
    """

    __tablename__ = "survey_reading"
    __table_args__ = table_args(Index("ix_survey_reading_line_run", "line_id", "run", "place"))

    line_id: Mapped[int] = mapped_column(ForeignKey("survey_line.id", ondelete="CASCADE"))
    run: Mapped[int] = mapped_column(default=1)
    place: Mapped[int]
    typed: Mapped[str]
    value: Mapped[float]
