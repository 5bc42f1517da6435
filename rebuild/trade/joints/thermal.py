"""Assembling by heat and cold: the temperature wanted, and what each source really gives."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.contraction import HOTTEST_C, ROOM_C, size_change
from rebuild.trade.joints.heat_sources import Medium, heat_limit, media, medium
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.shop.materials import Material
from rebuild.trade.sizes.own_unit import both, said

CLEARANCE = Source(
    "Assembly clearance", "about a thousandth of the diameter, not under 20 µm", Status.COMMON_PRACTICE
)
#: Families that a hot source spoils: the highest temperature shown for them [°C].
SOFTENS_C = {"plastic": 80.0, "soft": 110.0}
COLD_CAUTIONS = {"dry ice": "dry-ice", "liquid nitrogen": "liquid-nitrogen"}


@dataclass(frozen=True, slots=True)
class Given:
    """What one medium does to a diameter [mm]: integrated, and by a constant coefficient."""

    medium: Medium
    change_mm: float
    constant_mm: float


@dataclass(frozen=True, slots=True)
class Assembly:
    """A way to assemble: temperatures [°C], the gap then [mm], and whether the part bears the heat."""

    hub_C: float
    shaft_C: float
    shaft_change_mm: float
    hub_growth_mm: float
    limit_C: float
    within_limit: bool


@door()
def hub_temperature(
    diameter_mm: float,
    interference_mm: float,
    clearance_mm: float,
    alpha_per_K: float,
    start_C: float = ROOM_C,
) -> float:
    """Hub temperature [°C] at which the bore clears the shaft by ``clearance_mm``, the shaft left alone.

    T = start + (interference + clearance) / (alpha d). May be negative growth if already clear.

    >>> round(hub_temperature(50, 0.040, 0.020, 11.5e-6), 2)
    124.35
    """
    if diameter_mm <= 0 or alpha_per_K <= 0:
        raise BadEntry("must be above zero.", where="Diameter and coefficient", value=f"{diameter_mm:g}")
    return start_C + (interference_mm + clearance_mm) / (alpha_per_K * diameter_mm)


@door()
def usual_clearance_mm(diameter_mm: float) -> float:
    """The clearance usually wanted to slip parts together: a thousandth, not under 0.02 mm.

    >>> usual_clearance_mm(50.0), usual_clearance_mm(10.0)
    (0.05, 0.02)
    """
    return max(0.02, diameter_mm / 1000.0)


@door()
def what_each_gives(diameter_mm: float, material: Material) -> Worked[tuple[Given, ...]]:
    """What freezer, dry ice, nitrogen, oven and so on really do to a diameter.

    Sources too cold for the material's data are left out and said so.

    >>> from rebuild.trade.shop.materials import material as named
    >>> found = {one.medium.name: one for one in what_each_gives(50, named("steel")).value}
    >>> found["liquid nitrogen"].change_mm > found["liquid nitrogen"].constant_mm  # it shrinks less than that
    True
    """
    if diameter_mm <= 0:
        raise BadEntry("must be above zero.", where="Diameter", value=said(diameter_mm))
    sheet = Sheet(f"What heat and cold give on {both(diameter_mm)} of {material.name}")
    found: list[Given] = []
    for one in media():
        if one.temperature_C > SOFTENS_C.get(material.family, HOTTEST_C):
            sheet.note(f"{one.name}: too hot for {material.name}.")
            continue
        try:
            change = size_change(diameter_mm, material, one.temperature_C).value
        except OutOfRange as trouble:
            sheet.note(f"{one.name}: {trouble}")
            continue
        found.append(Given(one, change.change_mm, change.constant_mm))
        sheet.table(
            f"{one.name}, {one.temperature_C:g} °C",
            f"{change.change_mm * 1000:+.1f} µm (a constant coefficient would say "
            f"{change.constant_mm * 1000:+.1f}); {one.note}",
            one.source,
        )
    cautions = dict.fromkeys(topic for given in found for topic in given.medium.cautions)
    attach(sheet, *cautions)
    return Worked(tuple(found), sheet.close())


@door()
def assemble(
    diameter_mm: float,
    interference_mm: float,
    hub: Material,
    shaft: Material,
    *,
    clearance_mm: float | None = None,
    cold: str = "",
    hub_kind: str = "plain iron or steel part",
) -> Worked[Assembly]:
    """Temperatures for a free assembly: the hub's, after the shaft has been chilled in ``cold`` (or not).

    ``cold`` is a medium's name or empty. The hub's need is compared with what its kind bears.

    Raises:
        BadEntry: an unknown medium or kind, or nothing to gain.
        OutOfRange: the hub would have to pass 300 °C; says what is missing.

    >>> from rebuild.trade.shop.materials import material as named
    >>> steel = named("gauge-block steel")
    >>> round(assemble(50, 0.040, steel, steel, clearance_mm=0.020).value.hub_C, 2)
    124.35
    """
    if diameter_mm <= 0:
        raise BadEntry("must be above zero.", where="Diameter", value=said(diameter_mm))
    wanted = usual_clearance_mm(diameter_mm) if clearance_mm is None else clearance_mm
    sheet = Sheet("Assembling by heat and cold")
    sheet.read("diameter", both(diameter_mm))
    sheet.read("interference", both(interference_mm))
    sheet.read("clearance wanted", both(wanted), CLEARANCE if clearance_mm is None else None)
    shaft_C, shaft_change = ROOM_C, 0.0
    if cold:
        chill = medium(cold)
        shaft_C = chill.temperature_C
        shrunk = size_change(diameter_mm, shaft, shaft_C)
        shaft_change = shrunk.value.change_mm
        sheet.take(shrunk.working)
    growth = interference_mm + wanted + shaft_change
    hub_C = hub_temperature(diameter_mm, interference_mm, wanted + shaft_change, hub.alpha_per_K)
    limit, limit_source = heat_limit(hub_kind)
    _tell_hub(sheet, diameter_mm, growth, hub, hub_C)
    if growth <= 0:
        hub_C, growth = ROOM_C, 0.0
        sheet.note("The chilled shaft clears by itself: the hub stays at room temperature.")
    if hub_C > HOTTEST_C:
        raise OutOfRange(
            f"would be needed, above the {HOTTEST_C:.0f} °C the coefficient holds for "
            f"({hub.source('alpha').cite()}).",
            where="Hub",
            value=f"{hub_C:.0f} °C",
            way_out="Chill the shaft too, take less interference, or press it.",
        )
    within = hub_C <= limit
    sheet.table("limit", f"{hub_kind}: {limit:g} °C", limit_source)
    if not within:
        sheet.note(f"{hub_C:.0f} °C is too hot for a {hub_kind}: chill the shaft, or accept less clearance.")
    attach(sheet, *_cautions(hub_C, cold))
    return Worked(Assembly(hub_C, shaft_C, shaft_change, growth, limit, within), sheet.close())


def _tell_hub(sheet: Sheet, d_mm: float, growth_mm: float, hub: Material, hub_C: float) -> None:
    sheet.table("hub's coefficient", f"{hub.alpha_per_K * 1e6:g} µm per m and °C", hub.source("alpha"))
    sheet.equation(
        "hub temperature",
        f"20 + (interference + clearance + shaft's change) / (alpha d) = "
        f"20 + {growth_mm * 1000:.2f} / ({hub.alpha_per_K * 1e3:.5f} x {d_mm:g}) = {hub_C:.2f} °C "
        f"({round(hub_C * 1.8 + 32)} °F)",
    )
    sheet.note("A rise of 1 °C is 1.8 °F: a coefficient per °F is smaller by that factor.")


def _cautions(hub_C: float, cold: str) -> Mapping[str, None]:
    hot = ("heating", "hot-oil") if hub_C > 50 else ()
    chill = (*((COLD_CAUTIONS[cold],) if cold in COLD_CAUTIONS else ()), "cold-brittle") if cold else ()
    return dict.fromkeys((*hot, *chill))
