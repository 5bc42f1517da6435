"""Figures of Woodruff keys; ``GROUP`` is the keys'."""

from __future__ import annotations

from dataclasses import replace

from rebuild.trade.figures import drawn
from rebuild.trade.figures.inputs import figured, length, maybe_length, text
from rebuild.trade.joints.woodruff import (
    DEPTH_OVER_MM,
    Seat,
    keyseat_width,
    none_wider,
    sizes_in_words,
    woodruff,
    woodruff_seat,
)
from rebuild.trade.joints.woodruff_identify import identify_woodruff
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine
from rebuild.trade.results.likeness import answers_of
from rebuild.trade.sizes.own_unit import both

GROUP = "Tapers, pins and keys"
AT = {"in": "at the side of the seat", "mm": "on the centre line"}
_OVER = {"in": "depth +0.005 in, from memory", "mm": "depth +0.1 mm, DIN 6888"}


def _identify_woodruff(entries: Entries) -> Figured:
    diameter, height = (entries.mm(name) if entries.given(name) else None for name in ("diameter", "height"))
    worked = identify_woodruff(entries.mm("width"), diameter, height, entries.mm("tolerance"))
    none = "Wider or flat-bottomed keys and other standards are not held; measure again, or copy the key."
    return figured(worked, answers_of([one.likeness for one in worked.value], none))


def _woodruff(entries: Entries) -> Figured:
    worn = entries.mm("worn") if entries.given("worn") else None
    worked = woodruff_seat(woodruff(entries.text("key")), entries.mm("shaft"), worn)
    seat = worked.value
    key = seat.key
    width = keyseat_width(key)
    answers = [
        Answer("key", sizes_in_words(key), note=f"{both(key.length_mm)} long"),
        Answer("cutter", key.diameter_mm, "mm", 3),
        Answer("depth in the shaft", key.shaft_depth_mm, "mm", 3, AT[key.unit]),
        Answer("depth in the hub", key.hub_depth_mm, "mm", 3),
        Answer("across the shaft", seat.across_shaft_mm, "mm", 3, "far side to the floor, most"),
        Answer(
            "across the shaft, least",
            seat.across_shaft_mm - DEPTH_OVER_MM[key.unit],
            "mm",
            3,
            _OVER[key.unit],
        ),
        Answer("across the bore", seat.across_bore_mm, "mm", 3, "far side to the floor"),
        *(
            Answer(f"seat width, {end}", mm, "mm", 3, width.working.sources()[0].cite())
            for end, mm in zip(("low", "high"), width.value if width is not None else (), strict=False)
            if width is not None
        ),
    ]
    if worn is not None:
        answers += _for_worn(seat, worn)
    drawing = drawn.woodruff(seat, entries.mm("shaft"))
    return figured(worked, tuple(answers), _woodruff_specs(seat), drawing=drawing)


def _for_worn(seat: Seat, worn_mm: float) -> list[Answer]:
    """What to do about a worn seat: a stepped key leaves shaft and hub as they are, a wider one leaves neither."""
    key = seat.key
    stepped = Answer(
        "for the worn seat",
        "a stepped key",
        note=f"{both(worn_mm)} wide below, {both(key.width_mm)} above: the hub stays as it is.",
    )
    if not seat.wider:
        return [replace(stepped, note=f"{stepped.note} A wider key: {none_wider(key)}.")]
    found = []
    for one in seat.wider:
        deeper = key.shaft_depth_mm - one.shaft_depth_mm
        floor = f"the old floor is {both(deeper)} too deep for it" if deeper > 0 else "the floor goes deeper"
        hub = f"widen the seat to {both(one.width_mm)} and the hub's keyway too"
        found.append(
            Answer("or a wider key", one.name, note=f"{floor}; {hub}, {both(one.hub_depth_mm)} deep.")
        )
    return [stepped, *found]


def _woodruff_specs(seat: Seat) -> tuple[SpecLine, ...]:
    key, over = seat.key, DEPTH_OVER_MM[seat.key.unit]
    origin = f"Woodruff {key.name}, {key.source.cite()}; {_OVER[key.unit]}"
    depths = (
        SpecLine("across the shaft", None, seat.across_shaft_mm - over, seat.across_shaft_mm, origin),
        SpecLine("across the bore", None, seat.across_bore_mm, seat.across_bore_mm + over, origin),
    )
    width = keyseat_width(key)
    if width is None:
        return depths
    said = f"Woodruff {key.name}, {width.working.sources()[0].cite()}"
    return (*depths, SpecLine("seat width in the shaft", key.width_mm, *width.value, said))


FIGURES: tuple[Figure, ...] = (
    Figure(
        "identify-woodruff",
        "Which Woodruff key",
        GROUP,
        (
            length("width", "Width", unit="mm"),
            maybe_length("diameter", "Diameter of its circle"),
            maybe_length("height", "Height"),
            length("tolerance", "Readings good to", "0.1"),
        ),
        _identify_woodruff,
        {"width": "4.75", "diameter": "19", "height": "7.9"},
        "Width with diameter, height or both.",
        inch_example={"width": ".187", "diameter": "3/4", "height": ".312", "tolerance": ".004"},
    ),
    Figure(
        "woodruff",
        "Seat of a Woodruff key",
        GROUP,
        (
            text("key", "Key", note="Number as 606, or mm as 3 x 5."),
            length("shaft", "Shaft"),
            maybe_length("worn", "Seat worn to", note="Width it is worn or cleaned up to."),
        ),
        _woodruff,
        {"key": "606", "shaft": "1 in", "worn": "0.195 in"},
        "Depths in shaft and hub, and the next wider key.",
        inch_example={"key": "606", "shaft": "1", "worn": ".195"},
    ),
)
