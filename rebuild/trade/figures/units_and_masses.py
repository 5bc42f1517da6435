"""Figures of unit conversion and of the centre of mass of several pieces; ``GROUP`` is the shop's."""

from __future__ import annotations

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.figures.inputs import figured, number, text
from rebuild.trade.results.figure import Answer, Entries, Figure, Figured
from rebuild.trade.shop.balance_point import MOST_PIECES, Piece, balance_point
from rebuild.trade.shop.lifting import LB_PER_KG
from rebuild.trade.shop.unit_conversion import convert
from rebuild.trade.sizes.number import read_number, short
from rebuild.trade.sizes.own_unit import both
from rebuild.trade.sizes.quantity import parse_length

GROUP = "Shop arithmetic"
_WAYS = "Type kg @ place of each with ; between, as 300 @ 0; 100 @ 1200 mm."


def _convert(entries: Entries) -> Figured:
    worked = convert(entries.number("value"), entries.text("from"), entries.text("to"))
    answers = tuple(Answer(unit, f"{value:.9g}") for unit, value in worked.value.values)
    return figured(worked, answers)


def _balance(entries: Entries) -> Figured:
    worked = balance_point(_pieces(entries))
    found = worked.value
    answers = (
        Answer("centre of mass", both(found.x_mm, 1), note="from the datum"),
        Answer("mass", found.mass_kg, "kg", 1),
        Answer("mass", found.mass_kg * LB_PER_KG, "lb", 1),
    )
    return figured(worked, answers)


def _pieces(entries: Entries) -> tuple[Piece, ...]:
    typed = [word for word in entries.text("pieces").split(";") if word.strip()]
    if len(typed) > MOST_PIECES:
        raise OutOfRange(
            f"are more than {MOST_PIECES}.", where="Pieces", value=str(len(typed)), way_out=_WAYS
        )
    made = []
    for word in typed:
        mass, at, place = word.partition("@")
        if not at:
            raise BadEntry("is not kg @ place.", where="Pieces", value=short(word), way_out=_WAYS)
        kg = read_number(
            mass, "Pieces", "kg", decimal_comma=entries.comma, above=0, at_most=1_000_000, ways=_WAYS
        )
        made.append(
            Piece(kg, parse_length(place.strip(), unit="mm", field="Pieces", decimal_comma=entries.comma).mm)
        )
    return tuple(made)


FIGURES: tuple[Figure, ...] = (
    Figure(
        "pieces-centre",
        "Centre of mass of several pieces",
        GROUP,
        (text("pieces", "Pieces", note="kg @ place along the machine, as 300 @ 0; 100 @ 1200 mm."),),
        _balance,
        {"pieces": "185 @ 250; 60 @ 700; 95 @ 1150; 12 @ -80"},
        "Where it hangs level; never a rating.",
    ),
    Figure(
        "convert",
        "Units",
        GROUP,
        (
            number("value", "Value"),
            text("from", "From", note="As in, lbf·ft, psi, °F."),
            text("to", "To", required=False, note="Empty for all."),
        ),
        _convert,
        {"value": "25", "from": "lbf·ft", "to": "N·m"},
        "With the factor it was done by.",
    ),
)
