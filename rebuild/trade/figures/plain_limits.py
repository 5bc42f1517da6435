"""Figures of limits nothing is asked of: general tolerances and bare standard tolerances; ``GROUP`` is the limits'."""

from __future__ import annotations

from rebuild.trade.figures.inputs import choice, figured, length, text
from rebuild.trade.limits.general import (
    CLASSES,
    angle_tolerance,
    edge_tolerance,
    general_tolerance,
    standard_tolerance,
)
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine, Zone
from rebuild.trade.results.working import Worked

GROUP = "Limits and fits"
LENGTH, EDGE, ANGLE = "a length or diameter", "an outside radius or chamfer", "an angle"


def _general(entries: Entries) -> Figured:
    size, kind = entries.mm("size"), entries.choice("of")
    if kind == ANGLE:
        minutes = angle_tolerance(size, entries.choice("class"))
        whole, part = divmod(round(minutes.value), 60)
        return figured(
            minutes, (Answer("plus and minus", f"{whole}° {part:02d}′", note="by the shorter side"),)
        )
    if kind == EDGE:
        worked = edge_tolerance(size, entries.choice("class"))
        return _plus_and_minus(entries, worked, size)
    worked = general_tolerance(size, entries.choice("class"))
    return _plus_and_minus(entries, worked, size)


def _plus_and_minus(entries: Entries, worked: Worked[float], size: float) -> Figured:
    plus = worked.value
    answers = (
        Answer("plus and minus", plus, "mm", 2),
        Answer("low", size - plus, "mm", 2),
        Answer("high", size + plus, "mm", 2),
    )
    spec = SpecLine("size", size, size - plus, size + plus, f"ISO 2768-{entries.choice('class')}")
    return figured(worked, answers, (spec,), (Zone("general", -plus, plus, "limit"),))


def _grade(entries: Entries) -> Figured:
    worked = standard_tolerance(entries.mm("size"), entries.text("grade"))
    return figured(worked, (Answer("tolerance", worked.value, "mm", 4, "a width, not a place"),))


FIGURES: tuple[Figure, ...] = (
    Figure(
        "general-tolerance",
        "General tolerance of a size",
        GROUP,
        (
            length("size", "Size", note="Of an angle: its shorter side."),
            choice("of", "Of", (LENGTH, EDGE, ANGLE)),
            choice("class", "Class", CLASSES, note="f fine, m medium, c coarse, v very coarse."),
        ),
        _general,
        {"size": "40"},
        "ISO 2768-1, for sizes nothing hangs on: lengths, radii and chamfers, angles.",
    ),
    Figure(
        "it-grade",
        "Standard tolerance of a size",
        GROUP,
        (length("size", "Size"), text("grade", "Grade", note="As 7 or IT7.")),
        _grade,
        {"size": "25", "grade": "IT7"},
        "ISO 286-1, the bare width of a grade.",
    ),
)
