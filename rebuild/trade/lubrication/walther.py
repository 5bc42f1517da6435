"""Viscosity at another temperature: ASTM D341, log log (ν + 0.7) = A - B log T.

The simple form holds above 2 mm²/s. T = t + 273.15 K and logarithms to base 10 (an old print with
273 gives the fourth digit otherwise).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite, log10

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Worked
from rebuild.trade.sizes.given import number_of

D341 = Source("ASTM D341", "log log (ν + 0.7) = A - B log T, above 2 mm²/s")
LEAST_CST, MOST_CST = 2.0, 2e7
COLDEST_C, HOTTEST_C = -34.4, 232.2  # -30 to 450 °F, the span of the standard's charts


@dataclass(frozen=True, slots=True)
class OilLine:
    """One oil's straight line on the viscosity-temperature chart."""

    A: float
    B: float

    def viscosity_cSt(self, temperature_C: float) -> float:
        """Kinematic viscosity [mm²/s] at a temperature [°C].

        Raises:
            OutOfRange: outside -34.4 to 232.2 °C, or outside 2 to 2e7 mm²/s where the form holds.
        """
        if not COLDEST_C <= temperature_C <= HOTTEST_C:
            raise OutOfRange(
                f"lies outside {COLDEST_C:g} to {HOTTEST_C:g} °C, the range of {D341.cite()}.",
                where="Temperature",
                value=f"{temperature_C:g} °C",
            )
        inner = self.A - self.B * log10(temperature_C + 273.15)
        nu = 10.0 ** (10.0**inner) - 0.7 if inner < 1.0 else MOST_CST * 10
        if not LEAST_CST * (1 - 1e-9) <= nu <= MOST_CST:
            raise OutOfRange(
                f"gives {nu:.3g} mm²/s, outside {LEAST_CST:g} to {MOST_CST:g} mm²/s, the range of "
                f"{D341.cite()}.",
                where="Temperature",
                value=f"{temperature_C:g} °C",
            )
        return nu


@door()
def line_through(
    first_C: float, first_cSt: float, second_C: float, second_cSt: float, *, kelvin: float = 273.15
) -> OilLine:
    """The line through two readings. ``kelvin`` is 273.15 except to follow a print that used 273.

    Raises:
        BadEntry: equal temperatures, or the oil would thicken when warmed.
        OutOfRange: a reading below 2 mm²/s, or at or under absolute zero.

    >>> line = line_through(40, 32, 100, 5.4)
    >>> round(line.A, 4), round(line.B, 4), round(line.viscosity_cSt(80), 2)
    (9.5308, 3.7466, 8.53)
    """
    for nu in (first_cSt, second_cSt):
        if not (isfinite(nu) and LEAST_CST <= nu <= MOST_CST):
            raise OutOfRange(
                f"lies outside {LEAST_CST:g} to {MOST_CST:g} mm²/s, the range of {D341.cite()}.",
                where="Viscosity",
                value=f"{nu:g} mm²/s",
            )
    for temperature_C in (first_C, second_C):
        number_of("Temperature of a reading", temperature_C, above=-kelvin)
    if abs(first_C - second_C) < 1.0:
        raise BadEntry("need two temperatures at least 1 °C apart.", where="The two readings")
    if (first_C - second_C) * (first_cSt - second_cSt) >= 0:
        raise BadEntry("say the oil thickens when warmed.", where="The two readings", way_out="Swap them.")
    y1, y2 = (log10(log10(nu + 0.7)) for nu in (first_cSt, second_cSt))
    x1, x2 = (log10(t + kelvin) for t in (first_C, second_C))
    slope = (y1 - y2) / (x2 - x1)
    return OilLine(y1 + slope * x1, slope)


@door()
def viscosity_at(
    temperature_C: float, first_C: float, first_cSt: float, second_C: float, second_cSt: float
) -> Worked[float]:
    """Kinematic viscosity [mm²/s] at a temperature, from two readings, with its working.

    >>> round(viscosity_at(20, 40, 68, 100, 8.7).value, 1)
    214.8
    """
    sheet = Sheet(f"Viscosity at {temperature_C:g} °C")
    line = line_through(first_C, first_cSt, second_C, second_cSt)
    sheet.read("readings", f"{first_cSt:g} mm²/s at {first_C:g} °C, {second_cSt:g} mm²/s at {second_C:g} °C")
    sheet.equation("B", f"(log log ν1' - log log ν2') / (log T2 - log T1) = {line.B:.5f}", D341)
    sheet.equation("A", f"log log ({first_cSt:g} + 0.7) + B log {first_C + 273.15:g} = {line.A:.5f}", D341)
    nu = line.viscosity_cSt(temperature_C)
    inner = f"{line.A:.5f} - {line.B:.5f} log {temperature_C + 273.15:g}"
    sheet.equation("log log (ν + 0.7)", inner, D341)
    sheet.result("viscosity", f"{nu:.4g} mm²/s at {temperature_C:g} °C")
    if not min(first_C, second_C) <= temperature_C <= max(first_C, second_C):
        sheet.note("Outside the two readings: true only while the oil stays clear and liquid.", D341)
    return Worked(nu, sheet.close())
