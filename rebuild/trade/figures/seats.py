"""Figures of seats, grooves and slots: clearance holes, T-slots, retaining rings, splines, squares."""

from __future__ import annotations

from rebuild.trade.figures.inputs import choice, figured, length, maybe_length, text, whole
from rebuild.trade.joints.clearance_holes import SERIES, clearance_hole
from rebuild.trade.joints.retaining_rings import BORE, SHAFT, ring_groove
from rebuild.trade.joints.splines import INCH, INVOLUTE, identify_spline
from rebuild.trade.joints.squares import square
from rebuild.trade.limits.iso286 import it_grade_um, limits
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine, Zone
from rebuild.trade.results.likeness import answers_of
from rebuild.trade.shop.t_slots import t_slot

GROUP = "Seats, grooves and slots"
#: Tolerances of an ISO 14 shaft by fit: width, minor diameter.
_TO_SUIT = "An inch shaft is made to suit its hole: measure the hub, or copy the old shaft."
_BY_MINOR = "Between the splines, across the shaft; the series differ in nothing else."
_SPLINE_FITS = {"sliding": ("d10", "f7"), "close": ("f9", "g7"), "fixed": ("h10", "h7")}


def _clearance(entries: Entries) -> Figured:
    thread = entries.text("bolt").strip().upper().removeprefix("M").strip()
    worked = clearance_hole(_bolt_mm(entries, thread), entries.choice("series"))
    found = worked.value
    answers = (Answer("hole", found.hole_mm, "mm", 2), Answer("at most", found.high_mm, "mm", 3))
    spec = SpecLine("clearance hole", found.hole_mm, found.hole_mm, found.high_mm, found.source.name)
    return figured(worked, answers, (spec,))


def _bolt_mm(entries: Entries, thread: str) -> float:
    return Entries((length("bolt", "Bolt"),), {"bolt": thread}, entries.comma).mm("bolt")


def _t_slot(entries: Entries) -> Figured:
    worked = t_slot(entries.mm("throat"))
    slot = worked.value
    wide = it_grade_um(slot.throat_mm, "12") / 1000
    specs = (
        SpecLine("throat", slot.throat_mm, slot.throat_mm, slot.throat_mm + wide, "T-slot, H12"),
        SpecLine("recess width", None, *slot.recess_mm, "T-slot"),
        SpecLine("recess depth", None, *slot.recess_depth_mm, "T-slot"),
        SpecLine("whole depth", None, *slot.whole_mm, "T-slot"),
    )
    answers = (
        Answer("bolt", slot.bolt),
        *(Answer(spec.label, f"{spec.low_mm:g} to {spec.high_mm:g}", "mm") for spec in specs),
    )
    return figured(worked, answers, specs)


def _ring(entries: Entries) -> Figured:
    kind = entries.choice("on")
    worked = ring_groove(kind, entries.mm("size"))
    found = worked.value
    answers = (
        Answer("groove, low", found.low_mm, "mm", 3),
        Answer("groove, high", found.high_mm, "mm", 3),
        Answer("width, low", found.width_low_mm, "mm", 3),
        Answer("width, high", found.width_high_mm, "mm", 3),
        Answer("depth", found.depth_mm, "mm", 3),
        Answer("land beside it, at least", found.land_mm, "mm", 2),
        Answer("ring", found.ring_mm, "mm", 2, "thick"),
    )
    standard = "DIN 471" if kind == SHAFT else "DIN 472"
    specs = (
        SpecLine("groove diameter", None, found.low_mm, found.high_mm, standard),
        SpecLine("groove width", None, found.width_low_mm, found.width_high_mm, f"{standard}, H13"),
    )
    return figured(worked, answers, specs)


def _spline(entries: Entries) -> Figured:
    worked = identify_spline(
        entries.whole("splines"),
        entries.mm("outside"),
        entries.mm("width"),
        entries.mm("minor") if entries.given("minor") else None,
        entries.mm("tolerance"),
    )
    best = worked.value[0]
    answers = answers_of(
        [one.likeness for one in worked.value],
        f"Held are ISO 14 and the inch proportions of SAE J499; a maker's own spline is copied. {INVOLUTE}",
    )
    if not best.likeness.agrees:
        return figured(worked, answers)
    one = best.spline
    if sum(guess.likeness.agrees for guess in worked.value) > 1:
        return figured(
            worked, (*answers, Answer("which of them", "read the minor diameter too", note=_BY_MINOR))
        )
    answers += (
        Answer("height of a spline", one.height_mm, "mm", 3),
        Answer("gap at the minor circle", one.gap_mm, "mm", 3),
    )
    if one.standard == INCH:
        return figured(worked, (*answers, Answer("limits of a new shaft", "none held", note=_TO_SUIT)))
    width, minor = _SPLINE_FITS[entries.choice("fit")]
    specs = (_iso("spline width", one.width_mm, width), _iso("minor diameter", one.minor_mm, minor))
    zones = tuple(
        Zone(
            f"{spec.label} {origin}",
            (spec.low_mm or 0.0) - (spec.nominal_mm or 0.0),
            (spec.high_mm or 0.0) - (spec.nominal_mm or 0.0),
            "shaft",
        )
        for spec, origin in zip(specs, (width, minor), strict=True)
    )
    return figured(worked, answers, specs, zones)


def _iso(label: str, nominal_mm: float, tolerance: str) -> SpecLine:
    found = limits(nominal_mm, tolerance).value
    return SpecLine(label, nominal_mm, found.low_mm, found.high_mm, f"ISO 14 shaft, {tolerance}")


def _square(entries: Entries) -> Figured:
    worked = square(entries.mm("across"), entries.mm("stock"))
    found = worked.value
    answers = (
        Answer(
            "over the corners",
            found.corners_mm,
            "mm",
            3,
            "sharp" if found.corners_left else "round, as the stock",
        ),
        Answer("mill each flat", found.depth_mm, "mm", 3, "deep"),
        Answer("sharp corners from stock of", found.full_from_mm, "mm", 3),
    )
    return figured(worked, answers)


FIGURES: tuple[Figure, ...] = (
    Figure(
        "clearance-hole",
        "Clearance hole for a bolt",
        GROUP,
        (
            text("bolt", "Bolt", note="As M10 or 10."),
            choice("series", "Series", ("medium", *(one for one in SERIES if one != "medium"))),
        ),
        _clearance,
        {"bolt": "M10"},
        "ISO 273, with its limits.",
    ),
    Figure(
        "t-slot",
        "T-slot of a table",
        GROUP,
        (length("throat", "Throat as measured"),),
        _t_slot,
        {"throat": "14.2"},
        "ISO 299: what it was, and the limits to clean up to.",
    ),
    Figure(
        "ring-groove",
        "Groove of a retaining ring",
        GROUP,
        (choice("on", "Ring for a", (SHAFT, BORE)), length("size", "Shaft or bore")),
        _ring,
        {"size": "25"},
        "DIN 471 and 472: groove, width, land.",
    ),
    Figure(
        "spline",
        "Which straight-sided spline",
        GROUP,
        (
            whole("splines", "Splines"),
            length("outside", "Outside"),
            length("width", "Width of a spline"),
            maybe_length("minor", "Minor, between them"),
            length("tolerance", "Readings good to", "0.1"),
            choice("fit", "Fit of the shaft", tuple(_SPLINE_FITS)),
        ),
        _spline,
        {"splines": "6", "outside": "25.8", "width": "5.9"},
        "ISO 14 and inch (SAE J499) by count, outside and width; limits of a new ISO 14 shaft. No involute ones.",
        inch_example={"splines": "6", "outside": "1.248", "width": ".311", "tolerance": ".004"},
    ),
    Figure(
        "square",
        "Square on round stock",
        GROUP,
        (length("across", "Across the flats"), length("stock", "Round stock")),
        _square,
        {"across": "14", "stock": "20"},
        "Corners, depth to mill, stock for sharp corners.",
    ),
)
