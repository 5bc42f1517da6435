"""Units of the shop turned into one another, with the factor shown; exact where the definition is."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.unit_tables import QUANTITIES, SPELLED

EXACT = Source("International yard and pound (1959), SI", "by definition", Status.PUBLISHED)
TEMPERATURES = ("°C", "°F", "K")
VISCOSITIES = (
    "sus", "ssu", "saybolt", "redwood", "redwood 1", "engler", "°e", "cst", "mm²/s", "mm2/s", "centistokes",
)  # fmt: skip
NAMES = (*QUANTITIES, "temperature")


@dataclass(frozen=True, slots=True)
class Converted:
    """A value in every unit of its quantity: (unit, value), the wanted unit first."""

    quantity: str
    values: tuple[tuple[str, float], ...]


@door()
def convert(value: float, given: str, wanted: str = "") -> Worked[Converted]:
    """A value turned from one unit into others of its kind.

    Args:
        value: the number.
        given: its unit.
        wanted: unit to turn it into; empty for all of its kind.

    Raises:
        BadEntry: no such unit, or two units of different kinds.
        OutOfRange: a temperature below absolute zero.

    >>> convert(1.0, "in", "mm").value.values
    (('mm', 25.4),)
    >>> convert(68.0, "F", "C").value.values[0][1]
    20.0
    """
    for typed, where in ((given, "From"), (wanted, "To")):
        _refuse_viscosity(typed, where)
    other = _unit(wanted, "To") if wanted.strip() else None
    one = _unit(_inches(given, other), "From")
    if other is not None:
        other = _unit(_inches(wanted, one), "To")
    quantity = _quantity(one, other)
    sheet = Sheet(f"{value:.12g} {one[1]}")
    units = (other[1],) if other else tuple(unit for unit in _units(quantity) if unit != one[1])
    values = tuple((unit, _turn(value, quantity, one[1], unit, sheet)) for unit in units)
    return Worked(Converted(quantity, values), sheet.close())


def _inches(typed: str, beside: tuple[tuple[str, ...], str] | None) -> str:
    """Marks of feet and inches beside a length; marks of minutes and seconds beside an angle or alone."""
    marks = {'"': "in", "″": "in", "''": "in", "'": "ft", "′": "ft"}
    return marks.get(typed.strip(), typed) if beside is not None and "length" in beside[0] else typed


def _refuse_viscosity(typed: str, where: str) -> None:
    """Old units of viscosity are no plain factor: they have a figure of their own."""
    if typed.strip().lower() in VISCOSITIES:
        raise BadEntry(
            "is a viscosity, turned by a rule of its own and not by a factor.",
            where=where,
            value=typed.strip(),
            way_out="Use Old units of viscosity (viscosity).",
        )


def _units(quantity: str) -> tuple[str, ...]:
    return TEMPERATURES if quantity == "temperature" else tuple(QUANTITIES[quantity])


def _unit(typed: str, where: str) -> tuple[tuple[str, ...], str]:
    """Quantities a spelling belongs to, and the unit as held."""
    plain = typed.strip().replace("′", "'").replace("″", '"')
    for spelled in (plain, SPELLED.get(plain.lower(), "")):
        for fold in (False, True):
            found = [
                (quantity, unit)
                for quantity in NAMES
                for unit in _units(quantity)
                if spelled and (unit == spelled or (fold and unit.lower() == spelled.lower()))
            ]
            if found:
                return tuple(quantity for quantity, _ in found), found[0][1]
    held = "; ".join(f"{quantity}: {', '.join(_units(quantity))}" for quantity in NAMES)
    raise BadEntry("is no unit held.", where=where, value=typed.strip()[:30], way_out=f"Held are {held}.")


def _quantity(one: tuple[tuple[str, ...], str], other: tuple[tuple[str, ...], str] | None) -> str:
    if other is None:
        return one[0][0]
    shared = [quantity for quantity in one[0] if quantity in other[0]]
    if not shared:
        raise BadEntry(
            f"is of {other[0][0]}, and {one[1]} is of {one[0][0]}.",
            where="To",
            value=other[1],
            way_out=f"Choose {', '.join(_units(one[0][0]))}.",
        )
    return shared[0]


def _turn(value: float, quantity: str, given: str, wanted: str, sheet: Sheet) -> float:
    if quantity == "temperature":
        return _temperature(value, given, wanted, sheet)
    factor = QUANTITIES[quantity][given] / QUANTITIES[quantity][wanted]
    turned = value * factor.numerator / factor.denominator
    shown = (
        f"{factor}"
        if factor.denominator < 10_000 and factor.numerator < 10_000_000
        else f"{float(factor):.12g}"
    )
    sheet.equation(wanted, f"{value:.12g} × {shown} = {turned:.10g}", EXACT)
    return turned


def _temperature(value: float, given: str, wanted: str, sheet: Sheet) -> float:
    kelvin = {"°C": value + 273.15, "K": value, "°F": (value - 32) * 5 / 9 + 273.15}[given]
    if kelvin < 0:
        raise OutOfRange(
            "is below absolute zero.", where="Value", value=f"{value:g} {given}", way_out="Check the unit."
        )
    celsius = {"°C": value, "K": value - 273.15, "°F": (value - 32) * 5 / 9}[given]
    turned = {"°C": celsius, "K": kelvin, "°F": value if given == "°F" else celsius * 9 / 5 + 32}[wanted]
    sheet.equation(wanted, f"°C = (°F - 32) × 5/9, K = °C + 273.15: {turned:.8g}", EXACT)
    return turned
