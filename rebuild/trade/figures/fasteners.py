"""Figures of bolts, set screws and dowels (gathered by ``joints``)."""

from __future__ import annotations

from rebuild.trade.joints import bolts, dowels, set_screws as screws
from rebuild.trade.joints.engagement import engagement
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.results.working import joined
from rebuild.trade.shop.materials import wanted
from rebuild.trade.sizes.amounts import LBF_FT_NM, LBF_IN_NM

GROUP = "Joints"
_LENGTH, _TEXT, _CHOICE, _NUMBER = InputKind.LENGTH, InputKind.TEXT, InputKind.CHOICE, InputKind.NUMBER


def _bolt(entries: Entries) -> Figured:
    thread = bolts.bolt_thread(entries.text("bolt"))
    strength = bolts.proof(entries.text("grade"), thread.d_mm)
    factor = entries.number("k") if entries.given("k") else bolts.NUT_FACTORS[entries.choice("condition")]
    found = bolts.tighten(thread, strength, factor, entries.number("share"))
    low, high = found.value.torque_range_Nm
    answers = [
        Answer("stress area", thread.area_mm2, "mm²", 2),
        Answer("proof strength", strength.proof_MPa, "MPa", 0),
        Answer("preload", found.value.preload_kN, "kN", 3),
        Answer("torque", found.value.torque_Nm, "N·m", 2, f"{low:.1f} to {high:.1f} with K's scatter"),
        Answer("torque", found.value.torque_Nm / LBF_FT_NM, "lbf·ft", 2),
    ]
    parts = [found.working]
    if entries.given("tapped"):
        length = entries.mm("engaged") if entries.given("engaged") else None
        match = wanted(entries.text("tapped"), "Tapped into")
        deep = engagement(thread, found.value.preload_kN, match.material, length)
        answers.append(Answer("engagement wanted", deep.value.wanted_mm, "mm"))
        answers.append(Answer("that thread bears", deep.value.bears_kN, "kN", 1))
        parts.append(deep.working)
    return Figured(tuple(answers), joined(found.working.title, parts))


def _set_screw(entries: Entries) -> Figured:
    found = screws.hold(
        screws.set_screw(entries.text("screw")),
        entries.mm("shaft"),
        entries.choice("point"),
        entries.choice("pair"),
        entries.choice("hard-shaft") == "yes",
    )
    answers = (
        Answer("seating torque", found.value.seating_Nm, "N·m", 2),
        Answer("seating torque", found.value.seating_Nm / LBF_IN_NM, "lbf·in", 0),
        Answer("holds along the shaft", found.value.axial_N, "N", 0, "typical, no safety in it"),
        Answer("holds as torque", found.value.torque_Nm, "N·m", 2, "typical, no safety in it"),
    )
    return Figured(answers, found.working)


def _dowel(entries: Entries) -> Figured:
    if entries.given("hole"):
        gripping = dowels.for_hole(entries.mm("hole"))
        answers = tuple(
            Answer(f"{rank}.", one.name, note=f"{one.low_mm:.4f} to {one.high_mm:.4f} mm")
            for rank, one in enumerate(gripping.value, start=1)
        )
        return Figured(answers, gripping.working)
    found = dowels.dowel(entries.mm("diameter"), entries.choice("series"))
    one = found.value
    cite = one.source.cite()
    specs = [SpecLine(one.name, one.nominal_mm, one.low_mm, one.high_mm, cite)]
    lines = [Answer("pin, smallest", one.low_mm, "mm", 4), Answer("pin, largest", one.high_mm, "mm", 4)]
    if one.hole_mm:
        lines += [Answer("hole, smallest", one.hole_mm[0], "mm", 4)]
        lines += [Answer("hole, largest", one.hole_mm[1], "mm", 4)]
        specs.append(SpecLine(f"hole for {one.name}", one.nominal_mm, *one.hole_mm, cite))
    return Figured(tuple(lines), found.working, tuple(specs), cautions=found.working.cautions())


FIGURES: tuple[Figure, ...] = (
    Figure(
        "bolt",
        "Bolt torque and engagement",
        GROUP,
        (
            Input("bolt", "Bolt", _TEXT, "", help="M10, M10x1.25, 3/8-16"),
            Input("grade", "Class or grade", _TEXT, "8.8", help="8.8, 10.9, grade 5, grade 8"),
            Input("condition", "Thread and face", _CHOICE, "dry", choices=tuple(bolts.NUT_FACTORS)),
            Input("k", "or: nut factor K", _NUMBER, required=False),
            Input("share", "Share of proof load", _NUMBER, "0.75"),
            Input("tapped", "Tapped into", _TEXT, required=False, help="e.g. cast iron; empty: a nut"),
            Input("engaged", "Thread engaged", _LENGTH, unit="mm", required=False),
        ),
        _bolt,
        {"bolt": "M10", "grade": "8.8", "tapped": "cast iron"},
        "T = K F d from proof load, and the thread a tapped casting must give.",
    ),
    Figure(
        "set-screw",
        "Set screw",
        GROUP,
        (
            Input("screw", "Set screw", _TEXT, "", help="1/4, #10, M6"),
            Input("shaft", "Shaft diameter", _LENGTH, "", "in"),
            Input("point", "Point", _CHOICE, "cup", choices=tuple(screws.POINTS)),
            Input("pair", "Arrangement", _CHOICE, "one", choices=tuple(screws.PAIRS)),
            Input("hard-shaft", "Hard shaft", _CHOICE, "no", choices=("no", "yes")),
        ),
        _set_screw,
        {"screw": "5/16-18", "shaft": "5/8"},
        "Seating torque and what one or two screws hold.",
    ),
    Figure(
        "dowel",
        "Dowel and its hole",
        GROUP,
        (
            Input("diameter", "Nominal diameter", _LENGTH, "", "in", required=False),
            Input("series", "Series", _CHOICE, dowels.STANDARD, choices=dowels.SERIES),
            Input("hole", "or: a worn hole as measured", _LENGTH, unit="in", required=False),
        ),
        _dowel,
        {"diameter": "1/4", "series": "standard"},
        "Pin and hole limits; for a worn hole the oversize or next pin that grips.",
    ),
)
