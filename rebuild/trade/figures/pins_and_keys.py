"""Figures of taper pins and keys (gathered by ``tapers``)."""

from __future__ import annotations

from rebuild.trade.joints import keys, taper_pin, taper_pin_choice, taper_pin_hole
from rebuild.trade.joints.step_key import step_key
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.results.working import Worked, joined

GROUP = "Tapers, pins and keys"
_LENGTH, _TEXT, _CHOICE = InputKind.LENGTH, InputKind.TEXT, InputKind.CHOICE
_STANDARD = Input(
    "standard",
    "Pin standard",
    _CHOICE,
    "inch",
    choices=taper_pin.STANDARDS,
    help="inch: ASME B18.8.2, by the big end; metric: ISO 2339, by the small end; a bare size is in its unit",
)
_INCH, _METRIC = "ASME B17.1", "DIN 6885-1"


def _standard(entries: Entries) -> str:
    """The pin standard; a bare size is in its unit."""
    standard = entries.choice("standard")
    entries.bare_in("in" if standard == taper_pin.INCH else "mm")
    return standard


def _taper_pin(entries: Entries) -> Figured:
    which = taper_pin.pin(entries.text("size"), _standard(entries))
    length = entries.mm("length")
    depth = entries.mm("depth") if entries.given("depth") else 0.0
    found = taper_pin.ends(which, length, depth)
    made = taper_pin_hole.hole(which, length)
    first = made.value.steps[0]
    answers = (
        Answer("big end", found.value.big_mm, "mm"),
        Answer("small end", found.value.small_mm, "mm"),
        Answer("at the depth", found.value.at_depth_mm, "mm"),
        Answer("drill through", first.drill.name, note=f"{first.drill.mm:.3f} mm"),
        *(
            Answer("then drill", step.drill.name, note=f"{step.depth_mm:.1f} mm deep from the big side")
            for step in made.value.steps[1:]
        ),
        Answer("reamer", made.value.reamer),
    )
    specs = (
        SpecLine(f"{which.name} hole, big end", found.value.big_mm, None, None, which.source.cite()),
        SpecLine(f"{which.name} hole, small end", found.value.small_mm, None, None, which.source.cite()),
    )
    working = joined(found.working.title, (found.working, made.working))
    return Figured(answers, working, specs, cautions=working.cautions())


def _choose_pin(entries: Entries) -> Figured:
    found = taper_pin_choice.choose_pin(_standard(entries), entries.mm("shaft"), entries.mm("hub"))
    value = found.value
    drilled = taper_pin_hole.hole(value.pin, value.filed_mm)
    answers = (
        Answer("pin", value.pin.name, note=f"{value.share:.2f} of the shaft at its middle"),
        Answer("cut it this long", value.cut_mm, "mm", note="stands out at both ends until it is filed"),
        Answer("length after filing flush", value.filed_mm, "mm"),
        Answer("big end, filed", value.big_mm, "mm", note="mark this side on hub and shaft"),
        Answer("small end, filed", value.small_mm, "mm", note="drive it out from here"),
        Answer("drill through", drilled.value.steps[0].drill.name),
    )
    working = joined(found.working.title, (found.working, drilled.working))
    return Figured(answers, working, cautions=working.cautions())


def _ream_pin(entries: Entries) -> Figured:
    standard = _standard(entries)
    old = taper_pin.pin(entries.text("old"), standard) if entries.given("old") else None
    found = taper_pin_hole.after_reaming(standard, entries.mm("hole"), entries.mm("length"), old)
    answers = (
        Answer("pin now", found.value.pin.name),
        Answer("its big end at this length", found.value.pin.big_mm(entries.mm("length")), "mm"),
        Answer("stands proud as reamed", found.value.proud_mm, "mm", 2),
        Answer("or cut it from a pin this long", found.value.cut_from_mm, "mm", 1, "off its big end"),
        *((Answer("sizes up", found.value.steps_up),) if old else ()),
    )
    return Figured(answers, found.working, cautions=found.working.cautions())


def _pin_side(entries: Entries) -> Figured:
    found = taper_pin_hole.big_side(
        entries.mm("a"), entries.mm("b"), entries.mm("length"), entries.mm("reading")
    )
    answers = [Answer("big end at side", found.value.side)]
    if found.value.ratio:
        answers.append(Answer("taper seen, 1 : x", found.value.ratio, "", 1))
        big, small = sorted((entries.mm("a"), entries.mm("b")), reverse=True)
        like = taper_pin_hole.identify_pin(big, small, entries.mm("length"))
        answers.append(Answer("nearest pin", like.value[0].name))
    return Figured(tuple(answers), found.working, cautions=found.working.cautions())


def _keyed(entries: Entries) -> Worked[keys.Key]:
    shaft = entries.mm("shaft")
    if entries.choice("standard") == _METRIC:
        return keys.key_metric(shaft, entries.choice("fit") == "tight")
    fit_class = "2" if entries.choice("fit") == "tight" else "1"
    return keys.key_inch(shaft, entries.choice("kind"), entries.choice("form"), fit_class)


def _key(entries: Entries) -> Figured:
    found = _keyed(entries)
    key, cite = found.value, found.value.source.cite()
    answers = (
        Answer("key width", key.width_mm, "mm"),
        Answer("key height", key.height_mm, "mm"),
        Answer("depth in the shaft", key.shaft_depth_mm, "mm", note="at the key's side (inch), t1 (metric)"),
        Answer("depth in the hub", key.hub_depth_mm, "mm"),
        Answer("across the shaft, S", key.s_mm, "mm", note="far side to the keyseat's floor"),
        Answer("across the bore, T", key.t_mm, "mm", note="far side to the keyway's floor"),
    )
    specs = tuple(
        SpecLine(label, nominal, limits.low_mm, limits.high_mm, cite)
        for label, nominal, limits in (
            ("key width", key.width_mm, key.key_width),
            ("key height", key.height_mm, key.key_height),
            ("shaft keyseat width", key.width_mm, key.shaft_slot),
            ("hub keyway width", key.width_mm, key.hub_slot),
            ("across the shaft, S", key.s_mm, key.s),
            ("across the bore, T", key.t_mm, key.t),
        )
    )
    return Figured(answers, found.working, specs)


def _step_key(entries: Entries) -> Figured:
    keyed = _keyed(entries)
    found = step_key(keyed.value, entries.mm("shaft-slot"), entries.mm("hub-slot"))
    made = found.value
    answers = (
        Answer("do", made.advice),
        Answer("width in the shaft", (made.shaft_width.low_mm + made.shaft_width.high_mm) / 2.0, "mm"),
        Answer("width in the hub", (made.hub_width.low_mm + made.hub_width.high_mm) / 2.0, "mm"),
        Answer("height in the shaft", made.lower_mm, "mm"),
        Answer("height in the hub", made.upper_mm, "mm"),
    )
    specs = tuple(
        SpecLine(label, None, limits.low_mm, limits.high_mm, "fitted to the slot as measured")
        for label, limits in (("key in the shaft", made.shaft_width), ("key in the hub", made.hub_width))
    )
    working = joined("Key for a worn keyway", (keyed.working, found.working))
    return Figured(answers, working, () if made.advice == "recut" else specs)


_KEY_INPUTS = (
    Input("standard", "Standard", _CHOICE, _INCH, choices=(_INCH, _METRIC)),
    Input("shaft", "Shaft diameter", _LENGTH, "", "in", help="e.g. 1 or 30 mm"),
    Input("kind", "Section (inch)", _CHOICE, keys.SQUARE, choices=(keys.SQUARE, keys.RECTANGULAR)),
    Input("form", "Form (inch)", _CHOICE, keys.PARALLEL, choices=(keys.PARALLEL, keys.TAPER)),
    Input("fit", "Fit", _CHOICE, "easy", choices=("easy", "tight"), help="class 1 or N9/JS9; class 2 or P9"),
)

FIGURES: tuple[Figure, ...] = (
    Figure(
        "taper-pin",
        "Taper pin: ends, drill, reamer",
        GROUP,
        (
            _STANDARD,
            Input("size", "Size", _TEXT, "", help="4, 2/0; metric 5"),
            Input("length", "Length", _LENGTH, "", "in"),
            Input("depth", "Depth from the big end", _LENGTH, unit="in", required=False),
        ),
        _taper_pin,
        {"standard": "inch", "size": "4", "length": "1-1/4"},
        "Big and small end, the diameter at a depth, what to drill and which reamer.",
    ),
    Figure(
        "taper-pin-for",
        "Taper pin for a shaft and hub",
        GROUP,
        (
            _STANDARD,
            Input("shaft", "Shaft diameter", _LENGTH, "", "in"),
            Input("hub", "Hub across", _LENGTH, "", "in"),
        ),
        _choose_pin,
        {"standard": "inch", "shaft": "3/4", "hub": "1-1/4"},
        "The size by shaft and hub, what to cut it to, and its ends and length once filed flush.",
    ),
    Figure(
        "taper-pin-ream",
        "Which pin after re-reaming",
        GROUP,
        (
            _STANDARD,
            Input("hole", "Hole's big end, reamed", _LENGTH, "", "in"),
            Input("length", "Length of the hole", _LENGTH, "", "in"),
            Input("old", "Old pin", _TEXT, required=False, help="4, 2/0; metric 5"),
        ),
        _ream_pin,
        {"standard": "inch", "hole": ".258", "length": "1-1/4", "old": "4"},
        "The next size up for a hole reamed until round, and how much deeper to go.",
    ),
    Figure(
        "taper-pin-side",
        "Which side takes the big end",
        GROUP,
        (
            Input("a", "Diameter on side A", _LENGTH, "", "in"),
            Input("b", "Diameter on side B", _LENGTH, "", "in"),
            Input("length", "Distance between", _LENGTH, "", "in"),
            Input("reading", "Likely error of a reading", _LENGTH, "0.0005", "in"),
        ),
        _pin_side,
        {"a": ".252", "b": ".207", "length": "2"},
        "From both sides as measured, and the test by feel.",
    ),
    Figure(
        "key",
        "Key and keyseats",
        GROUP,
        _KEY_INPUTS,
        _key,
        {"standard": _INCH, "shaft": "1", "kind": "square", "form": "parallel"},
        "Key by shaft size, depths S and T across the diameter, widths and limits.",
    ),
    Figure(
        "step-key",
        "Key for a worn keyway",
        GROUP,
        (
            *_KEY_INPUTS,
            Input("shaft-slot", "Shaft keyseat, cleaned up", _LENGTH, "", "in"),
            Input("hub-slot", "Hub keyway, cleaned up", _LENGTH, "", "in"),
        ),
        _step_key,
        {"standard": _INCH, "shaft": "1", "shaft-slot": ".262", "hub-slot": ".2505"},
        "Standard, oversize or step key, or recut when worn more than 15 per cent.",
    ),
)
