"""The records of ``tables/surveys``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.surveys import SurveyLines, SurveyReadings, Surveys


class Survey(Record, Surveys):
    """One row of ``Surveys``."""


class SurveyLine(Record, SurveyLines):
    """One row of ``SurveyLines``."""


class SurveyReading(Record, SurveyReadings):
    """One row of ``SurveyReadings``."""
