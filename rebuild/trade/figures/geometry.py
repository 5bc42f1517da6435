"""Figures of geometry: lost motion split, straightness of a line, V-block and square readings."""

from __future__ import annotations

from rebuild.trade.figures.inputs import choice, figured, length, number, text
from rebuild.trade.geometry.contact import contact
from rebuild.trade.geometry.lost_motion import split
from rebuild.trade.geometry.roundness import from_v_block
from rebuild.trade.geometry.slope_entry import parse_division
from rebuild.trade.geometry.squareness import by_reversal
from rebuild.trade.geometry.steps import SlopeUnit, heights_of, slope_um_per_m
from rebuild.trade.geometry.straightness import Reference, straightness
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured
from rebuild.trade.results.working import Worked, joined
from rebuild.trade.sizes.number import read_number

GROUP = "Ways and geometry"


def _lost_motion(entries: Entries) -> Figured:
    places = {
        label: entries.mm(name)
        for name, label in (("outer", "outer end"), ("middle", "middle"), ("inner", "inner end"))
    }
    worked = split(places, entries.mm("end-play"))
    found = worked.value
    answers = [Answer("collar", found.collar_mm, "mm"), Answer("nut", found.nut_mm, "mm")]
    answers += [Answer(f"screw at the {place}", value, "mm") for place, value in found.screw_mm.items()]
    answers += [Answer(f"left after: {cure}", value, "mm") for cure, value in found.after_cure_mm.items()]
    return figured(worked, tuple(answers))


def _numbers(entries: Entries, name: str, label: str) -> list[float]:
    ways = "Type numbers with spaces between."
    return [
        read_number(word, f"{label} {at}", decimal_comma=entries.comma, ways=ways)
        for at, word in enumerate(entries.text(name).replace(";", " ").split(), start=1)
    ]


def _straightness(entries: Entries) -> Figured:
    unit = SlopeUnit(entries.choice("unit"))
    typed = entries.text("division") if entries.given("division") else ""
    division = parse_division(typed, "One division", decimal_comma=entries.comma) if typed else None
    slopes = [slope_um_per_m(value, unit, division) for value in _numbers(entries, "readings", "Reading")]
    heights = heights_of(slopes, entries.mm("step"))
    worked = straightness(heights.value, Reference(entries.choice("against")))
    answers = [
        Answer("deviation", worked.value.deviation_mm, "mm", 4, worked.value.shape.value),
        *(
            Answer(f"station {at + 1}", residual, "mm", 4, f"take off {remove * 1000:.1f} µm")
            for at, (residual, remove) in enumerate(
                zip(worked.value.residual_mm, worked.value.to_remove_mm, strict=True)
            )
        ),
    ]
    whole = Worked(worked.value, joined("Straightness from steps", (heights.working, worked.working)))
    return figured(whole, tuple(answers))


def _v_block(entries: Entries) -> Figured:
    worked = from_v_block(entries.mm("reading"), entries.number("angle"))
    answers = tuple(
        Answer(f"{lobes} lobes", "blind" if value is None else value, "" if value is None else "mm", 4)
        for lobes, value in worked.value.by_lobes.items()
    )
    return figured(worked, answers)


def _square(entries: Entries) -> Figured:
    worked = by_reversal(entries.mm("first"), entries.mm("turned"), entries.mm("travel"))
    found = worked.value
    return figured(
        worked,
        (
            Answer("machine", found.machine_mm, "mm", 4),
            Answer("the square itself", found.square_mm, "mm", 4),
            Answer("machine as an angle", found.machine_arcsec, "arcsec", 1),
        ),
    )


def _points(entries: Entries) -> Figured:
    worked = contact(entries.whole("points"), entries.number("window"))
    return figured(
        worked,
        (Answer("points", worked.value.points_per_in2, "per in²", 1), Answer("good for", worked.value.use)),
    )


_UNITS = tuple(unit.value for unit in SlopeUnit)

FIGURES: tuple[Figure, ...] = (
    Figure(
        "lost-motion",
        "Lost motion of a feed screw, split",
        GROUP,
        (
            length("outer", "At the outer end", unit="in"),
            length("middle", "In the middle", unit="in"),
            length("inner", "At the inner end", unit="in"),
            length("end-play", "End play of the collar", unit="in"),
        ),
        _lost_motion,
        {"outer": "0.014", "middle": "0.038", "inner": "0.016", "end-play": "0.006"},
        about="Collar, nut and screw each have their share; only the first two can be adjusted out.",
    ),
    Figure(
        "straightness",
        "Straightness from level or autocollimator steps",
        GROUP,
        (
            text("readings", "Readings in order", note="numbers with spaces between"),
            choice("unit", "Unit", ("mm/m", *(unit for unit in _UNITS if unit != "mm/m"))),
            text("division", "One division", note="only for divisions, as 0.02 mm/m", required=False),
            length("step", "Step (bridge length)"),
            choice("against", "Against", tuple(reference.value for reference in Reference)),
        ),
        _straightness,
        {"readings": "0.02 0.04 0.06 0.02 -0.02", "step": "200 mm"},
        about="n readings give n + 1 stations; the bridge length must be the step.",
    ),
    Figure(
        "v-block",
        "Roundness in a V-block",
        GROUP,
        (
            length("reading", "Total indicator reading"),
            number("angle", "Angle of the block", "90", unit="°"),
        ),
        _v_block,
        {"reading": "0.01 mm"},
        about="Some numbers of lobes hide from some blocks, and all odd ones from a diameter.",
    ),
    Figure(
        "squareness",
        "Squareness by reversal of the square",
        GROUP,
        (
            length("first", "As it stands", signed=True),
            length("turned", "Turned over", signed=True),
            length("travel", "Travel along the blade"),
        ),
        _square,
        {"first": "0.012 mm", "turned": "0.004 mm", "travel": "200 mm"},
    ),
    Figure(
        "scraped-points",
        "Points of a scraped surface",
        GROUP,
        (
            number("points", "Points counted"),
            number("window", "In a window of", "1", unit="in²", above=0, most=100),
        ),
        _points,
        {"points": "15"},
    ),
)
