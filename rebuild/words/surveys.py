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


#: Methods whose readings are slopes over a step.
BY_STEPS = (SurveyMethod.LEVEL, SurveyMethod.AUTOCOLLIMATOR, SurveyMethod.ACROSS, SurveyMethod.PLATE)
