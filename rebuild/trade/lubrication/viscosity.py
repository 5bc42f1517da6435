"""Kinematic viscosity in the units of old manuals: Saybolt, Redwood and Engler to mm²/s (cSt) and back.

Saybolt follows ASTM D2161, whose seconds depend on the temperature of the test; charts of the pump
trade differ from it by up to 2 % above 300 s and 6 % near 35 s and are not mixed in. Redwood and
Engler are the usual interpolation formulas, from memory, good to about 1 %.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.lubrication.walther import MOST_CST
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked

D2161 = Source("ASTM D2161", "Saybolt Universal: equation at 100 °F and temperature factor")
REDWOOD = Source("Redwood No. 1 interpolation formula", "34 to 100 s and above 100 s", Status.FROM_MEMORY)
ENGLER = Source("Engler degree interpolation formula", "1.35 to 3.2 °E and above 3.2 °E", Status.FROM_MEMORY)

LEAST_SAYBOLT_CST = 1.81
_SAYBOLT_C = (-17.78, 176.67)  # 0 to 350 °F, the span of the standard's factor table
_REDWOOD_S = (34.0, 2000.0)
_ENGLER_E = (1.35, 600.0)


class Scale(StrEnum):
    """A unit of viscosity as found in manuals."""

    CST = "cSt"
    SAYBOLT = "SUS"
    REDWOOD = "Redwood 1"
    ENGLER = "Engler"


UNITS = {Scale.CST: "mm²/s", Scale.SAYBOLT: "s", Scale.REDWOOD: "s", Scale.ENGLER: "°E"}


@door()
def fahrenheit(temperature_C: float) -> float:
    """°C as °F.

    >>> fahrenheit(40.0)
    104.0
    """
    return temperature_C * 9.0 / 5.0 + 32.0


@door()
def celsius(temperature_F: float) -> float:
    """°F as °C.

    >>> round(celsius(100.0), 4)
    37.7778
    """
    return (temperature_F - 32.0) * 5.0 / 9.0


@door()
def saybolt_factor(temperature_C: float) -> float:
    """ASTM D2161's factor on Saybolt seconds against 100 °F: 1 + 0.000061 (t - 100) [-].

    >>> round(saybolt_factor(celsius(100.0)), 9), round(saybolt_factor(celsius(210.0)), 5)
    (1.0, 1.00671)
    """
    return 1.0 + 0.000061 * (fahrenheit(temperature_C) - 100.0)


@door()
def saybolt_seconds(viscosity_cSt: float, temperature_C: float = celsius(100.0)) -> float:
    """Saybolt Universal seconds of a kinematic viscosity at the temperature of the test.

    ``SUS = (1 + 0.000061 (t - 100)) (4.6324 ν + (1 + 0.03264 ν) 1e5 / (3930.2 + 262.7 ν + 23.97 ν² +
    1.646 ν³))`` with ν in mm²/s and t in °F.

    Raises:
        OutOfRange: below 1.81 mm²/s (32 s) or outside 0 to 350 °F.

    >>> round(saybolt_seconds(68.0, 40.0), 2)
    315.58
    """
    _check(viscosity_cSt, LEAST_SAYBOLT_CST, MOST_CST, "Viscosity", "mm²/s", D2161)
    _check(temperature_C, *_SAYBOLT_C, "Temperature", "°C", D2161)
    nu = viscosity_cSt
    low_end = (1.0 + 0.03264 * nu) * 1e5 / (3930.2 + 262.7 * nu + 23.97 * nu**2 + 1.646 * nu**3)
    return saybolt_factor(temperature_C) * (4.6324 * nu + low_end)


@door()
def saybolt_cSt(seconds: float, temperature_C: float = celsius(100.0)) -> float:
    """Kinematic viscosity [mm²/s] of Saybolt Universal seconds; the inverse of ``saybolt_seconds``.

    >>> round(saybolt_cSt(300.0), 2)
    64.64
    """
    least = saybolt_seconds(LEAST_SAYBOLT_CST, temperature_C)
    _check(seconds, least, MOST_CST, "Saybolt seconds", "s", D2161)
    return _inverse(lambda nu: saybolt_seconds(nu, temperature_C), seconds, LEAST_SAYBOLT_CST, seconds)


@door()
def redwood_cSt(seconds: float) -> float:
    """Kinematic viscosity [mm²/s] of Redwood No. 1 seconds: 0.260 t - 179/t to 100 s, then 0.247 t - 50/t.

    >>> round(redwood_cSt(405.0), 1)
    99.9
    """
    _check(seconds, *_REDWOOD_S, "Redwood seconds", "s", REDWOOD)
    if seconds <= 100.0:
        return 0.260 * seconds - 179.0 / seconds
    return 0.247 * seconds - 50.0 / seconds


@door()
def engler_cSt(degrees: float) -> float:
    """Kinematic viscosity [mm²/s] of Engler degrees: 8.0 E - 8.64/E to 3.2 °E, then 7.6 E - 4.0/E.

    >>> round(engler_cSt(10.0), 1)
    75.6
    """
    _check(degrees, *_ENGLER_E, "Engler degrees", "°E", ENGLER)
    if degrees <= 3.2:
        return 8.0 * degrees - 8.64 / degrees
    return 7.6 * degrees - 4.0 / degrees


@door()
def to_cSt(value: float, scale: Scale, temperature_C: float) -> Worked[float]:
    """A reading in an old unit as kinematic viscosity [mm²/s] at the same temperature.

    Raises:
        OutOfRange: outside the unit's published or remembered range.

    >>> round(to_cSt(405.0, Scale.REDWOOD, 60.0).value, 1)  # 0.247 x 405 - 50/405
    99.9
    """
    sheet = Sheet(f"{value:g} {scale.value} at {temperature_C:.4g} °C as kinematic viscosity")
    sheet.read("reading", f"{value:g} {UNITS[scale]} ({scale.value}) at {_both(temperature_C)}")
    if scale is Scale.CST:
        _check(value, 0.2, MOST_CST, "Viscosity", "mm²/s", D2161)
        nu = value
    elif scale is Scale.SAYBOLT:
        nu = saybolt_cSt(value, temperature_C)
        sheet.equation("Saybolt", _saybolt_text(nu, temperature_C, value), D2161)
        sheet.note("Charts of the pump trade differ from D2161 by up to 2 % above 300 s and 6 % near 35 s.")
    else:
        conversion = _OLD[scale]
        nu = conversion.forward(value)
        sheet.equation(scale.value, conversion.text(value, nu), conversion.source)
    sheet.result("kinematic viscosity", f"{nu:.4g} mm²/s (cSt) at {_both(temperature_C)}")
    return Worked(nu, sheet.close())


@door()
def from_cSt(viscosity_cSt: float, scale: Scale, temperature_C: float) -> Worked[float]:
    """Kinematic viscosity [mm²/s] as a reading in an old unit at the same temperature.

    >>> round(from_cSt(100.0, Scale.ENGLER, 50.0).value, 2)
    13.2
    """
    sheet = Sheet(f"{viscosity_cSt:g} mm²/s at {temperature_C:.4g} °C as {scale.value}")
    sheet.read("kinematic viscosity", f"{viscosity_cSt:g} mm²/s (cSt) at {_both(temperature_C)}")
    if scale is Scale.CST:
        _check(viscosity_cSt, 0.2, MOST_CST, "Viscosity", "mm²/s", D2161)
        return Worked(viscosity_cSt, sheet.close())
    if scale is Scale.SAYBOLT:
        value = saybolt_seconds(viscosity_cSt, temperature_C)
        sheet.equation("Saybolt", _saybolt_text(viscosity_cSt, temperature_C, value), D2161)
    else:
        conversion = _OLD[scale]
        value = conversion.backward(viscosity_cSt)
        sheet.equation(scale.value, conversion.text(value, viscosity_cSt), conversion.source)
    sheet.result(scale.value, f"{value:.4g} {UNITS[scale]}")
    return Worked(value, sheet.close())


@dataclass(frozen=True, slots=True)
class _Old:
    """An old unit with a forward formula and its range."""

    forward: Callable[[float], float]
    low: float
    high: float
    source: Source
    low_text: str
    high_text: str
    turn: float

    def backward(self, viscosity_cSt: float) -> float:
        """Seconds or degrees of a viscosity; refuses outside the formula's range."""
        ends = (self.forward(self.low), self.forward(self.high))
        _check(viscosity_cSt, *ends, "Viscosity", "mm²/s", self.source)
        return _inverse(self.forward, viscosity_cSt, self.low, self.high)

    def text(self, value: float, nu: float) -> str:
        """The formula with its numbers put in."""
        shape = self.low_text if value <= self.turn else self.high_text
        return shape.format(value=value, nu=nu)


_OLD = {
    Scale.REDWOOD: _Old(
        redwood_cSt, *_REDWOOD_S, REDWOOD,
        "0.260·{value:.4g} - 179/{value:.4g} = {nu:.4g} mm²/s",
        "0.247·{value:.5g} - 50/{value:.5g} = {nu:.5g} mm²/s", 100.0,
    ),
    Scale.ENGLER: _Old(
        engler_cSt, *_ENGLER_E, ENGLER,
        "8.0·{value:.4g} - 8.64/{value:.4g} = {nu:.4g} mm²/s",
        "7.6·{value:.5g} - 4.0/{value:.5g} = {nu:.5g} mm²/s", 3.2,
    ),
}  # fmt: skip


def _saybolt_text(nu: float, temperature_C: float, seconds: float) -> str:
    factor = saybolt_factor(temperature_C)
    at_100 = seconds / factor
    return (
        f"at 100 °F {nu:.5g} mm²/s gives {at_100:.5g} s; × (1 + 0.000061 ({fahrenheit(temperature_C):.4g}"
        f" - 100)) = × {factor:.5f} gives {seconds:.5g} s"
    )


def _both(temperature_C: float) -> str:
    return f"{temperature_C:.4g} °C ({fahrenheit(temperature_C):.4g} °F)"


def _inverse(rising: Callable[[float], float], wanted: float, low: float, high: float) -> float:
    """Where a rising function reaches ``wanted``, by halving."""
    for _ in range(200):
        middle = 0.5 * (low + high)
        if middle in (low, high):
            break
        if rising(middle) < wanted:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def _check(value: float, low: float, high: float, what: str, unit: str, source: Source) -> None:
    if not math.isfinite(value) or (value <= 0 and what != "Temperature"):
        raise BadEntry("is not a positive number.", where=what, value=f"{value:g}")
    if not low * (1 - 1e-12) - 1e-9 <= value <= high:
        top = f" to {high:.4g}" if math.isfinite(high) else " and up"
        raise OutOfRange(
            f"lies outside {low:.4g}{top} {unit}, the range of {source.cite()}.",
            where=what,
            value=f"{value:.6g} {unit}",
            way_out="Give the viscosity in mm²/s, or at another temperature.",
        )
