"""Thick rings after Lamé: pressure from interference, stresses and movements. No units but mm and MPa.

Everything is on DIAMETER: d joint, D outside of the hub, di bore of the shaft (0 when solid), delta the
diametral interference. Using radial interference with d, or diametral with r, is wrong by a factor of two.
    delta / d = p [ ((D²+d²)/(D²-d²) + nu_hub) / E_hub + ((d²+di²)/(d²-di²) - nu_shaft) / E_shaft ]
Plane stress, elastic, long enough for no end effects.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Source, Status
from rebuild.trade.shop.materials import Material
from rebuild.trade.sizes.given import number_of
from rebuild.trade.sizes.own_unit import said

LAME = Source("Lamé's thick cylinder", "plane stress, diametral interference", Status.COMPUTED)
GIVEN = Source("Elastic constants as typed", "", Status.JUDGEMENT)


@dataclass(frozen=True, slots=True)
class Elastic:
    """What Lamé needs of a material [MPa]; ``tensile_MPa`` rules when ``brittle``.

    Raises:
        BadEntry: E or Poisson's ratio is no number.
        OutOfRange: E not above zero, or a Poisson's ratio outside 0 to 0.5.
    """

    E_MPa: float
    nu: float
    yield_MPa: float | None = None
    tensile_MPa: float | None = None
    brittle: bool = False
    name: str = "material as typed"
    E_range_MPa: tuple[float, float] | None = None
    source: Source = GIVEN

    def __post_init__(self) -> None:
        number_of("E [MPa]", self.E_MPa, above=0.0)
        number_of("Poisson's ratio", self.nu, at_least=0.0, at_most=0.5)


@dataclass(frozen=True, slots=True)
class HubStress:
    """Stresses in the hub [MPa], tension positive."""

    hoop_bore: float
    hoop_outside: float
    radial_bore: float
    von_mises_bore: float


@dataclass(frozen=True, slots=True)
class ShaftStress:
    """Stresses in the shaft [MPa]: at the joint, and at its bore (the centre when solid)."""

    hoop_joint: float
    hoop_bore: float
    von_mises: float


@door()
def elastic(material: Material | Elastic) -> Elastic:
    """The elastic constants of a material from the table; an ``Elastic`` passes through.

    >>> from rebuild.trade.shop.materials import material as named
    >>> elastic(named("grey cast iron")).brittle
    True
    """
    if isinstance(material, Elastic):
        return material
    low, high = material.E_range_GPa
    return Elastic(
        material.E_GPa * 1000.0,
        material.nu,
        material.yield_MPa,
        material.tensile_MPa,
        material.brittle,
        material.name,
        (low * 1000.0, high * 1000.0) if low < high else None,
        material.source("elastic"),
    )


@door("hub_outer_mm")
def check_sizes(d_mm: float, hub_outer_mm: float, shaft_bore_mm: float) -> None:
    """Refuse rings that cannot be.

    Raises:
        BadEntry: a wall is missing.

    >>> check_sizes(50, 80, 0)
    >>> check_sizes(50, 40, 0)  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    rebuild.errors.BadEntry: Diameters: “0 mm < 50 mm < 40 mm” do not nest: shaft bore < joint < hub outside. ...
    """
    if not 0 <= shaft_bore_mm < d_mm < hub_outer_mm:
        raise BadEntry(
            "do not nest: shaft bore < joint < hub outside.",
            where="Diameters",
            value=f"{said(shaft_bore_mm)} < {said(d_mm)} < {said(hub_outer_mm)}",
            way_out="A solid shaft has bore 0; a large casting may be typed with its real outside.",
        )


@door("hub_outer_mm")
def pressure_MPa(
    d_mm: float,
    delta_mm: float,
    hub_outer_mm: float,
    hub: Elastic,
    shaft: Elastic,
    shaft_bore_mm: float = 0.0,
) -> float:
    """Joint pressure [MPa] for a diametral interference; ``hub_outer_mm`` may be ``math.inf``.

    >>> steel = Elastic(210_000, 0.3)
    >>> round(pressure_MPa(50, 0.04, 80, steel, steel), 4)
    51.1875
    """
    return delta_mm / compliance_mm_per_MPa(d_mm, hub_outer_mm, hub, shaft, shaft_bore_mm)


@door("hub_outer_mm")
def compliance_mm_per_MPa(
    d_mm: float, hub_outer_mm: float, hub: Elastic, shaft: Elastic, shaft_bore_mm: float = 0.0
) -> float:
    """Diametral interference taken up per MPa of pressure [mm/MPa].

    Raises:
        BadEntry: the rings do not nest.

    >>> steel = Elastic(210_000, 0.3)
    >>> round(0.04 / compliance_mm_per_MPa(50, 80, steel, steel), 4)
    51.1875
    """
    check_sizes(d_mm, hub_outer_mm, shaft_bore_mm)
    hub_part = (outer_ratio(d_mm, hub_outer_mm) + hub.nu) / hub.E_MPa
    shaft_part = (inner_ratio(d_mm, shaft_bore_mm) - shaft.nu) / shaft.E_MPa
    return d_mm * (hub_part + shaft_part)


@door("hub_outer_mm")
def bore_growth_mm(p_MPa: float, d_mm: float, hub_outer_mm: float, hub: Elastic) -> float:
    """Growth of the hub's bore on diameter [mm].

    >>> steel = Elastic(210_000, 0.3)
    >>> solid_shaft_shrinks = 51.1875 * 50 / 210_000 * (1 - 0.3)
    >>> round(bore_growth_mm(51.1875, 50, 80, steel) + solid_shaft_shrinks, 6)  # the interference of that pressure
    0.04
    """
    return p_MPa * d_mm / hub.E_MPa * (outer_ratio(d_mm, hub_outer_mm) + hub.nu)


@door("hub_outer_mm")
def outside_growth_mm(p_MPa: float, d_mm: float, hub_outer_mm: float, hub: Elastic) -> float:
    """Growth of the hub's outside on diameter [mm]; 0 for an endless hub.

    >>> round(outside_growth_mm(51.1875, 50, 80, Elastic(210_000, 0.3)), 6)
    0.025
    >>> outside_growth_mm(51.1875, 50, math.inf, Elastic(210_000, 0.3))
    0.0
    """
    if math.isinf(hub_outer_mm):
        return 0.0
    return 2.0 * p_MPa * d_mm**2 * hub_outer_mm / (hub.E_MPa * (hub_outer_mm**2 - d_mm**2))


@door()
def bore_closing_mm(p_MPa: float, d_mm: float, shaft_bore_mm: float, shaft: Elastic) -> float:
    """How much the bore of a hollow shaft or bush closes on diameter [mm]; 0 when solid.

    >>> round(bore_closing_mm(42.0, 50, 30, Elastic(210_000, 0.3)), 6)  # 2 x 42 x 2500 x 30 / (210 000 x 1600)
    0.01875
    >>> bore_closing_mm(42.0, 50, 0, Elastic(210_000, 0.3))
    0.0
    """
    if shaft_bore_mm <= 0:
        return 0.0
    return 2.0 * p_MPa * d_mm**2 * shaft_bore_mm / (shaft.E_MPa * (d_mm**2 - shaft_bore_mm**2))


@door("hub_outer_mm")
def hub_stress(p_MPa: float, d_mm: float, hub_outer_mm: float) -> HubStress:
    """Stresses in the hub.

    >>> round(hub_stress(51.1875, 50, 80).von_mises_bore, 2)
    149.15
    """
    hoop = p_MPa * outer_ratio(d_mm, hub_outer_mm)
    outside = 0.0 if math.isinf(hub_outer_mm) else 2.0 * p_MPa * d_mm**2 / (hub_outer_mm**2 - d_mm**2)
    return HubStress(hoop, outside, -p_MPa, math.sqrt(hoop**2 + hoop * p_MPa + p_MPa**2))


@door()
def shaft_stress(p_MPa: float, d_mm: float, shaft_bore_mm: float = 0.0) -> ShaftStress:
    """Stresses in the shaft; a solid one carries -p throughout.

    >>> shaft_stress(50.0, 50).hoop_bore, shaft_stress(50.0, 50, 30).hoop_bore  # hollow: -2 p d²/(d² - di²)
    (-50.0, -156.25)
    """
    if shaft_bore_mm <= 0:
        return ShaftStress(-p_MPa, -p_MPa, p_MPa)
    bore = -2.0 * p_MPa * d_mm**2 / (d_mm**2 - shaft_bore_mm**2)
    return ShaftStress(-p_MPa * inner_ratio(d_mm, shaft_bore_mm), bore, -bore)


@door("hub_outer_mm")
def outer_ratio(d_mm: float, hub_outer_mm: float) -> float:
    """(D² + d²) / (D² - d²); 1 for an endless hub.

    >>> round(outer_ratio(50, 100), 6), outer_ratio(50, math.inf)
    (1.666667, 1.0)
    """
    if math.isinf(hub_outer_mm):
        return 1.0
    return (hub_outer_mm**2 + d_mm**2) / (hub_outer_mm**2 - d_mm**2)


@door()
def inner_ratio(d_mm: float, shaft_bore_mm: float) -> float:
    """(d² + di²) / (d² - di²); 1 for a solid shaft.

    >>> inner_ratio(50, 30), inner_ratio(50, 0)
    (2.125, 1.0)
    """
    return (d_mm**2 + shaft_bore_mm**2) / (d_mm**2 - shaft_bore_mm**2)
