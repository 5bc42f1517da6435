"""How far a bar sags by its own weight: a test bar in the spindle, or between centres.

w = ρ g A a length, I the second moment of the section. Held at one end: y(L) = w L⁴ / (8 E I), slope w L³ / (6 E I).
Held between centres: 5 w L⁴ / (384 E I) in the middle. With a hollow round section A/I = 16/(D² + d²), so a hollow bar
sags *less* than a solid one of its outside diameter, and the diameter tells far less than the length does.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import isfinite

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.shop.materials import wanted
from rebuild.trade.sizes.show import show_both

BEAM = Source("Beam theory", "uniform load, hand derivation from E I y'''' = w", Status.COMPUTED)
GRAVITY = 9.80665


class Held(StrEnum):
    """How the bar is held."""

    ONE_END = "at one end"
    CENTRES = "between centres"


@dataclass(frozen=True, slots=True)
class Sag:
    """Sag [mm] at the free end or in the middle, and the slope at the free end or at a centre [mm/m]."""

    sag_mm: float
    slope_mm_per_m: float


@door()
def bar_sag(
    outside_mm: float,
    length_mm: float,
    held: Held = Held.ONE_END,
    bore_mm: float = 0.0,
    material: str = "steel",
) -> Worked[Sag]:
    """The sag of a round bar under its own weight.

    Args:
        outside_mm, bore_mm: of the section; no bore is a solid bar.
        length_mm: free length from what holds it, or from centre to centre.

    Raises:
        BadEntry: sizes that cannot be, or a material not in the table.
        OutOfRange: a bar shorter than twice its diameter, which is no beam.

    >>> round(bar_sag(40.0, 300.0).value.sag_mm * 1000, 2)  # 2 ρ g L⁴/(E D²), in µm
    3.78
    """
    if not (isfinite(outside_mm) and outside_mm > 0 and 0 <= bore_mm < outside_mm):
        raise BadEntry(
            "is not a bar with that bore.",
            where="Outside",
            value=f"{outside_mm:g} mm",
            way_out="Type the outside diameter, and a smaller bore or none.",
        )
    if not length_mm >= 2 * outside_mm:
        raise OutOfRange(
            "is under twice the diameter: no beam, it hardly sags.", where="Length", value=f"{length_mm:g} mm"
        )
    stuff = wanted(material).material
    E, rho = stuff.E_GPa * 1e9, stuff.density_kg_m3
    D, d, L = outside_mm / 1000, bore_mm / 1000, length_mm / 1000
    load = 16 * rho * GRAVITY / (E * (D * D + d * d))  # w / (E I) [1/m³]
    overhung = held is Held.ONE_END
    sag = load * L**4 / 8 if overhung else 5 * load * L**4 / 384
    slope = load * L**3 / 6 if overhung else load * L**3 / 24
    found = Sag(sag * 1000, slope * 1000)
    sheet = Sheet(f"Sag of a bar held {held}")
    section = f"{outside_mm:.4g} mm" + (f" with a bore of {bore_mm:.4g} mm" if bore_mm else ", solid")
    sheet.read("bar", f"{section}, {length_mm:.5g} mm free, {stuff.name}")
    sheet.table("density", f"{rho:.0f} kg/m³", stuff.source("density"))
    sheet.table("E", f"{stuff.E_GPa:g} GPa", stuff.source("elastic"))
    sheet.equation("w / E I", f"16 ρ g / (E (D² + d²)) = {load:.4g} per m³", BEAM)
    sheet.equation(
        "sag", f"{'w L⁴/8EI' if overhung else '5 w L⁴/384EI'} = {found.sag_mm * 1000:.2f} µm", BEAM
    )
    where = "w L³/6EI at the free end" if overhung else "w L³/24EI at a centre"
    sheet.equation("slope", f"{where} = {found.slope_mm_per_m:.4f} mm/m", BEAM)
    sheet.note(
        "Read from above, take the sag off what is read at the free end: an upright reading is low by it."
    )
    sheet.result("sag", show_both(found.sag_mm, "mm", 4))
    return Worked(found, sheet.close())
