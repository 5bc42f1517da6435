"""Press and shrink fits: pressure, press force, torque and stresses, refused beyond the material.

Roughness costs interference: DIN 7190 takes 0.8 (Rz hub + Rz shaft) when parts are pressed dry. Shrunk
parts lose less, so a shrink fit is judged for grip with the loss and for stress without it.
Friction is the great uncertainty: force and torque are given for 0.05 to 0.20 beside the typed value.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints import fit_strength, lame
from rebuild.trade.joints.lame import LAME, Elastic, elastic
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.shop.materials import Material
from rebuild.trade.sizes.own_load import force_range_said, force_said, small_said, stress_said, torque_said
from rebuild.trade.sizes.own_unit import both, said

DIN_7190 = Source("DIN 7190-1", "loss 0.8 (RzA + RzI) on pressing", Status.PUBLISHED)
FRICTION = Source("Friction of pressed parts", "0.05 oiled to 0.20 dry", Status.COMMON_PRACTICE)
LOSS = 0.8
UPPER = "The forces here are worked elastically all the same: what yields gives way, so they are the most it can take."
LOW_MU, HIGH_MU = 0.05, 0.20


@dataclass(frozen=True, slots=True)
class PressFit:
    """A press or shrink fit worked out.

    Forces [N] and torques [N·m] are at the typed friction, then over the whole friction range.
    ``hub_use`` and ``shaft_use`` are shares of the strength (None when the strength is not known);
    ``largest_mm`` is the interference at which the weaker part reaches its strength, None if unknown; ``trouble`` says
    which part passes its strength, where one does and is let.
    """

    effective_mm: float
    pressure_MPa: float
    force_N: float
    torque_Nm: float
    force_range_N: tuple[float, float]
    torque_range_Nm: tuple[float, float]
    hub: lame.HubStress
    shaft: lame.ShaftStress
    hub_use: float | None
    shaft_use: float | None
    bore_closing_mm: float
    outside_growth_mm: float
    largest_mm: float | None
    trouble: str = ""


@door()
def effective_interference(
    interference_mm: float, hub_rz_um: float, shaft_rz_um: float, loss: float = LOSS
) -> Worked[float]:
    """Interference left after the roughness is pressed flat [mm]; zero or less means no fit.

    Raises:
        BadEntry: a roughness below zero.

    >>> round(effective_interference(0.040, 4, 6.3).value * 1000, 2)
    31.76
    """
    if min(hub_rz_um, shaft_rz_um, loss) < 0:
        raise BadEntry(
            "cannot be below zero.", where="Roughness Rz", value=f"{min(hub_rz_um, shaft_rz_um):g}"
        )
    lost = loss * (hub_rz_um + shaft_rz_um) / 1000.0
    left = interference_mm - lost
    sheet = Sheet("Interference left by the roughness")
    sheet.equation(
        "effective",
        f"{small_said(interference_mm)} - {loss:g} x ({hub_rz_um:g} + {shaft_rz_um:g}) µm = {small_said(left)}",
        DIN_7190,
    )
    if left <= 0:
        sheet.note("Nothing is left: the peaks take all the interference. No fit.")
    return Worked(left, sheet.close())


@door("hub_outer_mm")
def press_fit(
    diameter_mm: float,
    interference_mm: float,
    length_mm: float,
    hub_outer_mm: float,
    hub: Material | Elastic,
    shaft: Material | Elastic,
    *,
    shaft_bore_mm: float = 0.0,
    friction: float = 0.12,
    hub_rz_um: float = 0.0,
    shaft_rz_um: float = 0.0,
    shrink: bool = False,
    parts: tuple[str, str] = ("hub", "shaft"),
    shaft_may_yield_to: float = 1.0,
    past_strength: bool = False,
) -> Worked[PressFit]:
    """A fit of this diametral interference over ``length_mm``; hollow parts and two materials allowed.

    ``hub_outer_mm`` may be ``math.inf`` for a bore in a large casting. A brittle hub is judged by its
    greatest tension against tensile strength, a ductile one by von Mises against yield. ``parts`` names
    the two in the working; ``shaft_may_yield_to`` lets a bush pass its yield by that factor (its pressure
    is then an upper estimate). ``past_strength`` works it out beyond every strength as well; ``trouble`` says so.

    Raises:
        BadEntry: sizes that do not nest, no interference, no length, friction outside 0 to 1.
        OutOfRange: roughness takes all, or a part passes its strength; says the largest interference.

    >>> steel = Elastic(210_000, 0.3)
    >>> round(press_fit(50, 0.04, 40, 80, steel, steel).value.force_N)
    38594
    """
    outer, inner = elastic(hub), elastic(shaft)
    _sound(interference_mm, length_mm, friction)
    sheet = Sheet(f"{'Shrink' if shrink else 'Press'} fit of {both(diameter_mm)}")
    _read(sheet, parts, interference_mm, hub_outer_mm, shaft_bore_mm, outer, inner)
    left_mm = _left(sheet, interference_mm, hub_rz_um, shaft_rz_um)
    slack = lame.compliance_mm_per_MPa(diameter_mm, hub_outer_mm, outer, inner, shaft_bore_mm)
    pressure = left_mm / slack
    stressing = _tell_pressure(sheet, diameter_mm, left_mm, slack, interference_mm if shrink else left_mm)
    in_hub = lame.hub_stress(stressing, diameter_mm, hub_outer_mm)
    in_shaft = lame.shaft_stress(stressing, diameter_mm, shaft_bore_mm)
    hub_use = fit_strength.hub_share(sheet, parts[0], outer, in_hub)
    shaft_use = fit_strength.shaft_share(sheet, parts[1], inner, in_shaft)
    largest = fit_strength.largest_mm(interference_mm, left_mm, shrink, hub_use, shaft_use)
    spared = shaft_use is not None and shaft_use <= shaft_may_yield_to
    judged = ((parts[0], outer, hub_use), (parts[1], inner, None if spared else shaft_use))
    trouble = fit_strength.beyond(judged, largest, interference_mm)
    if trouble is not None and not past_strength:
        raise trouble
    _tell_stiffness(sheet, diameter_mm, left_mm, hub_outer_mm, shaft_bore_mm, outer, inner)
    area = math.pi * diameter_mm * length_mm
    _tell_grip(sheet, pressure, area, friction, diameter_mm)
    attach(sheet, *(("heating", "dry-ice", "cold-brittle") if shrink else ("press", "hardened-hammer")))
    normal_N, arm_m = pressure * area, diameter_mm / 2000.0
    found = PressFit(
        effective_mm=left_mm,
        pressure_MPa=pressure,
        force_N=friction * normal_N,
        torque_Nm=friction * normal_N * arm_m,
        force_range_N=(LOW_MU * normal_N, HIGH_MU * normal_N),
        torque_range_Nm=(LOW_MU * normal_N * arm_m, HIGH_MU * normal_N * arm_m),
        hub=in_hub,
        shaft=in_shaft,
        hub_use=hub_use,
        shaft_use=shaft_use,
        bore_closing_mm=lame.bore_closing_mm(pressure, diameter_mm, shaft_bore_mm, inner),
        outside_growth_mm=lame.outside_growth_mm(pressure, diameter_mm, hub_outer_mm, outer),
        largest_mm=largest,
        trouble="" if trouble is None else f"{trouble} {UPPER}",
    )
    return Worked(found, sheet.close())


def _left(sheet: Sheet, interference_mm: float, hub_rz_um: float, shaft_rz_um: float) -> float:
    left = effective_interference(interference_mm, hub_rz_um, shaft_rz_um)
    sheet.take(left.working)
    if left.value <= 0:
        raise OutOfRange(
            f"is all taken by the roughness ({small_said(interference_mm - left.value)}, "
            f"{DIN_7190.cite()}): no fit is left.",
            where="Interference",
            value=small_said(interference_mm),
            way_out="Take more interference or a finer surface.",
        )
    return left.value


def _sound(interference_mm: float, length_mm: float, friction: float) -> None:
    if interference_mm <= 0:
        raise BadEntry(
            "is no interference: the shaft is not larger than the hole.",
            where="Interference",
            value=small_said(interference_mm),
            way_out="Type shaft minus hole, on diameter.",
        )
    if length_mm <= 0:
        raise BadEntry("is not a length above zero.", where="Length of the fit", value=said(length_mm))
    if not 0 < friction <= 1:
        raise BadEntry(
            "is not a friction coefficient.",
            where="Friction",
            value=f"{friction:g}",
            way_out=f"Steel in iron or bronze: 0.05 to 0.20 ({FRICTION.cite()}).",
        )


def _read(
    sheet: Sheet,
    parts: tuple[str, str],
    delta_mm: float,
    outer_mm: float,
    bore_mm: float,
    hub: Elastic,
    shaft: Elastic,
) -> None:
    sheet.read("interference on diameter", both(delta_mm, 4))
    outside = "a large casting" if math.isinf(outer_mm) else both(outer_mm)
    sheet.read(f"{parts[0]} outside", outside)
    sheet.read(f"{parts[1]} bore", both(bore_mm) if bore_mm else "solid")
    for label, one in zip(parts, (hub, shaft), strict=True):
        sheet.table(label, f"{one.name}: E {one.E_MPa / 1000:g} GPa, Poisson {one.nu:g}", one.source)


def _tell_pressure(sheet: Sheet, d_mm: float, left_mm: float, slack: float, stressing_mm: float) -> float:
    """Tell the pressure; give back the pressure that stresses the parts [MPa]."""
    sheet.equation(
        "pressure",
        f"delta / [d ((D²+d²)/(D²-d²) + nu)/E + d ((d²+di²)/(d²-di²) - nu)/E] = "
        f"{left_mm:.5f} mm / {slack:.4e} mm/MPa = {stress_said(left_mm / slack, 4)}",
        LAME,
    )
    sheet.note(
        f"Interference is {left_mm / d_mm * 1000:.2f} thousandths of the diameter (diametral, not radial)."
    )
    if stressing_mm > left_mm:
        sheet.note(
            f"Shrunk, less roughness is lost: stress is judged at {stress_said(stressing_mm / slack)}, with none lost.",
            DIN_7190,
        )
    return stressing_mm / slack


def _tell_stiffness(
    sheet: Sheet, d_mm: float, left_mm: float, outer_mm: float, bore_mm: float, hub: Elastic, shaft: Elastic
) -> None:
    if hub.E_range_MPa is None:
        return
    ends = [
        lame.pressure_MPa(d_mm, left_mm, outer_mm, Elastic(stiff, hub.nu), shaft, bore_mm)
        for stiff in hub.E_range_MPa
    ]
    low, high = hub.E_range_MPa
    sheet.note(
        f"E of {hub.name} runs from {low / 1000:g} to {high / 1000:g} GPa by grade and section: the pressure "
        f"may be {stress_said(ends[0])} to {stress_said(ends[1])}.",
        hub.source,
    )


def _tell_grip(sheet: Sheet, pressure: float, area: float, friction: float, d_mm: float) -> None:
    force = friction * pressure * area
    sheet.equation(
        "press force",
        f"µ p π d L = {friction:g} x {pressure:.4f} MPa x {area:.1f} mm² = {force_said(force)}",
    )
    sheet.equation("torque it holds", f"force x d/2 = {torque_said(force * d_mm / 2000.0)}")
    sheet.note(
        f"Friction rules the result: {LOW_MU:g} to {HIGH_MU:g} means "
        f"{force_range_said(LOW_MU * pressure * area, HIGH_MU * pressure * area)}. Size the press for the high end, "
        "trust the low end.",
        FRICTION,
    )
