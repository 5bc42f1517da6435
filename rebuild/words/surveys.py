"""Words of surveys."""

from __future__ import annotations

from enum import StrEnum


class SurveyMethod(StrEnum):
    """How a line of a way or plate was read."""

    LEVEL = "level, step by step"
    AUTOCOLLIMATOR = "autocollimator, step by step"
    INDICATOR = "indicator from a reference"
    THICKNESS = "micrometer over the thickness"
    LASER = "laser, heights"
    ACROSS = "level across the ways"
    PLATE = "plate by eight lines"
    LEADSCREW = "leadscrew against a length standard"
    DIAL = "dial against an indicator"


#: Methods whose readings are slopes over a step.
BY_STEPS = (SurveyMethod.LEVEL, SurveyMethod.AUTOCOLLIMATOR, SurveyMethod.ACROSS, SurveyMethod.PLATE)

#: Methods whose readings are errors over a length, judged as they are and not against a line laid through them.
AS_ERRORS = (SurveyMethod.LEADSCREW, SurveyMethod.DIAL)

#: Methods whose readings stand for the step between two stations: n of them give n + 1 stations.
BETWEEN_STATIONS = (SurveyMethod.LEVEL, SurveyMethod.AUTOCOLLIMATOR, SurveyMethod.PLATE)
