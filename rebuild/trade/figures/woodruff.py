"""Figures of Woodruff keys; ``GROUP`` is the keys'."""

from __future__ import annotations

from rebuild.trade.figures import drawn
from rebuild.trade.figures.inputs import figured, length, maybe_length, text
from rebuild.trade.joints.woodruff import Seat, identify_woodruff, woodruff, woodruff_seat
from rebuild.trade.limits.iso286 import limits
from rebuild.trade.results.figure import Answer, Entries, Figure, Figured, SpecLine

GROUP = "Tapers, pins and keys"
_INCH_DEPTH_MM = 0.005 * 25.4


def _identify_woodruff(entries: Entries) -> Figured:
    worked = identify_woodruff(
        entries.mm("width"),
        *(entries.mm(name) if entries.given(name) else None for name in ("diameter", "height")),
    )
    answers = tuple(
        Answer(
            key.name,
            f"{key.width_mm:.3f} x {key.diameter_mm:.2f} mm, {key.height_mm:.2f} high",
            note=key.source.cite(),
        )
        for key in worked.value
    )
    return figured(worked, answers)


def _woodruff(entries: Entries) -> Figured:
    worn = entries.mm("worn") if entries.given("worn") else None
    worked = woodruff_seat(woodruff(entries.text("key")), entries.mm("shaft"), worn)
    seat = worked.value
    answers = [
        Answer(
            "key",
            f"{seat.key.width_mm:.3f} mm wide, {seat.key.height_mm:.2f} high, {seat.key.length_mm:.2f} long",
        ),
        Answer("cutter", seat.key.diameter_mm, "mm", 2),
        Answer(
            "depth in the shaft",
            seat.key.shaft_depth_mm,
            "mm",
            3,
            "at the side (inch), on the centre line (mm)",
        ),
        Answer("depth in the hub", seat.key.hub_depth_mm, "mm", 3),
        Answer("across the shaft", seat.across_shaft_mm, "mm", 3, "far side to the floor"),
        Answer("across the bore", seat.across_bore_mm, "mm", 3, "far side to the floor"),
    ]
    if worn is not None:
        answers.append(
            Answer("for the worn seat", ", ".join(one.name for one in seat.wider) or "a stepped key")
        )
    drawing = drawn.woodruff(seat, entries.mm("shaft"))
    return figured(worked, tuple(answers), _woodruff_specs(seat), drawing=drawing)


def _woodruff_specs(seat: Seat) -> tuple[SpecLine, ...]:
    deep = 0.1 if seat.key.unit == "mm" else _INCH_DEPTH_MM
    origin = (
        "DIN 6888, depth +0.1 mm" if seat.key.unit == "mm" else "Woodruff seat, depth +0.005 in from memory"
    )
    lines = [SpecLine("across the shaft", None, seat.across_shaft_mm - deep, seat.across_shaft_mm, origin)]
    if seat.key.unit == "mm":
        wide = limits(seat.key.width_mm, "N9").value
        lines.append(
            SpecLine("seat width, sliding", seat.key.width_mm, wide.low_mm, wide.high_mm, "DIN 6888, N9")
        )
    return tuple(lines)


FIGURES: tuple[Figure, ...] = (
    Figure(
        "identify-woodruff",
        "Which Woodruff key",
        GROUP,
        (
            length("width", "Width", unit="mm"),
            maybe_length("diameter", "Diameter of its circle"),
            maybe_length("height", "Height"),
        ),
        _identify_woodruff,
        {"width": "4.75", "diameter": "19", "height": "7.9"},
        "Width with diameter, height or both.",
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
    ),
)
