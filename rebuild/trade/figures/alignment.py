"""Figures of alignment: both ways and the work, two collars, sag of a bar, leadscrew and dial errors."""

from __future__ import annotations

from rebuild.trade.figures.inputs import choice, figured, length, maybe_length, number, text
from rebuild.trade.geometry.bar_sag import Held, bar_sag
from rebuild.trade.geometry.lead_error import dial_error, lead_error
from rebuild.trade.geometry.two_collar import two_collars
from rebuild.trade.geometry.ways import Guide, ways_effect, worn_flanks
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured
from rebuild.trade.sizes.quantity import parse_length

GROUP = "Ways and geometry"


def _ways(entries: Entries) -> Figured:
    worked = ways_effect(
        entries.mm("front"),
        entries.mm("rear"),
        entries.mm("height"),
        entries.mm("spacing"),
        entries.mm("diameter"),
        Guide(entries.choice("guide")),
        entries.mm("sideways"),
    )
    found = worked.value
    answers = (
        Answer("on the diameter", found.diameter_error_mm, "mm", 4, "larger when positive"),
        Answer("by 2 (f - r) H / B", found.approximate_mm, "mm", 4),
        Answer("tool moves out", found.tool_out_mm, "mm", 4),
        Answer("tool moves down", found.tool_down_mm, "mm", 4),
        Answer("tilt", found.tilt_deg, "°", 4),
    )
    return figured(worked, answers)


def _flanks(entries: Entries) -> Figured:
    worked = worn_flanks(entries.mm("front"), entries.mm("rear"), entries.number("angle"))
    answers = (
        Answer("apex goes down", worked.value.down_mm, "mm", 4),
        Answer("apex goes to the front", worked.value.to_front_mm, "mm", 4, "twice that on the diameter"),
    )
    return figured(worked, answers)


def _collars(entries: Entries) -> Figured:
    worked = two_collars(
        entries.mm("chuck"),
        entries.mm("free"),
        entries.mm("between"),
        entries.mm("per"),
        entries.mm("screw") if entries.given("screw") else None,
        entries.mm("allowed") if entries.given("allowed") else None,
    )
    found = worked.value
    answers = [
        Answer("free end leans", found.over_collars_mm, "mm", 4, "away from the tool when positive"),
        Answer("over the length asked", found.over_per_mm, "mm", 4),
    ]
    if found.at_screw_mm is not None:
        answers.append(
            Answer("move at the screw", found.at_screw_mm, "mm", 4, "towards the operator when positive")
        )
    if found.within is not None:
        answers.append(Answer("allowed", "within" if found.within else "not within"))
    return figured(worked, tuple(answers))


def _sag(entries: Entries) -> Figured:
    worked = bar_sag(
        entries.mm("outside"),
        entries.mm("length"),
        Held(entries.choice("held")),
        entries.mm("bore") if entries.given("bore") else 0.0,
        entries.text("material"),
    )
    answers = (
        Answer("sag", worked.value.sag_mm, "mm", 4),
        Answer("slope", worked.value.slope_mm_per_m, "mm/m", 4),
    )
    return figured(worked, answers)


def _sizes(entries: Entries, name: str, label: str) -> list[float]:
    """Signed sizes with spaces between; a unit behind the last one is that of all."""
    words = entries.text(name).replace(";", " ").split()
    unit = words.pop() if words and words[-1] in ("mm", "in", "µm", "thou") else entries.unit or "mm"
    return [
        parse_length(word, unit, f"{label} {at}", decimal_comma=entries.comma).mm
        for at, word in enumerate(words, start=1)
    ]


def _lead(entries: Entries) -> Figured:
    errors = _sizes(entries, "errors", "Error")
    step = entries.mm("step")
    worked = lead_error([step * at for at in range(len(errors))], errors, entries.mm("over"))
    found = worked.value
    answers = (
        Answer("whole", found.whole_mm, "mm", 4),
        Answer("worst over the length asked", found.worst_mm, "mm", 4, f"from {found.worst_from_mm:g} mm on"),
        Answer("grows evenly over it by", found.even_mm, "mm", 4),
        Answer("left without that", found.left_mm, "mm", 4),
    )
    return figured(worked, answers)


def _dial(entries: Entries) -> Figured:
    worked = dial_error(_sizes(entries, "errors", "Error"))
    found = worked.value
    answers = (
        Answer("whole", found.whole_mm, "mm", 4),
        Answer("mark to mark", found.worst_step_mm, "mm", 4),
        Answer("over the turn", found.even_mm, "mm", 4, "screw against divisions"),
        Answer("runs out, half", found.wave_mm, "mm", 4, f"highest at {found.highest_deg:.0f}°"),
        Answer("left", found.left_mm, "mm", 4),
    )
    return figured(worked, answers)


_ERRORS = "numbers with spaces between, the unit behind the last"

FIGURES: tuple[Figure, ...] = (
    Figure("both-ways", "Front and rear way worn", GROUP,
        (length("front", "Front way low by", note="Below the unworn height; negative above it.", signed=True),
         length("rear", "Rear way low by", signed=True),
         length("height", "Centre height over the ways"), length("spacing", "Way spacing"),
         length("diameter", "Work diameter"), choice("guide", "Held sideways by", tuple(Guide)),
         length("sideways", "Guide gone to the front by", "0 mm", signed=True)),
        _ways,
        {"front": "0.10 mm", "rear": "0.04 mm", "height": "165 mm", "spacing": "280 mm", "diameter": "40 mm"},
        "A worn front way turns larger, a worn rear way smaller; worn alike they hardly show."),
    Figure("worn-flanks", "A V worn on its flanks", GROUP,
        (length("front", "Front flank worn by"), length("rear", "Rear flank worn by", "0 mm"),
         number("angle", "Flank from the level", "45", unit="°")),
        _flanks, {"front": "0.02 mm"}, "Down, and sideways towards the flank worn more."),
    Figure("two-collars", "Two-collar test of the spindle", GROUP,
        (length("chuck", "Collar at the chuck"), length("free", "Collar at the free end"),
         length("between", "Between their middles"), length("per", "Lean given over", "300 mm"),
         maybe_length("screw", "Headstock pivot to its screw"), maybe_length("allowed", "Allowed over that length")),
        _collars, {"chuck": "40.000 mm", "free": "40.012 mm", "between": "150 mm"},
        "Tail free, one setting of the tool: how the spindle leans, and what to move."),
    Figure("bar-sag", "Sag of a test bar", GROUP,
        (length("outside", "Outside diameter"), length("length", "Free length"),
         choice("held", "Held", tuple(Held)), maybe_length("bore", "Bore"), text("material", "Material", "steel")),
        _sag, {"outside": "40 mm", "length": "300 mm"}, "By its own weight: taken off an upright reading."),
    Figure("lead-error", "Leadscrew error over its length", GROUP,
        (text("errors", "Errors in order", note=_ERRORS), length("step", "Between stations"),
         length("over", "Counted over", "300 mm")),
        _lead, {"errors": "0 0.004 0.009 0.020 0.024 0.026 0.027 mm", "step": "100 mm"},
        "The worst over a length, what grows evenly and what does not."),
    Figure("dial-check", "Graduations of a dial", GROUP,
        (text("errors", "Indicator less dial, mark by mark", note=f"{_ERRORS}; the first mark again at the end"),),
        _dial, {"errors": "0 0.004 0.007 0.008 0.006 0.001 -0.003 -0.002 0.001 mm"},
        "What runs out, and what the screw and its divisions disagree by."),
)  # fmt: skip
