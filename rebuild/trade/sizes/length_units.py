"""Length units as people spell them, their exact factors, and the typography of typed sizes."""

from __future__ import annotations

from fractions import Fraction

INCH = Fraction(127, 5)

#: Length units by their stored name, in millimetres, exact.
FACTORS: dict[str, Fraction] = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "µm": Fraction(1, 1000),
    "in": INCH,
    "thou": INCH / 1000,
    "tenth": INCH / 10_000,
    "µin": INCH / 1_000_000,
    "ft": INCH * 12,
}

#: The units of the inch system.
INCH_UNITS = frozenset({"in", "thou", "tenth", "µin", "ft"})

SPELLINGS = {
    "mm": ("mm", "millimetre", "millimetres", "millimeter", "millimeters"),
    "cm": ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
    "m": ("m", "metre", "metres", "meter", "meters"),
    "µm": ("µm", "um", "µ", "micron", "microns", "micrometre", "micrometres"),
    "in": ("in", "in.", "inch", "inches", '"', "''"),
    "thou": ("thou", "thous", "thousandth", "thousandths"),
    "tenth": ("tenth", "tenths"),
    "µin": ("µin", "uin", "microinch", "microinches"),
    "ft": ("ft", "ft.", "foot", "feet", "'"),
}
UNIT_OF = {spelling: unit for unit, spellings in SPELLINGS.items() for spelling in spellings}

TYPOGRAPHY = str.maketrans(
    {
        "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\u2007": " ", "\t": " ",
        "−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-",
        "″": '"', "”": '"', "“": '"', "′": "'", "’": "'", "‘": "'",
        "μ": "µ", "⁄": "/", "∕": "/",
        "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
        "⅓": " 1/3", "⅔": " 2/3",
    }
)  # fmt: skip
