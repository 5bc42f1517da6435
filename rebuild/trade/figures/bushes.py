"""Figures of bushes and rolling bearings."""

from __future__ import annotations

import re

from rebuild.trade.bearings.bush_oiling import oil_feed
from rebuild.trade.bearings.bushes import Range, bush, use_names
from rebuild.trade.bearings.closed import other_width
from rebuild.trade.bearings.identify import FAMILIES, bearing, identify_bearing
from rebuild.trade.bearings.seats import CONDITIONS, SeatFit, housing_seat, shaft_seat
from rebuild.trade.bearings.table import by_designation
from rebuild.trade.figures.inputs import choice, figured, length, maybe_length, number, text, whole
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine, Zone
from rebuild.trade.results.likeness import AGREES, DOES_NOT, NONE
from rebuild.trade.sizes.own_unit import own_unit
from rebuild.trade.sizes.show import show_length

GROUP = "Bushes and bearings"


def _bush(entries: Entries) -> Figured:
    worked = bush(
        entries.mm("housing"),
        entries.mm("shaft"),
        entries.choice("use"),
        clearance=_range(entries, "clearance"),
        interference=_range(entries, "interference"),
        close_in=entries.number("close-in") / 100.0,
    )
    made, shaft = worked.value, entries.mm("shaft")
    answers = [
        Answer("outside, low", made.outside.low_mm, "mm", 4),
        Answer("outside, high", made.outside.high_mm, "mm", 4),
        Answer("bore before pressing, low", made.rough.low_mm, "mm", 3, "to ream or bore after"),
        Answer("bore before pressing, high", made.rough.high_mm, "mm", 3),
        Answer("finished bore, low", made.finished.low_mm, "mm", 4, "after pressing"),
        Answer("finished bore, high", made.finished.high_mm, "mm", 4),
        Answer("wall", made.wall_mm, "mm", 3),
    ]
    if made.ready is not None:
        answers.append(Answer("bore if not reamed after, low", made.ready.low_mm, "mm", 4))
        answers.append(Answer("bore if not reamed after, high", made.ready.high_mm, "mm", 4))
    specs = (
        SpecLine("bush outside", None, made.outside.low_mm, made.outside.high_mm, "bush, driving fit"),
        SpecLine("bush bore, pressed", None, made.finished.low_mm, made.finished.high_mm, "bush, running"),
    )
    bore = Zone("finished bore", made.finished.low_mm - shaft, made.finished.high_mm - shaft, "hole")
    return figured(worked, tuple(answers), specs, (bore, Zone("shaft", 0.0, 0.0, "shaft")))


def _range(entries: Entries, name: str) -> Range | None:
    low, high = f"{name}-low", f"{name}-high"
    if not entries.together(low, high):
        return None
    return Range(entries.mm(low), entries.mm(high))


def _oil_groove(entries: Entries) -> Figured:
    worked = oil_feed(entries.mm("bore"), entries.mm("length"), entries.mm("wall"), entries.whole("load"))
    feed = worked.value
    answers = (
        Answer("hole at", feed.clock, "o'clock", 0, "when fitted"),
        Answer("hole", feed.hole_mm, "mm", 2),
        Answer("groove from", feed.groove_start_mm, "mm", 2, "from the end"),
        Answer("groove to", feed.groove_end_mm, "mm", 2),
        Answer("groove depth", feed.groove_deep_mm, "mm", 2),
    )
    return figured(worked, answers)


def _stamped(entries: Entries) -> Figured:
    """The bearing of a number; what was measured beside it is held against its sizes."""
    named = bearing(entries.text("stamped"))
    found, slack = named.value, entries.mm("tolerance")
    sizes = {"bore": found.bore_mm, "outside": found.outside_mm, "width": found.width_mm}
    off = {
        name: entries.mm(name) - mm
        for name, mm in sizes.items()
        if entries.given(name) and abs(entries.mm(name) - mm) > slack * (1.5 if name == "width" else 1.0)
    }
    short = re.fullmatch(r"61([89]\d\d)", found.designation)
    also = f"; 6{short[1]} is its short number" if short else ""
    first = [Answer(found.designation, found.family, note=found.source.cite() + also)]
    if off:
        said = "; ".join(f"{name} {show_length(mm, own_unit(), sign=True)}" for name, mm in off.items())
        first.insert(
            0,
            Answer(
                "number and sizes",
                "disagree",
                note=f"Measured against the number: {said}. "
                "Misread, or the sizes are another bearing's: empty the number to look for them.",
            ),
        )
    elif any(entries.given(name) for name in sizes):
        first.append(Answer("number and sizes", "agree", note=f"within {show_length(slack, own_unit())}"))
    notes = {"width": other_width(found, by_designation())}
    lines = (Answer(label, mm, "mm", 3, notes.get(label, "")) for label, mm in sizes.items())
    return figured(named, (*first, *lines))


def _bearing(entries: Entries) -> Figured:
    if entries.given("stamped"):
        return _stamped(entries)
    family = entries.choice("family")
    worked = identify_bearing(
        *(entries.mm(name) if entries.given(name) else None for name in ("bore", "outside", "width")),
        family="" if family == "any" else family,
        tolerance_mm=entries.mm("tolerance"),
    )
    none = "Measure again; it may be a special, a series not held, or inch against metric."
    first = (
        () if any(guess.fits for guess in worked.value) else (Answer(NONE, "not in the table", note=none),)
    )
    answers = first + tuple(
        Answer(
            guess.bearing.designation,
            guess.bearing.size_text(),
            note=f"{guess.bearing.family}; {AGREES if guess.fits else DOES_NOT}; off: "
            + ", ".join(f"{name} {show_length(off, own_unit(), sign=True)}" for name, off in guess.offs_mm)
            + f"; {guess.bearing.source.cite()}",
        )
        for guess in worked.value
    )
    return figured(worked, answers)


def _seat(entries: Entries) -> Figured:
    condition, element = entries.choice("load"), entries.choice("seat")
    seat = shaft_seat if element == "shaft" else housing_seat
    worked = seat(entries.mm("size"), condition)
    fit = worked.value
    answers = (
        Answer("class", fit.tolerance_class, note=fit.about),
        Answer("seat, low", fit.low_mm, "mm", 4),
        Answer("seat, high", fit.high_mm, "mm", 4),
        Answer("least interference", fit.least_interference_mm, "mm", 4, "negative is clearance"),
        Answer("most interference", fit.most_interference_mm, "mm", 4),
    )
    origin = f"bearing seat {fit.tolerance_class}"
    specs = (SpecLine(f"{element} seat", fit.nominal_mm, fit.low_mm, fit.high_mm, origin),)
    return figured(worked, answers, specs, _seat_zones(fit))


def _seat_zones(fit: SeatFit) -> tuple[Zone, Zone]:
    low, high = fit.low_mm - fit.nominal_mm, fit.high_mm - fit.nominal_mm
    if fit.element == "shaft":
        ring = Zone("ring", high - fit.most_interference_mm, 0.0, "hole")
        return ring, Zone(fit.tolerance_class, low, high, "shaft")
    ring = Zone("ring", high + fit.least_interference_mm, 0.0, "shaft")
    return Zone(fit.tolerance_class, low, high, "hole"), ring


FIGURES: tuple[Figure, ...] = (
    Figure(
        "bush", "Bush between a housing and a shaft", GROUP,
        (length("housing", "Housing bore as measured"), length("shaft", "Shaft as measured"),
         choice("use", "Use", use_names()),
         maybe_length("clearance-low", "Clearance wanted, least", note="In place of the use's."),
         maybe_length("clearance-high", "Clearance wanted, most"),
         maybe_length("interference-low", "Interference, least", note="In place of the usual driving fit."),
         maybe_length("interference-high", "Interference, most"),
         number("close-in", "Close-in", "100", unit="%", least=0, most=150,
                note="Part of the interference the bore closes by.")),
        _bush,
        {"housing": "0.8128 in", "shaft": "0.6247 in", "use": "slow", "clearance-low": "0.0010 in",
         "clearance-high": "0.0015 in"},
        "Outside, bore before and after pressing, and wall, from the two mates.",
    ),
    Figure(
        "oil-groove", "Oil hole and groove of a bush", GROUP,
        (length("bore", "Finished bore"), length("length", "Length"), length("wall", "Wall"),
         whole("load", "Load presses at", "6", note="Hours of a clock; 6 is down.")),
        _oil_groove, {"bore": "15.9", "length": "25", "wall": "2.4"},
        "On the side away from the load, closed at both ends.",
    ),
    Figure(
        "bearing", "Which rolling bearing", GROUP,
        (text("stamped", "Number stamped on it", required=False, note="As 6203-2RS; or leave empty and measure."),
         maybe_length("bore", "Bore"), maybe_length("outside", "Outside"),
         maybe_length("width", "Width", note="Overall, or one ring of a tapered bearing."),
         choice("family", "Kind", ("any", *FAMILIES)),
         length("tolerance", "Readings good to", "0.1", note="Caliper and wear together.")),
        _bearing, {"bore": "17.02", "outside": "39.97", "width": "11.98"},
        "Identified from its sizes (ISO 15, 355, 104 and inch series), ranked.",
        inch_example={"bore": ".501", "outside": "1.124", "width": ".250", "tolerance": ".004"},
    ),
    Figure(
        "bearing-seat", "Seat of a rolling bearing", GROUP,
        (choice("seat", "Seat", ("shaft", "housing")),
         length("size", "Bearing's bore or outside", note="The ring that sits there."),
         choice("load", "Load", CONDITIONS, note="Which ring turns against the load.")),
        _seat, {"seat": "shaft", "size": "25"}, "Tolerance class by load, and the fit on a Normal class ring.",
    ),
)  # fmt: skip
