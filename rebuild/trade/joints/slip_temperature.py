"""How hot the hub, or how cold the shaft, for a slip fit; and what a part bears before heat spoils it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from rebuild.errors import OutOfRange
from rebuild.trade.joints.contraction import COLDEST_C, ROOM_C, strain
from rebuild.trade.joints.heat_sources import heat_limit
from rebuild.trade.results.door import door
from rebuild.trade.shop.materials import Material
from rebuild.trade.sizes.own_temperature import rise_said, temperature_said
from rebuild.trade.sizes.own_unit import both

#: The kind of part a material's heat limit is looked up by; what is none of these is plain iron or steel.
_KINDS = {
    "bronze": "bronze or brass part", "brass": "bronze or brass part", "copper": "bronze or brass part",
    "aluminium": "aluminium part", "plastic": "painted, bonded or plastic part", "soft": "part with babbitt",
}  # fmt: skip
_HARD = re.compile(
    r"(?<!un)(?<!pre)(?<!pre )(?<!pre-)\b(?:case[ -]?|through[ -]?|induction[ -]?|flame[ -]?)?hardened|\bnitrided\b"
    r"|\b52100\b|100cr6|\bhrc ?(?:[45-6]\d)",
    re.I,
)


@door()
def is_hardened(words: str) -> bool:
    """Whether a part's own words say that it is hard; soft and prehardened bar is not.

    >>> is_hardened("drill rod, hardened"), is_hardened("4140 prehardened"), is_hardened("drill rod (soft)")
    (True, False, False)
    >>> is_hardened("52100"), is_hardened("cast iron"), is_hardened("unhardened")
    (True, False, False)
    """
    return _HARD.search(words) is not None


@door()
def bears(material: Material, *, hard: bool = False) -> tuple[float, str]:
    """How hot a part of this material may be made [°C], and as what kind of part.

    >>> from rebuild.trade.shop.materials import material
    >>> bears(material("steel")), bears(material("steel"), hard=True)
    ((300.0, 'plain iron or steel part'), (150.0, 'hardened part'))
    >>> bears(material("bearing bronze C93200"))
    (200.0, 'bronze or brass part')
    """
    kind = "hardened part" if hard else _KINDS.get(material.family, "plain iron or steel part")
    return heat_limit(kind)[0], kind


@dataclass(frozen=True, slots=True)
class Slip:
    """What a slip fit asks: which part, its temperature [°C], the clearance it leaves [mm], why it cannot be had."""

    part: str
    temperature_C: float
    clearance_mm: float
    against: str = ""

    def words(self) -> str:
        """In a sentence's half, in the unit of the one who asks.

        >>> Slip("arm", 120.0, 0.02).words()
        'for a slip fit of 0.020 mm (0.0008 in): arm at 120 °C, 100 °C above room'
        """
        rise = self.temperature_C - ROOM_C
        where = f"{rise_said(abs(rise))} {'above' if rise > 0 else 'below'} room"
        at = f"{self.part} at {temperature_said(self.temperature_C)}, {where}"
        told = f"for a slip fit of {both(self.clearance_mm)}: {at}"
        return f"{told}, {self.against}" if self.against else told


@door()
def hub_slip(
    name: str,
    diameter_mm: float,
    growth_mm: float,
    clearance_mm: float,
    hub: Material,
    reach: tuple[float, str],
) -> Slip:
    """The hub's temperature for its growth [mm]; ``reach`` is how hot it can be made here [°C] and what sets that.

    0.5 in bore, 0.00114 in to grow, 5.8e-6 per °F: 0.00114 / (0.5 x 5.8e-6) = 393 °F above room, by hand.

    >>> from dataclasses import replace
    >>> from rebuild.trade.shop.materials import material
    >>> iron = replace(material("grey cast iron"), alpha_per_K=5.8e-6 * 1.8)
    >>> slip = hub_slip("arm", 12.7, 0.00114 * 25.4, 0.02, iron, (220.0, "more than a kitchen oven gives"))
    >>> round((slip.temperature_C - 20) * 1.8), slip.against
    (393, 'more than a kitchen oven gives: 220 °C')
    """
    at = ROOM_C + growth_mm / (hub.alpha_per_K * diameter_mm)
    most, why = reach
    return Slip(name, at, clearance_mm, f"{why}: {temperature_said(most)}" if at > most else "")


@door()
def shaft_slip(
    name: str, diameter_mm: float, shrink_mm: float, clearance_mm: float, shaft: Material, coldest_C: float
) -> Slip | None:
    """The shaft's temperature for its contraction [mm]; None where no cold that is known gives it.

    >>> from rebuild.trade.shop.materials import material
    >>> steel = material("steel")
    >>> from rebuild.trade.joints.contraction import size_change
    >>> slip = shaft_slip("pin", 50.0, 0.02, 0.005, steel, -78.5)
    >>> round(size_change(50.0, steel, slip.temperature_C).value.change_mm, 4), slip.against
    (-0.02, '')
    """
    try:
        if -strain(shaft, COLDEST_C) * diameter_mm < shrink_mm:
            return None
    except OutOfRange:
        return None
    low, high = COLDEST_C, ROOM_C
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if -strain(shaft, middle) * diameter_mm > shrink_mm else (low, middle)
    against = f"colder than it gets there: {temperature_said(coldest_C)}" if low < coldest_C - 0.5 else ""
    return Slip(name, low, clearance_mm, against)
