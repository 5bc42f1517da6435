"""Tolerances and deviations of ISO 965-1, from its tables; by its formulas for pitches it does not list.

All values in micrometres. The tables' numbers are the formulas' values rounded to R40 preferred numbers,
some moved a step for smoothness, so a tabulated pitch always takes the table.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from math import sqrt

from rebuild.errors import BadEntry
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Source, Status
from rebuild.trade.threads.rounding import r40

RULE = Source("ISO 965-1:1998", "clause 13, formulas, rounded to R40", Status.COMPUTED)
RANGES = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0)
_FACTOR = {
    ("Td2", 3): 0.5, ("Td2", 4): 0.63, ("Td2", 5): 0.8, ("Td2", 6): 1.0, ("Td2", 7): 1.25, ("Td2", 8): 1.6,
    ("Td2", 9): 2.0, ("TD2", 4): 0.85, ("TD2", 5): 1.06, ("TD2", 6): 1.32, ("TD2", 7): 1.7, ("TD2", 8): 2.12,
    ("Td", 4): 0.63, ("Td", 6): 1.0, ("Td", 8): 1.6, ("TD1", 4): 0.63, ("TD1", 5): 0.8, ("TD1", 6): 1.0,
    ("TD1", 7): 1.25, ("TD1", 8): 1.6,
}  # fmt: skip
_COLUMN = {"Td2": "ext", "TD2": "int", "Td": "ext", "TD1": "int"}
_DEVIATION = {"e": 50.0, "f": 30.0, "g": 15.0}


@dataclass(frozen=True, slots=True)
class Micrometres:
    """A tolerance or deviation [µm], the row or formula it comes from, and its source."""

    um: float
    how: str
    source: Source


@cache
def _crest_rows() -> dict[float, Mapping[str, str]]:
    return {float(row["pitch_mm"]): row for row in table("iso965_crest_tolerances").rows}


@cache
def _pitch_rows() -> dict[tuple[float, float], Mapping[str, str]]:
    rows = table("iso965_pitch_diameter_tolerances").rows
    return {(float(row["over_mm"]), float(row["pitch_mm"])): row for row in rows}


def diameter_range(d_mm: float) -> tuple[float, float]:
    """The standard's diameter range (over, up to and including) that holds ``d_mm``.

    >>> diameter_range(11.2), diameter_range(11.3)
    ((5.6, 11.2), (11.2, 22.4))
    """
    for low, high in pairwise(RANGES):
        if d_mm <= high:
            return low, high
    return RANGES[-2], RANGES[-1]


def tolerance(symbol: str, grade: int, d_mm: float, pitch_mm: float) -> Micrometres:
    """Td, Td2, TD1 or TD2 of one grade.

    Args:
        symbol: ``Td``, ``Td2`` (screw: major, pitch), ``TD1``, ``TD2`` (nut: minor, pitch).
        grade: the standard's tolerance grade.
        d_mm: basic major diameter [mm].
        pitch_mm: pitch [mm].

    Raises:
        BadEntry: the standard has no such grade, or none at this pitch.

    >>> tolerance("TD2", 6, 6.0, 1.0).um, tolerance("Td", 6, 36.0, 4.0).um
    (150.0, 475.0)
    """
    if (symbol, grade) not in _FACTOR:
        known = ", ".join(str(g) for name, g in _FACTOR if name == symbol)
        raise BadEntry(
            f"is not a grade of {symbol} in ISO 965-1.",
            where="Tolerance grade",
            value=str(grade),
            way_out=f"Grades: {known}.",
        )
    by_diameter = symbol in ("Td2", "TD2")
    low, high = diameter_range(d_mm)
    name = "iso965_pitch_diameter_tolerances" if by_diameter else "iso965_crest_tolerances"
    row = _pitch_rows().get((low, pitch_mm)) if by_diameter else _crest_rows().get(pitch_mm)
    if row is None:
        return _by_formula(symbol, grade, sqrt(low * high), pitch_mm)
    cell = row[f"{_COLUMN[symbol]}_{grade}"]
    if not cell:
        raise BadEntry(
            f"is a grade ISO 965-1 does not give for {symbol} at pitch {pitch_mm:g} mm.",
            where="Tolerance grade",
            value=str(grade),
            way_out="Take a finer grade.",
        )
    over = f"d over {low:g} to {high:g}, " if by_diameter else ""
    how = f"{over}P {pitch_mm:g}: {symbol}({grade}) = {cell} µm"
    return Micrometres(float(cell), how, table(name).row_source(row))


def _by_formula(symbol: str, grade: int, mean_mm: float, P: float) -> Micrometres:
    if symbol in ("Td2", "TD2"):
        six, text = 90 * P**0.4 * mean_mm**0.1, f"90 P^0.4 d^0.1 with d = {mean_mm:.2f}"
    elif symbol == "Td":
        six, text = 180 * P ** (2 / 3) - 3.15 / sqrt(P), "180 P^2/3 - 3.15/P^1/2"
    elif P <= 0.8:
        six, text = 433 * P - 190 * P**1.22, "433 P - 190 P^1.22"
    else:
        six, text = 230 * P**0.7, "230 P^0.7"
    factor = _FACTOR[symbol, grade]
    value = r40(factor * six)
    how = f"pitch {P:g} is not tabulated: {factor:g} x ({text}) = {factor * six:.1f}, to R40 {value:g} µm"
    return Micrometres(value, how, RULE)


def deviation(letter: str, pitch_mm: float) -> Micrometres:
    """How far a position lies off basic: e, f, g below (screw), G above (nut), h and H none.

    >>> deviation("g", 1.0).um, deviation("H", 1.0).um
    (26.0, 0.0)
    """
    if letter in "hH":
        return Micrometres(0.0, f"position {letter}: 0", RULE)
    small = letter.lower()
    row = _crest_rows().get(pitch_mm)
    if row is not None and row[f"dev_{small}"]:
        how = f"P {pitch_mm:g}: position {letter} = {row[f'dev_{small}']} µm"
        return Micrometres(float(row[f"dev_{small}"]), how, table("iso965_crest_tolerances").row_source(row))
    if row is not None:
        raise BadEntry(
            f"is a position ISO 965-1 does not give at pitch {pitch_mm:g} mm.",
            where="Tolerance position",
            value=letter,
            way_out="Take g or h.",
        )
    value = float(round(_DEVIATION[small] + 11 * pitch_mm))
    how = f"pitch {pitch_mm:g} is not tabulated: {_DEVIATION[small]:g} + 11 P = {value:g} µm"
    return Micrometres(value, how, RULE)
