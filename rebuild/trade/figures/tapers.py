"""Figures of tapers and angles; taper pins and keys are laid out in ``pins_and_keys``."""

from __future__ import annotations

from rebuild.errors import BadEntry
from rebuild.trade.figures import pins_and_keys
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.results.likeness import AGREES, DOES_NOT, NONE
from rebuild.trade.results.working import Sheet, Worked, Working
from rebuild.trade.sizes.own_unit import both
from rebuild.trade.tapers import (
    angles,
    gauging as taper_gauging,
    identify as taper_identify,
    machine_tapers as tapers,
)

GROUP = "Tapers, pins and keys"
_LENGTH, _TEXT, _CHOICE = InputKind.LENGTH, InputKind.TEXT, InputKind.CHOICE


def _taper(entries: Entries) -> Figured:
    found = tapers.parse_taper(entries.text("taper"))
    depth = entries.mm("depth") if entries.given("depth") else 0.0
    at_depth = tapers.dimensions(found, depth)
    answers = (
        Answer("large end (gauge line)", found.large_mm, "mm"),
        Answer("small end of the plug", found.small_mm, "mm"),
        Answer("plug depth", found.length_mm, "mm"),
        Answer("taper per foot", found.per_foot_in, "in", 5),
        Answer("half angle", found.half_angle_deg, "°", 4, "the compound slide's angle to the axis"),
        Answer("1 : x", found.ratio, "", 3),
        Answer("diameter at the depth", at_depth.value, "mm"),
        Answer("stand-off for 0.001 in on diameter", taper_gauging.stand_off(0.0254, found.rate), "mm"),
    )
    spec = SpecLine(f"{found.name} gauge diameter", found.large_mm, None, None, found.source.cite())
    return Figured(answers, at_depth.working, (spec,))


def _identify(entries: Entries) -> Figured:
    if entries.given("large") and not any(entries.given(name) for name in ("small", "apart", "angle")):
        return _one_diameter(entries.mm("large"))
    by_size = not (entries.given("angle") or entries.given("small"))
    return _ranked(_identified(entries), one_diameter=by_size)


def _one_diameter(large_mm: float) -> Figured:
    """What a large end alone can tell: which gauge diameters are near it, never which taper it is."""
    near = sorted(tapers.all_tapers(), key=lambda one: abs(one.large_mm - large_mm))[:4]
    sheet = Sheet("What one diameter tells")
    sheet.read("large diameter", both(large_mm))
    for one in near:
        sheet.table(one.name, f"gauge diameter {both(one.large_mm)}", one.source)
    sheet.note(taper_identify.ONE_DIAMETER)
    told = "Add its length, or a second diameter and the distance; what stands here only begins near it."
    answers = (
        Answer("one diameter", "is not enough", note=f"{taper_identify.ONE_DIAMETER} {told}"),
        *(Answer("gauge diameter near", one.name, note=both(one.large_mm)) for one in near),
    )
    return Figured(answers, sheet.close())


def _identified(entries: Entries) -> Worked[tuple[taper_identify.Candidate, ...]]:
    if entries.given("angle"):
        return taper_identify.identify_angle(
            angles.parse_angle(entries.text("angle"), "Included angle", decimal_comma=entries.comma)
        )
    if entries.given("small"):
        reading = entries.mm("reading")
        return taper_identify.identify(entries.mm("large"), entries.mm("small"), entries.mm("apart"), reading)
    if not entries.given("large"):
        raise BadEntry(
            "is missing.",
            where="Measurements",
            way_out="Type two diameters and their distance, or the included angle, or the large end "
            "and the length.",
        )
    return taper_identify.identify_size(entries.mm("large"), entries.mm("apart"))


def _ranked(found: Worked[tuple[taper_identify.Candidate, ...]], *, one_diameter: bool = False) -> Figured:
    first: tuple[Answer, ...] = ()
    if one_diameter:
        first = (Answer("one diameter", "is not enough", note=taper_identify.ONE_DIAMETER),)
    if not any(one.agrees for one in found.value):
        first += (Answer(NONE, "not in the table", note="Special, worn, cut short, or misread."),)
    answers = first + tuple(
        Answer(f"{rank}.", one.taper.name, note=_verdict(one, one_diameter=one_diameter) + one.said)
        for rank, one in enumerate(found.value, start=1)
    )
    return Figured(answers, found.working)


def _verdict(one: taper_identify.Candidate, *, one_diameter: bool) -> str:
    if not one.agrees:
        return f"{DOES_NOT}; "
    return "may be; " if one_diameter else f"{AGREES}; "


def _gauge(entries: Entries) -> Figured:
    if entries.choice("how") == "over rollers":
        found = taper_gauging.over_rollers(
            entries.mm("first"), entries.mm("second"), entries.mm("height"), entries.mm("roller")
        )
    else:
        found = taper_gauging.two_balls(
            entries.mm("roller"), entries.mm("first"), entries.mm("height"), entries.mm("second")
        )
    cone = found.value
    like = taper_identify.identify_angle(2.0 * cone.half_angle_deg)
    near = like.value[0]
    answers = (
        Answer("half angle", cone.half_angle_deg, "°", 4),
        Answer("taper per foot", cone.rate * 12.0, "in", 5),
        Answer("diameter at the end", cone.end_mm, "mm"),
        Answer(
            "nearest by angle", near.taper.name, note=f"{AGREES if near.agrees else DOES_NOT}; {near.said}"
        ),
    )
    return Figured(answers, found.working)


def _sine_bar(entries: Entries) -> Figured:
    length = entries.mm("length")
    if entries.given("stack"):
        back = angles.angle_of_stack(length, entries.mm("stack"))
        return Figured((Answer("angle", back.value, "°", 6),), back.working)
    angle = (
        angles.parse_angle(entries.text("angle"), decimal_comma=entries.comma)
        if entries.given("angle")
        else _taper_half(entries)
    )
    found = angles.sine_bar(length, angle)
    answers = (
        Answer("stack", found.value.height_mm, "mm", 6),
        Answer("arc seconds per µm of stack", found.value.arcsec_per_um, "″", 3),
        Answer("arc seconds per 0.0001 in of stack", found.value.arcsec_per_um * 2.54, "″", 2),
    )
    return Figured(answers, found.working)


def _angle(entries: Entries, name: str, label: str) -> float:
    return angles.parse_angle(entries.text(name), label, decimal_comma=entries.comma)


def _taper_half(entries: Entries) -> float:
    if not entries.given("taper"):
        raise BadEntry("is missing.", where="Angle", way_out="Type an angle, a taper (MT3) or a stack.")
    return tapers.parse_taper(entries.text("taper")).half_angle_deg


def _compound(entries: Entries) -> Figured:
    zero = angles.ScaleZero(entries.choice("zero"))
    if entries.given("thread"):
        relief = entries.number("relief")
        found = angles.thread_setting(
            _angle(entries, "thread", "Thread angle"),
            zero,
            relief,
        )
    else:
        half = _angle(entries, "half", "Half angle") if entries.given("half") else _taper_half(entries)
        found = angles.taper_setting(half, zero)
    answers = (
        Answer("set the compound's scale to", found.value.dial_deg, "°", 4, f"it reads 0 {zero.value}"),
        Answer("on the other kind of scale", found.value.other_dial_deg, "°", 4, "the complement"),
        Answer("slide to the spindle axis", found.value.slide_to_axis_deg, "°", 4),
    )
    return Figured(answers, found.working)


def _offset(entries: Entries) -> Figured:
    entries.together("large", "small", "apart")
    if entries.given("taper"):
        rate = tapers.parse_taper(entries.text("taper")).rate
    else:
        rate = tapers.rate_from(entries.mm("large"), entries.mm("small"), entries.mm("apart"))
    found = angles.tailstock_offset(rate, entries.mm("length"))
    sheet = Sheet("Tailstock set-over")
    sheet.equation("taper on diameter", f"{rate:.6f} = {rate * 12:.5f} in per foot")
    working = Working("Tailstock set-over", (*sheet.close().steps, *found.working.steps))
    return Figured((Answer("set-over", found.value, "mm"),), working)


def _optional(name: str, label: str, kind: InputKind, unit: str = "", text: str = "") -> Input:
    return Input(name, label, kind, unit=unit, help=text, required=False)


_TAPER_TEXT = Input(
    "taper", "Taper", _TEXT, "", help="MT3, Morse 4-1/2, B&S 7, Jarno 10, JT 33, B12, 7:24 40"
)

FIGURES: tuple[Figure, ...] = (
    Figure(
        "taper",
        "Sizes of a machine taper",
        GROUP,
        (
            _TAPER_TEXT,
            Input("depth", "Depth from the gauge line", _LENGTH, unit="in", required=False, signed=True),
        ),
        _taper,
        {"taper": "MT3", "depth": "1"},
        "Gauge diameter, small end, taper per foot, half angle and the diameter at a depth.",
    ),
    Figure(
        "identify-taper",
        "Which taper is it?",
        GROUP,
        (
            _optional("large", "Large diameter", _LENGTH, "in"),
            _optional("small", "Small diameter", _LENGTH, "in"),
            _optional("apart", "Distance apart, or length of the taper", _LENGTH, "in"),
            Input("reading", "Likely error of a diameter", _LENGTH, "0.0005", "in"),
            _optional("angle", "or: included angle", _TEXT, text="14.5 or 14° 30'"),
        ),
        _identify,
        {"large": ".938", "small": ".778", "apart": "3.1875"},
        "From two diameters and their distance, from an angle, or from the large end and the length.",
    ),
    Figure(
        "gauge-taper",
        "Gauging a taper with rollers or balls",
        GROUP,
        (
            Input("how", "Gauged", _CHOICE, "over rollers", choices=("over rollers", "two balls in a bore")),
            Input(
                "first", "Reading on the plate, or depth to the small ball", _LENGTH, "", "mm", signed=True
            ),
            Input("second", "Reading on the blocks, or depth to the large ball", _LENGTH, "", "mm"),
            Input("height", "Height of the blocks, or large ball", _LENGTH, "", "mm"),
            Input("roller", "Roller, or small ball", _LENGTH, "", "mm"),
        ),
        _gauge,
        {"how": "over rollers", "first": "31", "second": "33", "height": "40", "roller": "6"},
        "A micrometer cannot sit on a slope: rollers or balls give the cone itself.",
    ),
    Figure(
        "sine-bar",
        "Sine bar",
        GROUP,
        (
            Input("length", "Length between rollers", _LENGTH, "5", "in"),
            _optional("angle", "Angle", _TEXT, text="14.5 or 14° 30'"),
            _optional("taper", "or: half angle of a taper", _TEXT, text="MT3"),
            _optional("stack", "or: stack, for the angle", _LENGTH, "in"),
        ),
        _sine_bar,
        {"length": "5", "angle": "14.5"},
        "The stack for an angle, or the angle of a stack, and how sensitive it is.",
    ),
    Figure(
        "compound-angle",
        "Compound slide angle",
        GROUP,
        (
            Input(
                "zero",
                "Its scale reads 0 with the slide",
                _CHOICE,
                angles.ScaleZero.ALONG_CROSS.value,
                choices=tuple(zero.value for zero in angles.ScaleZero),
            ),
            _optional("half", "Half angle of a taper", _TEXT, text="1.4377"),
            _optional("taper", "or: a taper", _TEXT, text="MT3"),
            _optional("thread", "or: included angle of a thread", _TEXT, text="60, 55, 29 or 30"),
            Input(
                "relief",
                "Relief on a thread's trailing flank",
                InputKind.NUMBER,
                "0.5",
                "°",
                least=0,
                most=30,
            ),
        ),
        _compound,
        {"zero": "along the cross slide", "thread": "29", "relief": "0"},
        "For a taper or a thread, with the complement for scales that read zero the other way.",
    ),
    Figure(
        "tailstock-offset",
        "Tailstock set-over",
        GROUP,
        (
            Input("length", "Length between centres", _LENGTH, "", "mm"),
            _optional("taper", "A taper", _TEXT, text="MT3"),
            _optional("large", "or: large diameter", _LENGTH, "mm"),
            _optional("small", "small diameter", _LENGTH, "mm"),
            _optional("apart", "their distance", _LENGTH, "mm"),
        ),
        _offset,
        {"length": "200 mm", "taper": "MT3"},
        "Half the taper over the whole length between centres.",
    ),
    *pins_and_keys.FIGURES,
)
