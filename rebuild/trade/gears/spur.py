"""A spur gear's sizes from teeth, module, pressure angle and profile shift."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from math import cos, pi, radians, sin, tan

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.gears.involute import inv
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Source
from rebuild.trade.sizes.given import number_of
from rebuild.trade.sizes.own_unit import said_range

LEAST_TEETH, MOST_TEETH = 5, 1000


@dataclass(frozen=True, slots=True)
class ToothSystem:
    """Tooth proportions in modules: addendum, dedendum plus a constant [mm]; pressure angle [deg]."""

    name: str
    label: str
    pressure_angle_deg: float
    addendum: float
    dedendum: float
    plus_mm: float
    source: Source


def system_names() -> tuple[str, ...]:
    """The tooth systems held.

    >>> "full-14.5" in system_names()
    True
    """
    return tuple(row["system"] for row in table("tooth_systems").rows)


@door()
def tooth_system(name: str) -> ToothSystem:
    """One tooth system.

    Raises:
        BadEntry: no such system.

    >>> tooth_system("full-14.5").dedendum
    1.157
    """
    found = table("tooth_systems")
    for row in found.rows:
        if row["system"] == name:
            return _system(row, found.row_source(row))
    raise BadEntry(
        "is not a tooth system.", where="Teeth", value=name, way_out=f"Systems: {', '.join(system_names())}."
    )


def _system(row: Mapping[str, str], source: Source) -> ToothSystem:
    return ToothSystem(
        row["system"],
        row["label"],
        float(row["pressure_angle_deg"]),
        float(row["addendum"]),
        float(row["dedendum"]),
        float(row["plus_mm"]),
        source,
    )


@dataclass(frozen=True)
class SpurGear:
    """An involute spur gear. ``shift`` is the profile shift x in modules; lengths in mm.

    Raises:
        BadEntry: a value that is no number.
        OutOfRange: fewer than 5 or more than 1000 teeth, a module not positive, a pressure angle
            outside 10 to 30°, a shift beyond ±1.5.

    >>> gear = SpurGear(20, 2.0, 20.0)
    >>> gear.pitch_diameter_mm, gear.outside_mm, round(gear.base_diameter_mm, 4)
    (40.0, 44.0, 37.5877)
    """

    teeth: int
    module_mm: float
    pressure_angle_deg: float
    shift: float = 0.0
    addendum: float = 1.0
    dedendum: float = 1.25
    plus_mm: float = 0.0

    def __post_init__(self) -> None:
        _within(self.teeth, LEAST_TEETH, MOST_TEETH, "Teeth", "")
        _within(self.module_mm, 0.05, 100.0, "Module", " mm")
        _within(self.pressure_angle_deg, 10.0, 30.0, "Pressure angle", "°")
        _within(self.shift, -1.5, 1.5, "Profile shift", "")

    @classmethod
    def of(cls, system: ToothSystem, teeth: int, module_mm: float, shift: float = 0.0) -> SpurGear:
        """A gear of a tooth system."""
        return cls(
            teeth,
            module_mm,
            system.pressure_angle_deg,
            shift,
            system.addendum,
            system.dedendum,
            system.plus_mm,
        )

    def shifted(self, shift: float) -> SpurGear:
        """The same gear with another profile shift."""
        return replace(self, shift=shift)

    @property
    def angle(self) -> float:
        """Pressure angle [rad]."""
        return radians(self.pressure_angle_deg)

    @property
    def pitch_diameter_mm(self) -> float:
        """Reference diameter m z."""
        return self.teeth * self.module_mm

    @property
    def base_diameter_mm(self) -> float:
        """Base circle m z cos α."""
        return self.pitch_diameter_mm * cos(self.angle)

    @property
    def base_pitch_mm(self) -> float:
        """Distance between flanks along the line of action, π m cos α."""
        return pi * self.module_mm * cos(self.angle)

    @property
    def outside_mm(self) -> float:
        """Outside diameter m (z + 2 ha + 2 x), without tip shortening."""
        return self.module_mm * (self.teeth + 2 * self.addendum + 2 * self.shift)

    @property
    def root_mm(self) -> float:
        """Root diameter."""
        return self.outside_mm - 2 * self.whole_depth_mm

    @property
    def whole_depth_mm(self) -> float:
        """Depth of cut from the outside diameter."""
        return self.module_mm * (self.addendum + self.dedendum) + self.plus_mm

    @property
    def thickness_mm(self) -> float:
        """Tooth thickness along the reference circle, without backlash: m (π/2 + 2 x tan α)."""
        return self.module_mm * (pi / 2 + 2 * self.shift * tan(self.angle))

    @cached_property
    def inv_angle(self) -> float:
        """inv α."""
        return inv(self.angle)

    @property
    def least_shift(self) -> float:
        """The profile shift below which a rack cutter undercuts: ha - z sin² α / 2."""
        return self.addendum - self.teeth * sin(self.angle) ** 2 / 2

    def shift_of_thickness(self, thickness_mm: float) -> float:
        """The profile shift that gives a tooth thickness."""
        return (thickness_mm / self.module_mm - pi / 2) / (2 * tan(self.angle))


@door()
def check_thinning(low_mm: float, high_mm: float, gear: SpurGear) -> None:
    """Refuse a thinning for backlash that is none, or eats the tooth.

    Raises:
        BadEntry: negative, or the least above the most.
        OutOfRange: a quarter of the tooth or more.

    >>> check_thinning(0.05, 0.1, SpurGear(20, 2.0, 20.0))
    >>> check_thinning(0.2, 0.1, SpurGear(20, 2.0, 20.0))
    Traceback (most recent call last):
    rebuild.errors.BadEntry: Thinner by: “0.2 to 0.1 mm” is not a thinning from least to most.
    """
    if not 0 <= low_mm <= high_mm:
        raise BadEntry(
            "is not a thinning from least to most.",
            where="Thinner by",
            value=f"{said_range(low_mm, high_mm)}",
        )
    _within(high_mm, 0.0, gear.thickness_mm / 4, "Thinner by", " mm")


def _within(value: float, low: float, high: float, what: str, unit: str) -> None:
    number_of(what, value)
    if not low <= value <= high:
        raise OutOfRange(
            f"lies outside {low:g} to {high:g}{unit}, the range worked here.",
            where=what,
            value=f"{value:g}{unit}",
        )
