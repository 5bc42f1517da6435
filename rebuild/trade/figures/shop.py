"""Figures of shop arithmetic: speeds, drill points, blanks, weights, worn ways."""

from __future__ import annotations

import re

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.figures.inputs import choice, figured, length, number, text, whole
from rebuild.trade.geometry.wear_effect import carriage_drop, front_way_drop, tailstock_low
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured
from rebuild.trade.shop.blanks import gear_blank_kg, round_blank, skins
from rebuild.trade.shop.cutting import (
    M_PER_FT,
    advice,
    drill_point_mm,
    materials,
    nearest_speed,
    operations,
    rpm,
)
from rebuild.trade.shop.lifting import LB_PER_KG, SHAPES, weight_kg
from rebuild.trade.shop.materials import wanted
from rebuild.trade.sizes.number import read_number
from rebuild.trade.sizes.own_unit import own_unit

GROUP = "Shop arithmetic"
LONGEST_LIST = 1_000


def _rpm(entries: Entries) -> Figured:
    speed = entries.number("speed") * (M_PER_FT if entries.choice("unit") == "ft/min" else 1.0)
    worked = rpm(speed, entries.mm("diameter"))
    turns = worked.value
    answers = [
        Answer("turns", turns.rpm, "1/min", 0),
        Answer("by 3.82 V/d", turns.by_382, "1/min", 0),
        Answer("by 4 V/d", turns.by_4, "1/min", 0, "4.7 % too fast"),
    ]
    if entries.given("speeds"):
        nearest = nearest_speed(turns.rpm, _speeds(entries))
        answers.append(Answer("set the machine to", nearest, "1/min", 0))
    return figured(worked, tuple(answers))


def _speeds(entries: Entries) -> list[float]:
    typed, speeds = entries.text("speeds"), []
    for part in re.split(r"[;\s]+|,(?=\s)|,$", typed[:LONGEST_LIST]):
        if part and not any(mark.isdigit() for mark in part):
            raise BadEntry(
                "is not a list of speeds.", where="Spindle speeds", value=typed, way_out="Type 55 110 220."
            )
        if part:
            ways = "Type 55 110 220, with spaces between."
            speeds.append(
                read_number(part, "Spindle speeds", decimal_comma=entries.comma, above=0, ways=ways)
            )
    return speeds


def _advice(entries: Entries) -> Figured:
    diameter = entries.mm("diameter")
    worked = advice(entries.choice("material"), entries.choice("tool"), entries.choice("operation"), diameter)
    found = worked.value
    answers = [
        Answer("speed, low", found.speed_low_m_min, "m/min", 1),
        Answer("speed, high", found.speed_high_m_min, "m/min", 1),
        Answer("turns, low", rpm(found.speed_low_m_min, diameter).value.rpm, "1/min", 0),
        Answer("turns, high", rpm(found.speed_high_m_min, diameter).value.rpm, "1/min", 0),
    ]
    if found.feed_low_mm is not None and found.feed_high_mm is not None:
        answers.append(Answer("feed, low", found.feed_low_mm, "mm", 3, f"per {found.per}"))
        answers.append(Answer("feed, high", found.feed_high_mm, "mm", 3, f"per {found.per}"))
    return figured(worked, tuple(answers))


def _drill_point(entries: Entries) -> Figured:
    worked = drill_point_mm(entries.mm("diameter"), entries.number("angle"))
    return figured(worked, (Answer("point length", worked.value, "mm", 3),))


def _blank(entries: Entries) -> Figured:
    worked = round_blank(
        entries.mm("diameter"),
        entries.mm("length"),
        wanted(entries.text("material")).material,
        pieces=entries.whole("pieces"),
        skin=entries.choice("bar"),
        system=entries.choice("stock"),
        chucking_mm=entries.mm("chucking"),
        parting_mm=entries.mm("parting"),
    )
    found = worked.value
    answers = (
        Answer("stock diameter", found.stock_mm, "mm", 3),
        Answer("saw off", found.length_mm, "mm", 1),
        Answer("blank weighs", found.weight_kg, "kg", 3),
        Answer("finished pieces weigh", found.finished_kg, "kg", 3),
    )
    return figured(worked, answers)


#: A part so light is a unit forgotten rather than weighed [kg] (common practice, no source).
_SLIGHT_KG = 0.005


def _weight(entries: Entries) -> Figured:
    sizes = tuple(size.mm for size in entries.product("sizes"))
    match = wanted(entries.text("material"))
    worked = weight_kg(entries.choice("shape"), sizes, match.material, entries.whole("pieces"))
    if entries.bare and worked.value < _SLIGHT_KG:
        typed, here = entries.text("sizes"), entries.bare[0]
        raise Ambiguous(
            f"read as {here} weighs under {_SLIGHT_KG * 1000:g} g.",
            where="Sizes",
            value=typed,
            readings=tuple((f"{typed} {unit}", f"{typed} {unit}") for unit in ("in", "mm")),
        )
    return figured(worked, _weights(worked.value, match.note))


def _gear_weight(entries: Entries) -> Figured:
    match = wanted(entries.text("material"))
    worked = gear_blank_kg(entries.mm("outside"), entries.mm("bore"), entries.mm("face"), match.material)
    return figured(worked, _weights(worked.value, match.note))


def _weights(mass_kg: float, note: str) -> tuple[Answer, ...]:
    weights = (Answer("weight", mass_kg, "kg", 3, note), Answer("weight", mass_kg * LB_PER_KG, "lb", 2, note))
    return weights[::-1] if own_unit() == "in" else weights


def _way_drop(entries: Entries) -> Figured:
    worked = front_way_drop(
        entries.mm("drop"), entries.mm("height"), entries.mm("spacing"), entries.mm("diameter")
    )
    found = worked.value
    answers = (
        Answer("on the diameter", found.diameter_error_mm, "mm", 4, "larger when positive"),
        Answer("by 2 w H / B", found.approximate_mm, "mm", 4),
        Answer("tool moves out", found.tool_out_mm, "mm", 4),
        Answer("tool moves down", found.tool_down_mm, "mm", 4),
        Answer("tilt", found.tilt_deg, "°", 4),
    )
    return figured(worked, answers)


def _carriage(entries: Entries) -> Figured:
    worked = carriage_drop(
        entries.mm("drop"), entries.mm("diameter"), rack_pressure_angle_deg=entries.number("angle")
    )
    found = worked.value
    answers = (
        Answer("on the diameter", found.diameter_error_mm, "mm", 5),
        Answer("rack backlash changes by", found.rack_backlash_mm, "mm", 3),
        Answer(
            "leadscrew line",
            found.leadscrew_off_mm,
            "mm",
            3,
            "within" if found.aligned else "outside 0.10 mm",
        ),
    )
    return figured(worked, answers)


def _tailstock(entries: Entries) -> Figured:
    worked = tailstock_low(entries.mm("off"), entries.mm("diameter"))
    return figured(worked, (Answer("larger at the tailstock by", worked.value, "mm", 4),))


_MATERIAL = text("material", "Material", "steel", note="As SAE 660, 4140 or cast iron.")
_DROP = length("drop", "Drop", note="Below the unworn height; negative above it.", signed=True)

FIGURES: tuple[Figure, ...] = (
    Figure("rpm", "Turns per minute", GROUP,
        (number("speed", "Cutting speed", above=0, most=10_000), choice("unit", "in", ("ft/min", "m/min")),
         length("diameter", "Diameter"),
         text("speeds", "The machine's speeds", required=False, note="As 55 110 220 430.")),
        _rpm, {"speed": "90", "diameter": "3/4 in", "speeds": "55 110 220 430 860"}, "Exact, and by the shop's rules."),
    Figure("speeds-feeds", "Speeds and feeds", GROUP,
        (choice("material", "Material", materials()), choice("tool", "Tool", ("hss", "carbide")),
         choice("operation", "Operation", operations()), length("diameter", "Diameter")),
        _advice, {"material": "bronze", "diameter": "1 in"}, "Usual for hobby machines; begin low."),
    Figure("drill-point", "Length of a drill point", GROUP,
        (length("diameter", "Drill"), number("angle", "Included angle", "118", unit="°", above=0, most=180)),
        _drill_point, {"diameter": "10"}, "How much deeper the tip goes."),
    Figure("blank", "Blank to saw off", GROUP,
        (length("diameter", "Largest finished diameter"), length("length", "Finished length"), _MATERIAL,
         whole("pieces", "Pieces", "1"), choice("bar", "Bar", skins()), choice("stock", "Stock in", ("mm", "in")),
         length("chucking", "Left in the chuck", "32"), length("parting", "Parting cut", "3.2")),
        _blank, {"diameter": "24", "length": "40", "material": "SAE 660", "bar": "cast-bar"},
        "Next stock size and length, with cleaning up, chucking and parting."),
    Figure("weight", "Weight of a piece", GROUP,
        (choice("shape", "Shape", SHAPES, note="round d x l; tube D x d x l; flat w x t x l; hexagon a x l."),
         text("sizes", "Sizes", note="As 50 x 1000 or 2 in x 3 ft."), _MATERIAL, whole("pieces", "Pieces", "1")),
        _weight, {"shape": "round", "sizes": "50 mm x 1000 mm"}, "From the material's density."),
    Figure("gear-weight", "Weight of a gear blank", GROUP,
        (length("outside", "Outside"), length("bore", "Bore"), length("face", "Face width"), _MATERIAL),
        _gear_weight, {"outside": "105", "bore": "20", "face": "20", "material": "cast iron"},
        "A plain disc with its bore."),
    Figure("way-drop", "Front way drop", GROUP,
        (_DROP, length("height", "Centre height over the ways"), length("spacing", "Way spacing"),
         length("diameter", "Work diameter")),
        _way_drop, {"drop": "0.0065 in", "height": "4.6 in", "spacing": "6.2 in", "diameter": "1 in"},
        "What a worn front way does to the diameter, exactly and by rule."),
    Figure("carriage-drop", "Carriage lower all over", GROUP,
        (_DROP, length("diameter", "Work diameter"), number("angle", "Rack pressure angle", "14.5", unit="°")),
        _carriage, {"drop": "0.010 in", "diameter": "1 in"}, "Diameter, rack mesh and leadscrew line."),
    Figure("tailstock-height", "Tailstock off in height", GROUP,
        (length("off", "Off by", signed=True), length("diameter", "Work diameter")),
        _tailstock, {"off": "0.011 in", "diameter": "1 in"}, "The taper it turns."),
)  # fmt: skip
