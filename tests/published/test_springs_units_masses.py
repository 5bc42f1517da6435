"""Springs by the energy in the wire, units against a units library, balance by moments."""

from __future__ import annotations

from math import pi

import numpy as np
import pint

from rebuild.trade.shop.balance_point import Piece, balance_point
from rebuild.trade.shop.unit_conversion import QUANTITIES, convert
from rebuild.trade.springs.coil import coil_spring, coils_for_rate
from tests.published.conftest import Checker


def test_rate_by_the_energy_of_torsion(published: Checker) -> None:
    """Independent (Castigliano): U = ∫ T² ds / 2 G J, T = F D/2 along the wire, J from rings; x = dU/dF."""
    for d, outside, coils in ((1.0, 8.0, 9.0), (2.0, 18.0, 10.0), (3.2, 30.0, 7.5), (0.9, 11.0, 14.0)):
        mean, G, F = outside - d, 79300.0, 1.0
        r = np.linspace(0.0, d / 2, 4001)
        J = float(np.trapezoid(2 * pi * r**3, r))
        length = pi * mean * (coils - 2)
        U = (F * mean / 2) ** 2 * length / (2 * G * J)
        got = coil_spring("compression", d, outside, coils, 0.0).value.rate_N_mm
        published.number(
            "Spring, energy of torsion", f"{d} x {outside}", got / (F / (2 * U / F)), 1.0, last_digit=1e-5
        )
        back = coils_for_rate(got, d, outside).value
        published.number("Spring, energy of torsion", f"{d} x {outside} back", back, coils, last_digit=1e-6)
        free = coil_spring("extension", d, outside, coils, 10.0, initial_N=2.0).value
        published.number(
            "Spring, energy of torsion",
            f"{d} x {outside} pulled",
            free.force_N - 2.0,
            free.rate_N_mm * 10,
            last_digit=1e-9,
        )


#: How a units library spells ours.
PINT = {
    "thou": "thou",
    "µin": "microinch",
    "in": "inch",
    "µm": "micrometer",
    "t": "metric_ton",
    "cwt": "UK_hundredweight",
    "ton (UK)": "UK_ton",
    "ton (US)": "US_ton",
    "ozf": "ounce_force",
    "lbf": "pound_force",
    "kgf": "kilogram_force",
    "N·m": "newton*meter",
    "N·cm": "newton*centimeter",
    "kgf·m": "kilogram_force*meter",
    "kgf·cm": "kilogram_force*centimeter",
    "lbf·ft": "pound_force*foot",
    "lbf·in": "pound_force*inch",
    "MPa": "megapascal",
    "kgf/cm²": "kilogram_force/centimeter**2",
    "hp": "horsepower",
    "metric hp": "metric_horsepower",
    "m/min": "meter/minute",
    "m/s": "meter/second",
    "ft/min": "foot/minute",
    "in/min": "inch/minute",
    "mm/min": "millimeter/minute",
    "L": "liter",
    "mL": "milliliter",
    "cm³": "centimeter**3",
    "in³": "inch**3",
    "gal (US)": "gallon",
    "qt (US)": "quart",
    "gal (UK)": "imperial_gallon",
    "pt (UK)": "imperial_pint",
    "mm²": "millimeter**2",
    "cm²": "centimeter**2",
    "m²": "meter**2",
    "in²": "inch**2",
    "ft²": "foot**2",
    "°": "degree",
    "'": "arcminute",
    '"': "arcsecond",
}


def test_units_against_a_units_library(published: Checker) -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    for quantity, units in QUANTITIES.items():
        first = next(iter(units))
        for unit in units:
            if unit == "tenth":
                continue  # a word of the shop, no unit of the library's
            one = registry.Quantity(1.0, PINT.get(unit, unit)).to(PINT.get(first, first)).magnitude
            got = convert(1.0, unit, first).value.values[0][1]
            published.number(
                "Units of a units library", f"{quantity} {unit}", got / float(one), 1.0, last_digit=1e-9
            )


def test_temperatures(published: Checker) -> None:
    # Source: fixed points by definition: water freezes at 32 °F, boils at 212 °F; -40 is the same on both; 0 K.
    for value, given, wanted, want in (
        (32.0, "°F", "°C", 0.0),
        (212.0, "F", "C", 100.0),
        (-40.0, "C", "F", -40.0),
        (0.0, "K", "°C", -273.15),
        (0.0, "K", "°F", -459.67),
    ):
        got = convert(value, given, wanted).value.values[0][1]
        published.number("Fixed points of temperature", f"{value:g} {given}", got, want, last_digit=1e-9)


def test_pieces_hang_level(published: Checker) -> None:
    """Independent: about the centre found, the moments of all pieces cancel."""
    chance = np.random.default_rng(7)
    for at in range(5):
        pieces = tuple(
            Piece(float(m), float(x))
            for m, x in zip(chance.uniform(5, 400, 6), chance.uniform(-500, 2500, 6), strict=True)
        )
        found = balance_point(pieces).value
        moment = float(np.dot([one.mass_kg for one in pieces], [one.x_mm - found.x_mm for one in pieces]))
        published.number("Balance of moments", f"set {at + 1}", moment, 0.0, last_digit=1e-6)
