"""Viscosity index: how little an oil thins when warmed (ASTM D2270, ISO 2909), and back again."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from functools import cache
from math import isfinite, log10

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.lubrication.walther import D341, MOST_CST, OilLine, line_through
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Worked

D2270 = Source("ASTM D2270-10 (2016)", "Procedure A to VI 100, Procedure B above")
LEAST_100C = 2.0
LEAST_INDEX, MOST_INDEX = -100.0, 400.0


@dataclass(frozen=True, slots=True)
class Index:
    """The viscosity index: whole as reported, exact, and the basic values it came from [mm²/s]."""

    whole: int
    exact: float
    procedure: str
    L_cSt: float
    H_cSt: float


@door()
def basic_values(viscosity_100C_cSt: float) -> tuple[float, float]:
    """L and H [mm²/s at 40 °C] for a viscosity at 100 °C: Table 1 to 70 mm²/s, its equations above.

    Raises:
        OutOfRange: below 2 mm²/s, where the index is not defined.

    >>> [round(value, 2) for value in basic_values(8.86)]
    [119.94, 69.48]
    """
    Y = viscosity_100C_cSt
    if not (isfinite(Y) and Y >= LEAST_100C):
        raise OutOfRange(
            f"lies below {LEAST_100C:g} mm²/s, where the index is not defined by {D2270.cite()}.",
            where="Viscosity at 100 °C",
            value=f"{Y:g} mm²/s",
        )
    _refuse_stiff(Y, "Viscosity at 100 °C")
    rows = _rows()
    if rows[-1][0] < Y:
        return 0.8353 * Y**2 + 14.67 * Y - 216.0, 0.1684 * Y**2 + 11.85 * Y - 97.0
    place = min(bisect_right(rows, (Y, float("inf"), 0.0)), len(rows) - 1)
    (y0, l0, h0), (y1, l1, h1) = rows[place - 1], rows[place]
    part = (Y - y0) / (y1 - y0)
    return l0 + part * (l1 - l0), h0 + part * (h1 - h0)


def _refuse_stiff(viscosity_cSt: float, where: str) -> None:
    """Beyond what is measured as kinematic viscosity nothing is worked out."""
    if viscosity_cSt > MOST_CST:
        raise OutOfRange(
            f"lies above {MOST_CST:g} mm²/s, the range of {D341.cite()}.",
            where=where,
            value=f"{viscosity_cSt:g} mm²/s",
        )


@door()
def viscosity_index(viscosity_40C_cSt: float, viscosity_100C_cSt: float) -> Worked[Index]:
    """The viscosity index from the viscosities at 40 and 100 °C.

    Procedure A: VI = 100 (L - U)/(L - H). Procedure B, when U < H: N = (log H - log U)/log Y,
    VI = (10^N - 1)/0.00715 + 100. Reported as a whole number, halves to the even one.

    Raises:
        BadEntry: the oil would not thin when warmed.
        OutOfRange: below 2 mm²/s at 100 °C.

    >>> viscosity_index(73.3, 8.86).value.whole
    92
    """
    U, Y = viscosity_40C_cSt, viscosity_100C_cSt
    L, H = basic_values(Y)
    if not isfinite(U) or U <= Y:
        raise BadEntry(
            "is not above the viscosity at 100 °C.",
            where="Viscosity at 40 °C",
            value=f"{U:g} mm²/s",
            way_out="Check which reading belongs to which temperature.",
        )
    _refuse_stiff(U, "Viscosity at 40 °C")
    exact, procedure = exact_index(U, Y, L, H)
    sheet = Sheet("Viscosity index")
    sheet.read("viscosities", f"U = {U:g} mm²/s at 40 °C, Y = {Y:g} mm²/s at 100 °C")
    where = "Table 1" if _rows()[-1][0] >= Y else "its equations above 70 mm²/s"
    sheet.table("basic values", f"{where}: L = {L:.2f}, H = {H:.2f}", table("d2270_l_h").source)
    if procedure == "A":
        sheet.equation("VI", f"100 ({L:.2f} - {U:g}) / ({L:.2f} - {H:.2f}) = {exact:.2f}", D2270)
    else:
        N = log10(H / U) / log10(Y)
        sheet.equation("N", f"(log {H:.2f} - log {U:g}) / log {Y:g} = {N:.5f}", D2270)
        sheet.equation("VI", f"(10^{N:.5f} - 1) / 0.00715 + 100 = {exact:.2f}", D2270)
    whole = round(exact)
    sheet.result("viscosity index", f"{whole} (nearest whole number, a half to the even one)")
    return Worked(Index(whole, exact, procedure, L, H), sheet.close())


@door()
def exact_index(U: float, Y: float, L: float, H: float) -> tuple[float, str]:
    """The unrounded index and its procedure from U, Y and the basic values [mm²/s].

    Both worked examples of ASTM D2270: 92 by procedure A, 156 by procedure B.

    >>> exact, procedure = exact_index(73.30, 8.86, 119.94, 69.48)
    >>> round(exact, 2), procedure
    (92.43, 'A')
    >>> exact, procedure = exact_index(22.83, 5.05, 41.11, 28.97)
    >>> round(exact), procedure
    (156, 'B')
    """
    return _exact(U, Y, L, H)


def _exact(U: float, Y: float, L: float, H: float) -> tuple[float, str]:
    if U >= H:
        return 100.0 * (L - U) / (L - H), "A"
    return (10.0 ** (log10(H / U) / log10(Y)) - 1.0) / 0.00715 + 100.0, "B"


@door()
def viscosity_100C(viscosity_40C_cSt: float, index: float) -> float:
    """The viscosity at 100 °C [mm²/s] of an oil of known viscosity at 40 °C and index.

    Raises:
        OutOfRange: no oil above 2 mm²/s at 100 °C has this index.

    >>> round(viscosity_100C(68.0, 95.0), 2)
    8.53
    """
    low, high = LEAST_100C, viscosity_40C_cSt * (1 - 1e-9)
    if high <= low or _index(viscosity_40C_cSt, low) > index or _index(viscosity_40C_cSt, high) < index:
        raise OutOfRange(
            f"at 40 °C and an index of {index:g} do not meet above {LEAST_100C:g} mm²/s at 100 °C, the "
            f"range of {D2270.cite()}.",
            where="Viscosity",
            value=f"{viscosity_40C_cSt:g} mm²/s",
        )
    while high - low > 1e-12 * high:
        middle = 0.5 * (low + high)
        if _index(viscosity_40C_cSt, middle) < index:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


@door()
def line_of_index(temperature_C: float, viscosity_cSt: float, index: float) -> OilLine:
    """The oil's line from one reading at any temperature and its viscosity index.

    Raises:
        OutOfRange: the reading and the index do not fit together within D341 and D2270.

    >>> round(line_of_index(37.7778, 64.64, 95).viscosity_cSt(40), 1)
    57.9
    """
    if not LEAST_INDEX <= index <= MOST_INDEX:
        raise OutOfRange(
            f"lies outside {LEAST_INDEX:g} to {MOST_INDEX:g}, what oils have.",
            where="Viscosity index",
            value=f"{index:g}",
        )
    low, high = 3.0, 5.0e5
    while high - low > 1e-12 * high:
        middle = (low * high) ** 0.5
        if _reading(middle, temperature_C, index) < viscosity_cSt:
            low = middle
        else:
            high = middle
    found = (low * high) ** 0.5
    line = line_through(40.0, found, 100.0, viscosity_100C(found, index))
    if abs(line.viscosity_cSt(temperature_C) / viscosity_cSt - 1.0) > 1e-6:
        raise OutOfRange(
            f"at {temperature_C:g} °C and an index of {index:g} do not meet within {D2270.cite()}.",
            where="Viscosity",
            value=f"{viscosity_cSt:g} mm²/s",
        )
    return line


def _reading(viscosity_40C_cSt: float, temperature_C: float, index: float) -> float:
    """What an oil of this class and index reads at a temperature; 0 where it falls below the range."""
    try:
        hot = viscosity_100C(viscosity_40C_cSt, index)
        return line_through(40.0, viscosity_40C_cSt, 100.0, hot).viscosity_cSt(temperature_C)
    except OutOfRange:
        return 0.0 if viscosity_40C_cSt < 50.0 else float("inf")


def _index(U: float, Y: float) -> float:
    return _exact(U, Y, *basic_values(Y))[0]


@cache
def _rows() -> tuple[tuple[float, float, float], ...]:
    return tuple(
        (float(row["viscosity_100C_cSt"]), float(row["L"]), float(row["H"]))
        for row in table("d2270_l_h").rows
    )
