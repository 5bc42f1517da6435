"""Figures of gears: identify, blank, spans and pins, mesh, backlash."""

from __future__ import annotations

import re

from rebuild.errors import BadEntry
from rebuild.trade.figures import gear_trains
from rebuild.trade.figures.inputs import choice, figured, length, maybe_length, number, text, whole
from rebuild.trade.gears.backlash import recommended
from rebuild.trade.gears.blank import gear_blank, index_text
from rebuild.trade.gears.chordal import chord
from rebuild.trade.gears.identify import GearReadings, identify_gear
from rebuild.trade.gears.identify_helical import helical_of
from rebuild.trade.gears.indexing import indexing
from rebuild.trade.gears.mesh import mesh
from rebuild.trade.gears.pins import pin_target
from rebuild.trade.gears.pitches import Pitch, read_pitch
from rebuild.trade.gears.span import span_target
from rebuild.trade.gears.spur import SpurGear, ToothSystem, system_names, tooth_system
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.results.likeness import AGREES, DOES_NOT, NONE
from rebuild.trade.results.working import Worked, joined
from rebuild.trade.sizes.number import read_whole
from rebuild.trade.sizes.own_unit import both, own_unit
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import show_length

GROUP = "Gears"

_TEETH = whole("teeth", "Teeth")
_PITCH = text(
    "pitch",
    "Pitch",
    note="Type it as module 2, DP 10 or CP 1/4. Of a helical gear it is the normal pitch, square to the teeth.",
)
_SYSTEM = choice("system", "Teeth form", system_names())
_SHIFT = number("shift", "Profile shift", "0", note="In modules; 0 for an ordinary gear.")
_GEAR = (_TEETH, _PITCH, _SYSTEM, _SHIFT)
_OVER = Input(
    "over", "Teeth spanned", InputKind.WHOLE, help="Left empty, the best is chosen.", required=False
)
_THIN = (
    length("thin-low", "Thinner by, least", "0", note="Half the backlash wanted, along the pitch circle."),
    length("thin-high", "Thinner by, most", "0"),
)


def _parts(entries: Entries) -> tuple[Pitch, ToothSystem, SpurGear]:
    pitch, system = read_pitch(entries.text("pitch")), tooth_system(entries.choice("system"))
    gear = SpurGear.of(system, entries.whole("teeth"), pitch.module_mm, entries.number("shift"))
    return pitch, system, gear


_NO_SPUR = (
    "A helical gear, a profile shift, a seldom pitch or a slip: span teeth; look whether they lie at a slant."
)


def _blank(entries: Entries) -> Figured:
    pitch, system, gear = _parts(entries)
    worked = gear_blank(gear.teeth, pitch, system, gear.shift)
    blank, divided = worked.value, indexing(gear.teeth)
    answers = (
        Answer("outside, high", blank.outside_high_mm, "mm", 3),
        Answer("outside, low", blank.outside_low_mm, "mm", 3),
        Answer("whole depth", blank.whole_depth_mm, "mm", 3),
        Answer("root diameter", blank.root_mm, "mm", 3),
        Answer("pitch diameter", blank.pitch_diameter_mm, "mm", 3),
        Answer("base pitch", gear.base_pitch_mm, "mm", 4),
        Answer("tooth thickness", gear.thickness_mm, "mm", 4, "along the pitch circle"),
        Answer("form cutter", blank.cutter or "none", note="number in a set of eight"),
        Answer("turns per tooth", index_text(blank.turns), note="dividing head 40:1"),
        Answer("indexing", divided.value.words),
    )
    spec = SpecLine(
        "gear outside", blank.outside_high_mm, blank.outside_low_mm, blank.outside_high_mm, "gear"
    )
    both = Worked(blank, joined(worked.working.title, (worked.working, divided.working)))
    return figured(both, answers, (spec,))


def _identify(entries: Entries) -> Figured:
    readings = GearReadings(
        entries.whole("teeth"),
        entries.mm("outside") if entries.given("outside") else None,
        tuple((round(over), reading) for over, reading in _pairs(entries, "spans", first_is_count=True)),
        _pairs(entries, "pins"),
    )
    worked = identify_gear(readings, tolerance_mm=entries.mm("tolerance"))
    agreeing = [guess for guess in worked.value if guess.agrees]
    answers = [] if agreeing else [Answer(NONE, "no spur gear held", note=_NO_SPUR)]
    answers += [
        Answer(
            guess.name,
            f"outside {both(guess.gear(readings.teeth).outside_mm)}",
            note=f"{AGREES if guess.agrees else DOES_NOT}, misfit {guess.misfit:.2f}; off: "
            + ", ".join(
                f"{off.label} {show_length(off.off_mm, own_unit(), sign=True)}" for off in guess.offs
            ),
        )
        for guess in worked.value
    ]
    if readings.outside_mm is None or any(not guess.shift for guess in agreeing):
        return figured(worked, tuple(answers))
    helical = helical_of(readings.teeth, readings.outside_mm)
    answers += [
        Answer("or a helical gear", one.name, note="if its teeth lie at a slant") for one in helical.value
    ]
    return figured(
        Worked(worked.value, joined(worked.working.title, (worked.working, helical.working))), tuple(answers)
    )


def _pairs(entries: Entries, name: str, *, first_is_count: bool = False) -> tuple[tuple[float, float], ...]:
    """``3: 19.53; 4: 26.91`` as pairs; the first of each is a count or a size."""
    if not entries.given(name):
        return ()
    label = "Spans" if first_is_count else "Over pins"
    pairs: list[tuple[float, float]] = []
    sizes: list[Size] = []
    for part in filter(None, (piece.strip() for piece in re.split(r";", entries.text(name)))):
        first, colon, second = part.partition(":")
        if not colon:
            way = "Type it as 3: 19.53; 4: 26.91." if first_is_count else "Type it as 4.32: 57.6."
            raise BadEntry("is not a pair of readings.", where=label, value=part, way_out=way)
        comma = entries.comma
        one = (
            float(read_whole(first, label, decimal_comma=comma))
            if first_is_count
            else entries.length_in(name, first).mm
        )
        sizes.append(entries.length_in(name, second))
        pairs.append((one, sizes[-1].mm))
    entries.echo(name, *sizes)
    return tuple(pairs)


def _span(entries: Entries) -> Figured:
    _, _, gear = _parts(entries)
    worked = span_target(
        gear,
        over=entries.whole("over") if entries.given("over") else None,
        thin_low_mm=entries.mm("thin-low"),
        thin_high_mm=entries.mm("thin-high"),
    )
    found = worked.value
    answers = (
        Answer("over teeth", found.over),
        Answer("span without backlash", found.nominal_mm, "mm", 4),
        Answer("span, low", found.low_mm, "mm", 4),
        Answer("span, high", found.high_mm, "mm", 4),
    )
    spec = SpecLine(f"span over {found.over} teeth", found.nominal_mm, found.low_mm, found.high_mm, "gear")
    return figured(worked, answers, (spec,))


def _over_pins(entries: Entries) -> Figured:
    _, _, gear = _parts(entries)
    worked = pin_target(
        gear,
        pin_mm=entries.mm("pin") if entries.given("pin") else None,
        thin_low_mm=entries.mm("thin-low"),
        thin_high_mm=entries.mm("thin-high"),
        internal=entries.choice("gear") == "internal",
    )
    found = worked.value
    answers = (
        Answer("pin", found.pin_mm, "mm", 4),
        Answer("without backlash", found.nominal_mm, "mm", 4),
        Answer("low", found.low_mm, "mm", 4),
        Answer("high", found.high_mm, "mm", 4),
    )
    label = f"over {found.pin_mm:.4g} mm pins"
    return figured(worked, answers, (SpecLine(label, found.nominal_mm, found.low_mm, found.high_mm, "gear"),))


def _tooth(entries: Entries) -> Figured:
    _, _, gear = _parts(entries)
    worked = chord(gear, helix_deg=entries.number("helix"), thin_mm=entries.mm("thin"))
    found = worked.value
    answers = (
        Answer("set the caliper to", found.addendum_mm, "mm", 4, "chordal addendum"),
        Answer("read", found.thickness_mm, "mm", 4, "chordal thickness"),
        Answer("along the circle", found.arc_mm, "mm", 4),
    )
    return figured(worked, answers)


def _mesh(entries: Entries) -> Figured:
    _, _, wheel = _parts(entries)
    pinion = SpurGear(
        entries.whole("pinion"),
        wheel.module_mm,
        wheel.pressure_angle_deg,
        entries.number("pinion-shift"),
        wheel.addendum,
        wheel.dedendum,
        wheel.plus_mm,
    )
    worked = mesh(wheel, pinion, entries.mm("centres") if entries.given("centres") else None)
    found = worked.value
    answers = (
        Answer("tight centres", found.tight_centre_mm, "mm", 4),
        Answer("centres", found.centre_mm, "mm", 4),
        Answer("backlash", found.backlash_mm, "mm", 4, "along the pitch circles"),
        Answer("operating angle", found.angle_deg, "°", 3),
        Answer("contact ratio", found.contact_ratio, "", 3),
        Answer("tip clearance", found.tip_clearance_mm, "mm", 3),
    )
    return figured(worked, answers)


def _backlash(entries: Entries) -> Figured:
    pitch = read_pitch(entries.text("pitch"))
    worked = recommended(entries.mm("centres"), pitch.module_mm)
    found = worked.value
    answers = (
        Answer("backlash, least", found.low_mm, "mm", 3),
        Answer("backlash, most", found.high_mm, "mm", 3),
        Answer("each tooth thinner by, least", found.low_mm / 2, "mm", 4),
        Answer("each tooth thinner by, most", found.high_mm / 2, "mm", 4),
    )
    return Figured(answers, joined(worked.working.title, (worked.working,)))


FIGURES: tuple[Figure, ...] = (
    Figure("identify-gear", "Which gear", GROUP,
        (_TEETH, maybe_length("outside", "Outside diameter"),
         text("spans", "Spans", required=False, note="Teeth spanned: reading, as 3: 19.53; 4: 26.91."),
         text("pins", "Over pins", required=False, note="Pin: reading over two, as 4.32: 57.6."),
         length("tolerance", "Readings good to", "0.05")),
        _identify, {"teeth": "24", "outside": "54.95 mm", "spans": "2: 9.83 mm; 3: 16.27 mm"},
        "Module or diametral pitch, pressure angle and profile shift from readings; worn teeth are allowed for."),
    Figure("gear", "Gear blank", GROUP, _GEAR, _blank,
        {"teeth": "24", "pitch": "DP 12", "system": "full-14.5"}, "Outside, depth, cutter and indexing."),
    Figure("gear-span", "Span over teeth", GROUP,
        (*_GEAR, _OVER, *_THIN),
        _span, {"teeth": "30", "pitch": "module 2", "thin-low": "0.05", "thin-high": "0.1"},
        "The span to aim at, with limits for backlash."),
    Figure("over-pins", "Size over pins", GROUP,
        (*_GEAR, choice("gear", "Gear", ("external", "internal")),
         maybe_length("pin", "Pin", note="Left empty, the customary size."), *_THIN),
        _over_pins, {"teeth": "24", "pitch": "DP 10", "system": "full-14.5"}, "The size over two pins to aim at."),
    Figure("gear-tooth", "Chordal tooth thickness", GROUP,
        (*_GEAR, number("helix", "Helix angle", "0", unit="°", least=-60, most=60), length("thin", "Thinner by", "0")),
        _tooth, {"teeth": "12", "pitch": "module 10", "shift": "0.3"},
        "What the gear-tooth caliper is set to and reads."),
    Figure("gear-mesh", "Two gears in mesh", GROUP,
        (*_GEAR, whole("pinion", "Teeth of the other"), number("pinion-shift", "Its profile shift", "0"),
         maybe_length("centres", "Centre distance", note="Left empty, without backlash.")),
        _mesh, {"teeth": "40", "pitch": "module 2", "pinion": "20", "centres": "60.1"},
        "Contact ratio, and backlash at a centre distance."),
    Figure("backlash", "Recommended backlash", GROUP,
        (_PITCH, length("centres", "Centre distance", unit="in")),
        _backlash, {"pitch": "DP 8", "centres": "6 in"}, "By centre distance and pitch."),
    *gear_trains.FIGURES,
)  # fmt: skip
