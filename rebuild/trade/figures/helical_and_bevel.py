"""Figures of helical and bevel gears; ``GROUP`` is the gears'."""

from __future__ import annotations

from rebuild.trade.figures.inputs import figured, length, maybe_length, number, text, whole
from rebuild.trade.gears.bevel import Bevel, bevel_pair
from rebuild.trade.gears.blank import BLANK_UNDER_MM
from rebuild.trade.gears.helical import helical_gear, helix_for_centres
from rebuild.trade.gears.pitches import read_pitch
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine

GROUP = "Gears"


def _helical(entries: Entries) -> Figured:
    worked = helical_gear(
        entries.whole("teeth"), read_pitch(entries.text("pitch")), entries.number("helix"), entries.number("angle"),
        entries.number("shift"), entries.mm("ball") if entries.given("ball") else None,
    )  # fmt: skip
    found = worked.value
    answers = (
        Answer("pitch diameter", found.pitch_diameter_mm, "mm", 4),
        Answer("outside", found.outside_mm, "mm", 4),
        Answer("lead", found.lead_mm, "mm", 3),
        Answer("transverse pressure angle", found.transverse_angle_deg, "°", 4),
        Answer("virtual teeth", found.virtual_teeth, "", 2),
        Answer(
            "cutter",
            str(found.cutter) if found.cutter else "none of the set of eight",
            note="by the virtual teeth",
        ),
        Answer("over balls", found.over_balls_mm, "mm", 4, f"of {found.ball_mm:.3f} mm, without backlash"),
    )
    spec = SpecLine(
        "outside", found.outside_mm, found.outside_mm - BLANK_UNDER_MM, found.outside_mm, "helical gear blank"
    )
    return figured(worked, answers, (spec,))


def _helix(entries: Entries) -> Figured:
    worked = helix_for_centres(
        entries.whole("teeth"),
        entries.whole("mate"),
        read_pitch(entries.text("pitch")),
        entries.mm("centres"),
    )
    return figured(
        worked, (Answer("helix angle", worked.value, "°", 4, "opposite hands on parallel shafts"),)
    )


def _bevel(entries: Entries) -> Figured:
    worked = bevel_pair(
        entries.whole("pinion"), entries.whole("gear"), read_pitch(entries.text("pitch")), entries.number("shafts"),
        entries.number("dedendum"),
    )  # fmt: skip
    pair = worked.value
    answers = [
        Answer("cone distance", pair.cone_mm, "mm", 3),
        Answer("face at most", pair.most_face_mm, "mm", 2),
    ]
    specs = []
    for name, one in (("pinion", pair.pinion), ("gear", pair.gear)):
        answers += _one(name, one)
        specs.append(
            SpecLine(
                f"{name} outside",
                one.outside_mm,
                one.outside_mm - BLANK_UNDER_MM,
                one.outside_mm,
                "bevel gear blank",
            )
        )
    return figured(worked, tuple(answers), tuple(specs))


def _one(name: str, one: Bevel) -> tuple[Answer, ...]:
    return (
        Answer(f"{name}: pitch cone", one.pitch_cone_deg, "°", 3),
        Answer(f"{name}: turn the face at", one.face_cone_deg, "°", 3),
        Answer(f"{name}: cut at", one.root_cone_deg, "°", 3),
        Answer(f"{name}: outside", one.outside_mm, "mm", 3),
        Answer(f"{name}: point to tip circle", one.crown_mm, "mm", 3, "along the axis"),
        Answer(f"{name}: virtual teeth", one.virtual_teeth, "", 1),
    )


_PITCH = "Type it as module 2, DP 10 or CP 1/4."

FIGURES: tuple[Figure, ...] = (
    Figure(
        "helical-gear",
        "Helical gear",
        GROUP,
        (
            whole("teeth", "Teeth"),
            text("pitch", "Normal pitch", note=_PITCH),
            number("helix", "Helix angle", unit="°", above=0, most=60),
            number("angle", "Normal pressure angle", "20", unit="°"),
            number("shift", "Profile shift", "0", note="In normal modules."),
            maybe_length("ball", "Ball", note="1.728 modules unless given."),
        ),
        _helical,
        {"teeth": "20", "pitch": "module 2", "helix": "30"},
        "Blank, lead, cutter, size over balls.",
    ),
    Figure(
        "helix-from-centres",
        "Helix angle from the centres",
        GROUP,
        (
            whole("teeth", "Teeth"),
            whole("mate", "Teeth of the mate"),
            text("pitch", "Normal pitch", note=_PITCH),
            length("centres", "Centres"),
        ),
        _helix,
        {"teeth": "20", "mate": "40", "pitch": "module 2", "centres": "69.282"},
        "Which helix two worn gears had.",
    ),
    Figure(
        "bevel-gears",
        "Bevel gears",
        GROUP,
        (
            whole("pinion", "Pinion teeth"),
            whole("gear", "Gear teeth"),
            text("pitch", "Pitch at the large end", note=_PITCH),
            number("shafts", "Shaft angle", "90", unit="°"),
            number("dedendum", "Dedendum", "1.25", unit="modules", note="1.157 of 14.5° teeth."),
        ),
        _bevel,
        {"pinion": "20", "gear": "40", "pitch": "module 3"},
        "Cones, blanks and cutter of a straight pair.",
    ),
)
