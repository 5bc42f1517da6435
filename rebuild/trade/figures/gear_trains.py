"""Figures of racks, worms and change gears; ``gears`` lists them."""

from __future__ import annotations

from fractions import Fraction

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.figures.inputs import figured, length, number, text, whole
from rebuild.trade.gears.change_gears import find_trains, read_lead, read_wheels
from rebuild.trade.gears.pitches import read_pitch
from rebuild.trade.gears.rack import identify_rack, rack
from rebuild.trade.gears.worm import worm
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured
from rebuild.trade.results.likeness import answers_of
from rebuild.trade.sizes.exact import exact

#: Steepest fixed ratio of a gearbox either way.
MOST_RATIO = 1_000
GROUP = "Gears"


def _rack(entries: Entries) -> Figured:
    worked = rack(read_pitch(entries.text("pitch")), entries.whole("pinion"))
    found = worked.value
    answers = (
        Answer("pitch", found.pitch_mm, "mm", 4),
        Answer("travel per pinion turn", found.travel_mm, "mm", 4),
        Answer("tooth thickness", found.thickness_mm, "mm", 4),
    )
    return figured(worked, answers)


def _identify_rack(entries: Entries) -> Figured:
    worked = identify_rack(entries.mm("run"), entries.whole("pitches"), tolerance_mm=entries.mm("tolerance"))
    none = "Measure over more teeth, from the same flank to the same flank; a helical pinion's rack lies at a slant."
    return figured(worked, answers_of([one.likeness for one in worked.value], none))


def _worm(entries: Entries) -> Figured:
    pitch = read_pitch(entries.text("pitch"))
    worked = worm(pitch, entries.whole("starts"), entries.mm("outside"), entries.whole("wheel"))
    found = worked.value
    answers = (
        Answer("lead", found.lead_mm, "mm", 4),
        Answer("lead angle", found.lead_angle_deg, "°", 3),
        Answer("worm pitch diameter", found.pitch_diameter_mm, "mm", 3),
        Answer("wheel pitch diameter", found.wheel_pitch_diameter_mm, "mm", 3),
        Answer("wheel throat", found.wheel_throat_mm, "mm", 3),
        Answer("centres", found.centre_mm, "mm", 3),
        Answer("ratio", found.ratio, "", 3),
        Answer("normal pitch", found.normal_pitch_mm, "mm", 4),
    )
    return figured(worked, answers)


def _change_gears(entries: Entries) -> Figured:
    worked = find_trains(
        read_lead(entries.text("lead"), entries.whole("starts"), decimal_comma=entries.comma),
        read_lead(entries.text("leadscrew"), decimal_comma=entries.comma),
        read_wheels(entries.text("wheels")),
        gearbox=_ratio(entries.text("gearbox")),
        tolerance_ppm=entries.number("tolerance"),
    )
    answers = tuple(
        Answer(
            train.text(),
            float(train.lead_mm),
            "mm",
            5,
            "exact"
            if train.exact
            else f"{train.error_ppm:+.0f} ppm, {train.error_ppm / 10:+.1f} µm in 100 mm",
        )
        for train in worked.value
    )
    return figured(worked, answers)


def _ratio(typed: str) -> Fraction:
    ratio = exact(
        typed.replace(":", "/"),
        "Fixed ratio",
        typed=typed,
        lost_space=False,
        ways="Type 1 or 1/2.",
        refusal="is not a ratio.",
    )
    if ratio <= 0:
        raise BadEntry("is not above zero.", where="Fixed ratio", value=typed, way_out="Type 1 or 1/2.")
    if not 1 / MOST_RATIO <= ratio <= MOST_RATIO:
        raise OutOfRange(
            f"is not from 1:{MOST_RATIO} to {MOST_RATIO}:1.",
            where="Fixed ratio",
            value=typed[:30],
            way_out="Count the turns of the leadscrew for one turn of the last wheel.",
        )
    return ratio


_PITCH = text("pitch", "Pitch", note="Type it as module 2, DP 10 or CP 1/4.")
_LEAD = "Type it as 8 tpi, 1.5 mm, 1/8 in, module 1 or DP 20."

FIGURES: tuple[Figure, ...] = (
    Figure("rack", "Rack and pinion", GROUP, (_PITCH, whole("pinion", "Pinion teeth")),
        _rack, {"pitch": "DP 14", "pinion": "14"}, "Pitch, thickness, travel per turn."),
    Figure("identify-rack", "Which rack", GROUP,
        (length("run", "Measured run", note="Same flank to same flank."), whole("pitches", "Pitches in it"),
         length("tolerance", "Run good to", "0.2")),
        _identify_rack, {"run": "285.0", "pitches": "50"}, "Standard pitches near a measured run."),
    Figure("worm", "Worm and wheel", GROUP,
        (text("pitch", "Axial pitch", note="Type it as module 2, DP 10 or CP 1/4."), whole("starts", "Starts", "1"),
         length("outside", "Worm outside"), whole("wheel", "Wheel teeth")),
        _worm, {"pitch": "module 2", "outside": "24", "wheel": "40"}, "Lead, lead angle, ratio and centres."),
    Figure("change-gears", "Change gears for a lead", GROUP,
        (text("lead", "Lead or pitch to cut", note=_LEAD), whole("starts", "Starts", "1"),
         text("leadscrew", "Leadscrew", "8 tpi", note=_LEAD),
         text("wheels", "Wheels at hand", "20-100 by 5, 127", note="As 20-80 by 5, 40, 127."),
         text("gearbox", "Fixed ratio", "1", note="Leadscrew turns per turn of the last wheel."),
         number("tolerance", "Error allowed", "2000", unit="ppm", least=0, most=20_000)),
        _change_gears, {"lead": "1.5 mm", "leadscrew": "8 tpi"},
        "Simple and compound trains, exact ones first; 127 joins inch and metric."),
)  # fmt: skip
