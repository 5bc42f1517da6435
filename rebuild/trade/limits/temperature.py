"""Readings away from 20 °C: the correction, and the parts temperature adds to a budget."""

from __future__ import annotations

import math

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.limits.component import GUM, RECTANGULAR, Component, um_text
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import number_of

THERMAL = Source(GUM, "H.1: comparison at a temperature off 20 °C, with the second-order term of H.1.7")
REFERENCE = Source("ISO 1:2022", "reference temperature 20 °C", Status.FROM_MEMORY)
JUDGED = Source("this program", "a cautious width, yours to change", Status.JUDGEMENT)

#: Half-widths used where nothing better is known [K, 1/K]; shown in the working as judgement.
UNKNOWN_TEMPERATURE_K = 15.0
UNKNOWN_ALPHA_PER_K = 12.5e-6


def to_20C(
    length_mm: float,
    temperature_C: float,
    part_alpha: float,
    scale_alpha: float,
    scale_temperature_C: float | None = None,
) -> Worked[float]:
    """The length at 20 °C of a part read with a scale or micrometer that is not at 20 °C.

    L20 = L·(1 - α_part·(T_part - 20) + α_scale·(T_scale - 20)), first order.

    Args:
        length_mm: as read [mm].
        temperature_C, scale_temperature_C: of the part, of the instrument [degC] (None: the same).
        part_alpha, scale_alpha: linear expansion [1/K].

    Raises:
        BadEntry: an expansion figure not given per kelvin (larger than 1e-3).
        OutOfRange: further than 100 K from 20 °C, where a constant expansion no longer holds.

    >>> round(to_20C(100, 25, 23.6e-6, 11.5e-6).value, 6)
    99.99395
    """
    length_mm, temperature_C = (
        number_of("Length", length_mm),
        number_of("Temperature", temperature_C, finite=False),
    )
    part_alpha, scale_alpha = (number_of("Expansion", a, finite=False) for a in (part_alpha, scale_alpha))
    scale_C = (
        temperature_C
        if scale_temperature_C is None
        else number_of("Temperature", scale_temperature_C, finite=False)
    )
    for alpha in (part_alpha, scale_alpha):
        if not abs(alpha) < 1e-3:
            raise BadEntry(
                "is no expansion per kelvin.",
                where="Expansion",
                value=f"{alpha:g}",
                way_out="Steel is 11.5e-6 per K.",
            )
    _refuse_extreme(temperature_C)
    _refuse_extreme(scale_C)
    correction = length_mm * (part_alpha * (temperature_C - 20.0) - scale_alpha * (scale_C - 20.0))
    sheet = Sheet("Length at 20 °C")
    sheet.read("as read", f"{length_mm:.6g} mm, part at {temperature_C:g} °C, instrument at {scale_C:g} °C")
    sheet.equation(
        "correction",
        f"{length_mm:.6g}·({part_alpha * 1e6:g}·({temperature_C:g} - 20) "
        f"- {scale_alpha * 1e6:g}·({scale_C:g} - 20))/1e6 = {um_text(correction)}",
        THERMAL,
    )
    sheet.result("length at 20 °C", f"{length_mm - correction:.6f} mm (correction subtracted)", REFERENCE)
    return Worked(length_mm - correction, sheet.close())


def thermal_parts(
    length: float,
    temperature: float | None,
    part_alpha: float | None,
    scale_alpha: float,
    within: float,
    doubt: float,
    corrected: bool,
) -> list[Component]:
    """Temperature: part against instrument, doubt of the expansion figures, the thermometer, and a
    correction left out. A temperature not noted is 20 °C known within ``UNKNOWN_TEMPERATURE_K``; a material
    not known expands as the instrument within ``UNKNOWN_ALPHA_PER_K``.

    >>> steel = thermal_parts(100, 20, 11.5e-6, 11.5e-6, 1.0, 0.1, corrected=True)
    >>> [(part.name, um_text(part.u_mm)) for part in steel][:1]
    [('part against instrument', '0.664 µm')]
    """
    root3 = math.sqrt(3.0)
    if temperature is not None:
        _refuse_extreme(temperature)
    rise = 0.0 if temperature is None else temperature - 20.0
    room = UNKNOWN_TEMPERATURE_K if temperature is None else within
    body_alpha = scale_alpha if part_alpha is None else max(part_alpha, scale_alpha)
    how = f"{length:.6g} mm·{body_alpha * 1e6:g}e-6·{within:g} K/√3"
    parts = [
        Component("part against instrument", length * body_alpha * within / root3, math.inf, how, THERMAL),
        _figures_part(length, rise, room, part_alpha, scale_alpha, doubt),
    ]
    difference = 0.0 if part_alpha is None else abs(part_alpha - scale_alpha)
    if difference:
        noted = ("thermometer", "", THERMAL)
        name, why, source = noted if temperature is not None else ("temperature", "not noted: ", JUDGED)
        how = f"{why}{length:.6g} mm·{difference * 1e6:g}e-6·{room:g} K/√3"
        parts.append(Component(name, length * difference * room / root3, math.inf, how, source))
    left = abs(length * difference * rise)
    if left and not corrected:
        how = f"correction of {um_text(left)} to 20 °C not applied: /√3"
        parts.append(Component("not corrected to 20 °C", left / root3, math.inf, how, RECTANGULAR))
    return parts


def _figures_part(
    length: float, rise: float, room: float, part_alpha: float | None, scale_alpha: float, doubt: float
) -> Component:
    """Doubt of the expansion figures at ``rise`` ± ``room`` K from 20 °C, with the product term of H.1.7."""
    spread = math.hypot(rise, room / math.sqrt(3.0))
    away = f"√({abs(rise):g}² + ({room:g}/√3)²) K"
    if part_alpha is None:
        u = length * UNKNOWN_ALPHA_PER_K / math.sqrt(3.0) * spread
        how = f"material not known: {length:.6g} mm·{UNKNOWN_ALPHA_PER_K * 1e6:g}e-6/√3·{away}"
        return Component("expansion figures", u, math.inf, how, JUDGED)
    u = length * math.hypot(part_alpha, scale_alpha) * doubt / math.sqrt(3.0) * spread
    alphas = f"√({part_alpha * 1e6:g}² + {scale_alpha * 1e6:g}²)e-6"
    how = f"{length:.6g} mm·{alphas}·{doubt:.0%}/√3·{away}"
    return Component("expansion figures", u, math.inf, how, THERMAL)


def _refuse_extreme(degrees: float) -> None:
    if not -80.0 <= degrees <= 120.0:
        raise OutOfRange(
            "°C is outside -80 to 120 °C, where a constant expansion figure holds.",
            where="Temperature",
            value=f"{degrees:g}",
            way_out="Let the part come to room temperature.",
        )
