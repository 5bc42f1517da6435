"""The Survey page: ways and plates, read line by line, worked out and drawn."""

from rebuild.window.way_survey.page import SurveyPage

__all__ = ["SurveyPage"]
