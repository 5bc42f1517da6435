"""Units of the shop turned into one another, with the factor shown; exact where the definition is."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.length_units import FACTORS

EXACT = Source("International yard and pound (1959), SI", "by definition", Status.PUBLISHED)
_LB, _KGF, _FT, _IN = Fraction("0.45359237"), Fraction("9.80665"), Fraction("0.3048"), Fraction("0.0254")
_LBF = _LB * _KGF
_HP = 550 * _FT * _LBF

#: Each quantity's units in its first one, exact.
QUANTITIES: dict[str, dict[str, Fraction]] = {
    "length": dict(FACTORS),
    "mass": {
        "kg": Fraction(1),
        "g": Fraction(1, 1000),
        "t": Fraction(1000),
        "lb": _LB,
        "oz": _LB / 16,
        "cwt": _LB * 112,
        "ton (UK)": _LB * 2240,
        "ton (US)": _LB * 2000,
    },
    "force": {"N": Fraction(1), "kN": Fraction(1000), "kgf": _KGF, "lbf": _LBF, "ozf": _LBF / 16},
    "torque": {
        "N·m": Fraction(1),
        "N·cm": Fraction(1, 100),
        "kgf·m": _KGF,
        "kgf·cm": _KGF / 100,
        "lbf·ft": _LBF * _FT,
        "lbf·in": _LBF * _IN,
    },
    "pressure": {
        "MPa": Fraction(1),
        "bar": Fraction(1, 10),
        "kPa": Fraction(1, 1000),
        "psi": _LBF / _IN**2 / 10**6,
        "kgf/cm²": _KGF / 10**2,
        "ksi": _LBF / _IN**2 / 1000,
    },
    "power": {"W": Fraction(1), "kW": Fraction(1000), "hp": _HP, "metric hp": 75 * _KGF},
    "speed": {
        "m/min": Fraction(1),
        "m/s": Fraction(60),
        "ft/min": _FT,
        "in/min": _IN,
        "mm/min": Fraction(1, 1000),
    },
    "volume": {
        "L": Fraction(1),
        "mL": Fraction(1, 1000),
        "cm³": Fraction(1, 1000),
        "in³": _IN**3 * 1000,
        "gal (US)": 231 * _IN**3 * 1000,
        "qt (US)": 231 * _IN**3 * 250,
        "gal (UK)": Fraction("4.54609"),
        "pt (UK)": Fraction("4.54609") / 8,
    },
    "area": {
        "mm²": Fraction(1),
        "cm²": Fraction(100),
        "m²": Fraction(10**6),
        "in²": _IN**2 * 10**6,
        "ft²": _FT**2 * 10**6,
    },
    "angle": {"°": Fraction(1), "'": Fraction(1, 60), '"': Fraction(1, 3600)},
}
TEMPERATURES = ("°C", "°F", "K")
NAMES = (*QUANTITIES, "temperature")
_SPELLED = {
    "n.m": "n·m",
    "nm": "n·m",
    "lbf-ft": "lbf·ft",
    "lb-ft": "lbf·ft",
    "lb·ft": "lbf·ft",
    "ft-lb": "lbf·ft",
    "lbf-in": "lbf·in",
    "lb-in": "lbf·in",
    "in-lb": "lbf·in",
    "kgf-m": "kgf·m",
    "kg·m": "kgf·m",
    "c": "°c",
    "f": "°f",
    "deg": "°",
    "min": "'",
    "sec": '"',
    "um": "µm",
    "micron": "µm",
    "inch": "in",
    "cm3": "cm³",
    "in3": "in³",
    "in2": "in²",
    "mm2": "mm²",
    "l": "l",
    "sfm": "ft/min",
    "kgf/cm2": "kgf/cm²",
    "fpm": "ft/min",
}


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
    one = _unit(given, "From")
    other = _unit(wanted, "To") if wanted.strip() else None
    quantity = _quantity(one, other)
    sheet = Sheet(f"{value:.12g} {one[1]}")
    units = (other[1],) if other else tuple(unit for unit in _units(quantity) if unit != one[1])
    values = tuple((unit, _turn(value, quantity, one[1], unit, sheet)) for unit in units)
    return Worked(Converted(quantity, values), sheet.close())


def _units(quantity: str) -> tuple[str, ...]:
    return TEMPERATURES if quantity == "temperature" else tuple(QUANTITIES[quantity])


def _unit(typed: str, where: str) -> tuple[tuple[str, ...], str]:
    """Quantities a spelling belongs to, and the unit as held."""
    plain = typed.strip().replace("′", "'").replace("″", '"')
    for spelled in (plain, _SPELLED.get(plain.lower(), "")):
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
