"""The units a length may be stored in, by their stored names."""

from __future__ import annotations

from enum import StrEnum


class LengthUnit(StrEnum):
    """A unit of length; what each is in millimetres stands in ``rebuild/trade/sizes/length_units.py``."""

    MM = "mm"
    CM = "cm"
    M = "m"
    MICROMETRE = "µm"
    INCH = "in"
    THOU = "thou"
    TENTH = "tenth"
    MICROINCH = "µin"
    FOOT = "ft"
