"""The units of the shop by quantity, each exact in the first of its quantity, and how people spell them.

Source: the international yard and pound (1959) and the SI; exact by definition.
"""

from __future__ import annotations

from fractions import Fraction

from rebuild.trade.sizes.length_units import FACTORS

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
    "spring rate": {
        "N/mm": Fraction(1),
        "N/m": Fraction(1, 1000),
        "kgf/mm": _KGF,
        "lbf/in": _LBF / (_IN * 1000),
        "lbf/ft": _LBF / (_FT * 1000),
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
#: Other spellings, in small letters.
SPELLED = {
    "lb/in": "lbf/in",
    "lbs/in": "lbf/in",
    "lb/inch": "lbf/in",
    "lb/ft": "lbf/ft",
    "kg/mm": "kgf/mm",
    "lbs": "lb",
    "pound": "lb",
    "pounds": "lb",
    "kgs": "kg",
    "kilo": "kg",
    "kilos": "kg",
    "tonne": "t",
    "tonnes": "t",
    "lb-f": "lbf",
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
