"""Figure of unit conversion; ``GROUP`` is the shop's."""

from __future__ import annotations

from rebuild.errors import BadEntry
from rebuild.trade.figures.inputs import figured, text
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured
from rebuild.trade.shop.unit_conversion import convert
from rebuild.trade.sizes.exact import exact
from rebuild.trade.sizes.typed_text import plain_of
from rebuild.trade.sizes.unit_behind import split_value

GROUP = "Shop arithmetic"
_WAYS = "Type a number as 25, 1 1/4 or 3/8; its unit may stand behind it."


def _convert(entries: Entries) -> Figured:
    typed = plain_of(entries.text("value"), "Value", _WAYS)
    number, behind = split_value(typed, "Value", _WAYS)
    given = entries.text("from") if entries.given("from") else ""
    if behind and given and behind != given:
        raise BadEntry(
            f"has the unit “{behind}” behind it, and From says {given}.",
            where="Value",
            value=typed,
            way_out="Leave one of them.",
        )
    if not (behind or given):
        raise BadEntry("is not filled in.", where="From", way_out="As in, lbf·ft, psi, °F, SUS.")
    value = exact(number, "Value", typed=typed, decimal_comma=entries.comma, ways=_WAYS)
    entries.hear("value", f"{float(value):.12g} {behind or given}")
    worked = convert(float(value), behind or given, entries.text("to"))
    return figured(worked, tuple(Answer(unit, f"{turned:.9g}") for unit, turned in worked.value.values))


FIGURES: tuple[Figure, ...] = (
    Figure(
        "convert",
        "Units",
        GROUP,
        (
            text("value", "Value", note="As 25, 1 1/4 or 3/8; with its unit behind it if you like."),
            text("from", "From", required=False, note="As in, lbf·ft, psi, °F."),
            text("to", "To", required=False, note="Empty for all."),
        ),
        _convert,
        {"value": "25", "from": "lbf·ft", "to": "N·m"},
        "With the factor it was done by. Saybolt and other old viscosities: Old units of viscosity.",
    ),
)
