"""How much a part grows when warm and shrinks when cold.

Above 20 °C one coefficient serves to 300 °C within a few per cent (it rises a little: the part grows a bit
more than said). In the cold it falls: at liquid nitrogen the whole contraction is a fifth to a third less
than the room-temperature coefficient would give, so the cold side integrates published contraction tables.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from rebuild.errors import OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Worked
from rebuild.trade.shop.materials import Material

HOTTEST_C, COLDEST_C, COLDEST_CONSTANT_C = 300.0, -196.15, -40.0
ROOM_C = 20.0
_KELVIN = 273.15
_GROUP_OF_FAMILY = {
    "iron": "iron and steel", "steel": "iron and steel", "stainless": "stainless", "bronze": "copper alloy",
    "brass": "copper alloy", "copper": "copper", "aluminium": "aluminium",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class SizeChange:
    """Change of a diameter [mm], and what a constant coefficient would have said."""

    change_mm: float
    constant_mm: float


@door()
def linear_change_mm(size_mm: float, alpha_per_K: float, from_C: float, to_C: float) -> float:
    """Change of a length with one coefficient, the same whether a bore or a shaft [mm].

    >>> round(linear_change_mm(50, 11.5e-6, 20, -18) * 1000, 2)
    -21.85
    """
    return size_mm * alpha_per_K * (to_C - from_C)


@door()
def strain(material: Material, temperature_C: float) -> float:
    """Change of length per length from 20 °C to ``temperature_C``; integrated below 20 °C.

    Raises:
        OutOfRange: outside -196 to 300 °C, or below -40 °C where no contraction table is held.

    >>> from rebuild.trade.shop.materials import material as named
    >>> steel = named("steel")
    >>> round(strain(steel, 120.0) / steel.alpha_per_K, 6)  # 100 K above room temperature
    100.0
    """
    _in_range(material, temperature_C)
    rise = temperature_C - ROOM_C
    if rise >= 0:
        return material.alpha_per_K * rise
    return material.alpha_per_K * rise * cold_factor(material, temperature_C)


@door()
def cold_factor(material: Material, temperature_C: float) -> float:
    """Mean coefficient from 20 °C down to ``temperature_C``, over the room-temperature one (1 and less).

    >>> from rebuild.trade.shop.materials import material as named
    >>> round(cold_factor(named("steel"), -195.8), 2)
    0.75
    """
    points = _curve(_group(material))
    if not points:
        return 1.0
    kelvin = temperature_C + _KELVIN
    if kelvin <= points[0][0]:
        return points[0][1]
    for (low, first), (high, second) in pairwise(points):
        if kelvin <= high:
            return first + (second - first) * (kelvin - low) / (high - low)
    (low, first), (high, second) = points[-2:]
    return min(1.0, second + (second - first) / (high - low) * (kelvin - high))


@door()
def size_change(size_mm: float, material: Material, temperature_C: float) -> Worked[SizeChange]:
    """How a diameter measured at 20 °C changes at ``temperature_C`` [mm].

    Raises:
        OutOfRange: as ``strain``.

    >>> from rebuild.trade.shop.materials import material as named
    >>> round(size_change(50, named("steel"), -195.8).value.change_mm, 3)
    -0.093
    """
    change = size_mm * strain(material, temperature_C)
    constant = linear_change_mm(size_mm, material.alpha_per_K, ROOM_C, temperature_C)
    sheet = Sheet(f"{size_mm:g} mm of {material.name} at {temperature_C:g} °C")
    sheet.table("coefficient", f"{material.alpha_per_K * 1e6:g} µm per m and °C", material.source("alpha"))
    if temperature_C >= ROOM_C:
        sheet.equation(
            "growth",
            f"{size_mm:g} x {material.alpha_per_K * 1e6:g}e-6 x {temperature_C - ROOM_C:g} = "
            f"{change * 1000:.2f} µm",
        )
        return Worked(SizeChange(change, constant), sheet.close())
    factor = cold_factor(material, temperature_C)
    sheet.equation(
        "contraction",
        f"{size_mm:g} x {material.alpha_per_K * 1e6:g}e-6 x {temperature_C - ROOM_C:g} x {factor:.3f} = "
        f"{change * 1000:.2f} µm",
        cold_source(material) if _curve(_group(material)) else None,
    )
    sheet.note(
        f"A constant coefficient would say {constant * 1000:.2f} µm; metals shrink less the colder they are."
    )
    return Worked(SizeChange(change, constant), sheet.close())


@door()
def cold_source(material: Material) -> Source:
    """Where the contraction curve of a material comes from.

    >>> from rebuild.trade.shop.materials import material as named
    >>> cold_source(named("steel")).where.endswith("scaled to steel")
    True
    """
    found = table("contraction_cold")
    reference = next((row["reference"] for row in found.rows if row["group"] == _group(material)), "")
    return Source(found.source.name, f"curve of {reference}, scaled to {material.name}", found.source.status)


def _group(material: Material) -> str:
    if material.name == "lead":
        return "lead"
    return "" if material.name == "invar" else _GROUP_OF_FAMILY.get(material.family, "")


@cache
def _curve(group: str) -> tuple[tuple[float, float], ...]:
    return tuple(
        (
            float(row["T_K"]),
            float(row["contraction_percent"])
            / 100.0
            / (293.0 - float(row["T_K"]))
            / (float(row["alpha_1e-6_per_K"]) * 1e-6),
        )
        for row in table("contraction_cold").rows
        if row["group"] == group
    )


def _in_range(material: Material, temperature_C: float) -> None:
    if not COLDEST_C <= temperature_C <= HOTTEST_C:
        raise OutOfRange(
            f"is outside what the tables hold: {COLDEST_C:.0f} to {HOTTEST_C:.0f} °C "
            f"({cold_source(material).cite()}).",
            where="Temperature",
            value=f"{temperature_C:g} °C",
            way_out="Split the work: warm one part and cool the other.",
        )
    if temperature_C < COLDEST_CONSTANT_C and not _curve(_group(material)):
        raise OutOfRange(
            f"is too cold for {material.name}: no contraction table is held below {COLDEST_CONSTANT_C:.0f} °C "
            f"({material.source('alpha').cite()}).",
            where="Temperature",
            value=f"{temperature_C:g} °C",
            way_out="Warm the other part instead.",
        )
