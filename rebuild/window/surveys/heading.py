"""What stands over the readings of a survey, and the unit its lengths were meant in."""

from __future__ import annotations

from rebuild.trade.sizes.show import exact_text
from rebuild.words.surveys import BETWEEN_STATIONS
from rebuild.work.surveys.data import SurveyData

_UNITS = {"in": "inches", "in/ft": "inches a foot"}


def own_unit(data: SurveyData) -> str:
    """The unit a survey's lengths were meant in."""
    return "in" if data.unit in ("in", "in/ft") else "mm"


def heading(data: SurveyData) -> str:
    """Name, method, unit and step, and how many stations the steps give."""
    words = [data.method.value, f"readings in {_UNITS.get(data.unit, data.unit)}"]
    if data.step_mm:
        words.append(f"step {exact_text(data.step_mm, own_unit(data))} {own_unit(data)}")
    if data.method in BETWEEN_STATIONS:
        words.append("n steps give n + 1 stations; the bridge length must be the step")
    return f"{data.name}: {', '.join(words)}"
