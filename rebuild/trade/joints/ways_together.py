"""Putting a tight fit together by each method, on its real sizes: what is left on arrival, how long, what force then.

The gap on arrival is the hub's growth less the shaft's change less the interference, on diameter. Above zero the
parts slip together, and the time is counted until the shaft has warmed to where it touches. Below zero the press
still has that interference to overcome.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.contraction import ROOM_C, size_change
from rebuild.trade.joints.heat_sources import Medium, medium
from rebuild.trade.joints.interference import PressFit, press_fit
from rebuild.trade.joints.slip_temperature import Slip, bears, hub_slip, shaft_slip
from rebuild.trade.joints.thermal import CLEARANCE, usual_clearance_mm
from rebuild.trade.joints.time_window import SPECIFIC_HEAT, window_s
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, StepKind, Worked, Working
from rebuild.trade.shop.materials import Material
from rebuild.trade.sizes.length_units import INCH_UNITS
from rebuild.trade.sizes.own_load import force_range_said, stress_said
from rebuild.trade.sizes.own_temperature import temperature_said
from rebuild.trade.sizes.own_unit import sizes_in
from rebuild.trade.sizes.show import DECIMALS, show_both, show_length

FILM = Source(
    "Getting cold or hot",
    "W/m²K of still air, of dry ice in alcohol, of boiling nitrogen",
    Status.FROM_MEMORY,
)
GUM = Source("JCGM 100:2008 (GUM)", "5.1.2, independent readings added by their squares", Status.PUBLISHED)
ALIGN = Source("Pressing", "line up before pushing", Status.COMMON_PRACTICE)
#: Heat passed to a part [W/m²K], from and to, by what it lies in.
_FILM = {
    "household freezer": (5.0, 10.0), "dry ice": (100.0, 300.0), "liquid nitrogen": (100.0, 250.0),
    "kitchen oven": (10.0, 25.0), "bearing heater or oil bath": (50.0, 150.0), "boiling water": (500.0, 1000.0),
}  # fmt: skip
#: The part is taken as cold when it has come this near to what it lies in.
_NEAR = 0.05
#: Below this a gap is told with a decimal more [mm].
_TINY_MM = 0.0127
#: What pushing needs; heat's and cold's own topics come with their medium.
_PRESS = ("press",)
#: Only iron and steel turn brittle in the cold.
_BRITTLE, _FERROUS = "cold-brittle", ("steel", "iron")
LINE_UP = (
    "Before pushing, line up what must meet (set-screw spots, pin holes, oil holes): scribe both parts, and let guide "
    "pins or a key hold them until the fit has gripped. Once it is home it cannot be turned."
)


@dataclass(frozen=True, slots=True)
class TightFit:
    """A press or shrink fit's real sizes [mm]; ``shaft_bore_mm`` is that of the inner part, 0 where it is solid.

    ``doubt_mm`` is the expanded uncertainty of the interference, from the readings of both parts; 0 where not known.
    ``hub_hard`` and ``shaft_hard`` say that a part is hardened.
    """

    diameter_mm: float
    interference_mm: float
    length_mm: float
    hub_outer_mm: float
    shaft_bore_mm: float
    hub: Material
    shaft: Material
    doubt_mm: float = 0.0
    hub_name: str = "hub"
    shaft_name: str = "shaft"
    hub_hard: bool = False
    shaft_hard: bool = False

    @property
    def names(self) -> tuple[str, str]:
        """What the two are called, the outer part first."""
        return self.hub_name, self.shaft_name


@dataclass(frozen=True, slots=True)
class Method:
    """One way: what cools the inner part and heats the outer one; empty: left as it is."""

    name: str
    cold: str = ""
    heat: str = ""


PUSH = Method("pressed cold")
FREEZER = Method("freezer only", "household freezer")
DRY_ICE = Method("dry ice", "dry ice")
NITROGEN = Method("nitrogen", "liquid nitrogen")
OVEN = Method("oven", heat="kitchen oven")
OVEN_FREEZER = Method("oven and freezer", "household freezer", "kitchen oven")
#: A press fit is pushed; a shrink fit is freed by heat first.
FOR_PRESS = (PUSH, FREEZER, DRY_ICE, NITROGEN, OVEN)
FOR_SHRINK = (OVEN, OVEN_FREEZER, DRY_ICE, NITROGEN, FREEZER, PUSH)


@dataclass(frozen=True, slots=True)
class Together:
    """One method on one fit: gap on arrival [mm] (below zero: interference left), times [s], forces [N]."""

    method: Method
    gap_mm: float
    ready_s: tuple[float, float]
    lasts_s: tuple[float, float] | None
    force_N: tuple[float, float]
    cautions: tuple[str, ...] = field(default=())
    #: Each part and how hot or cold the method makes it [°C]; what a slip fit asks.
    made: tuple[tuple[str, float], ...] = ()
    slip: Slip | None = None

    def words(self, unit: str) -> str:
        """One line, in the owner's units.

        >>> Together(PUSH, -0.025, (0.0, 0.0), None, (5000.0, 20000.0)).words("in")
        'pressed cold: 0.0010 in (0.025 mm) interference left, 1,120 to 4,500 lbf (5 to 20 kN) to push'
        """
        # A gap of a few micrometres would read as nothing at all.
        places = DECIMALS[unit] + 1 if abs(self.gap_mm) < _TINY_MM else None
        gap = show_both(abs(self.gap_mm), unit, places)
        told = [f"{part} at {temperature_said(at)}" for part, at in self.made]
        told.append(f"{gap} {'clear' if self.gap_mm > 0 else 'interference left'}")
        if self.ready_s[1] > 0:
            told.append(f"ready after {_minutes(self.ready_s)}")
        if self.lasts_s is not None:
            told.append(f"stays free {_seconds(self.lasts_s)}")
        if self.force_N[1] > 0:
            told.append(f"{force_words(self.force_N, unit)} to push")
        alone = self.method.cold and not self.method.heat and self.slip is None
        slip = (
            f"; {self.slip.words()}"
            if self.slip is not None
            else "; no cold alone gives a slip fit"
            if alone
            else ""
        )
        return f"{self.method.name}: {', '.join(told)}{slip}"


def force_words(force_N: tuple[float, float], unit: str) -> str:
    """A range of force in the owner's units: pounds first where sizes are in inches, else kilonewtons.

    >>> force_words((5000.0, 20000.0), "mm"), force_words((5000.0, 20000.0), "in")
    ('5 to 20 kN', '1,120 to 4,500 lbf (5 to 20 kN)')
    """
    with sizes_in("in" if unit in INCH_UNITS else "mm"):
        return force_range_said(*force_N)


@door()
def ways_together(
    fit: TightFit, methods: Sequence[Method] = FOR_PRESS, unit: str = "mm"
) -> Worked[tuple[Together, ...]]:
    """Every method in the order given, each with its own cautions; what cannot be worked out is said.

    A fit beyond what a part bears gets its force all the same, after the warning: what is pressed must be known first.

    Raises:
        BadEntry: no interference, or sizes that do not nest.
        OutOfRange: a size outside the formulas.

    >>> from rebuild.trade.shop.materials import material
    >>> steel = material("steel")
    >>> ways = ways_together(TightFit(25.0, 0.03, 30.0, 50.0, 0.0, steel, steel)).value
    >>> [way.method.name for way in ways][:2], ways[0].gap_mm
    (['pressed cold', 'freezer only'], -0.03)
    """
    with sizes_in("in" if unit in INCH_UNITS else "mm"):
        return _ways(fit, methods, unit)


def _ways(fit: TightFit, methods: Sequence[Method], unit: str) -> Worked[tuple[Together, ...]]:
    if fit.interference_mm <= 0:
        raise BadEntry(
            "is no interference: the parts go together by hand.",
            where="Interference",
            value=show_both(fit.interference_mm, unit),
            way_out="Measure both parts again, or make one of them anew to the limits of the fit.",
        )
    whole = _grip(fit, fit.interference_mm)
    sheet = Sheet("How to put the fit together")
    sheet.read("diameter, length", f"{show_both(fit.diameter_mm, unit)}, {show_both(fit.length_mm, unit)}")
    sheet.read("interference", show_both(fit.interference_mm, unit))
    grip = whole.value
    if grip.trouble:
        sheet.note(grip.trouble)
    _tell_doubt(sheet, fit, unit)
    sheet.result("force when home, over the friction there may be", force_words(grip.force_range_N, unit))
    sheet.result("pressure when home", stress_said(grip.pressure_MPa))
    if fit.shaft_bore_mm:
        sheet.result("bore of the inner part closes by", show_both(grip.bore_closing_mm, unit))
    found: list[Together] = []
    cautioned: set[str] = set()
    for method in methods:
        try:
            way = _way(fit, method)
        except OutOfRange as trouble:
            sheet.note(f"{method.name}: {trouble}")
            continue
        found.append(way)
        sheet.result(method.name, way.words(unit).partition(": ")[2], None if method == PUSH else FILM)
        if abs(way.gap_mm) < fit.doubt_mm and method != PUSH:
            sheet.note(
                f"{method.name}: the readings are known to ± {_fine(fit.doubt_mm, unit)}, more than what is left: "
                "have the press ready, it may touch before it is home."
            )
        attach(sheet, *(topic for topic in way.cautions if topic not in cautioned))
        cautioned.update(way.cautions)
    if any(way.slip is not None for way in found):
        sheet.note(
            f"A slip fit is taken as {show_both(usual_clearance_mm(fit.diameter_mm), unit)} clear; room at "
            f"{temperature_said(ROOM_C)}.",
            CLEARANCE,
        )
    sheet.note(LINE_UP, ALIGN)
    # How the force was come by stands last. The cautions come with each method, its own and no other's.
    sheet.take(Working("", tuple(step for step in whole.working.steps if step.kind is not StepKind.CAUTION)))
    return Worked(tuple(found), sheet.close())


def _tell_doubt(sheet: Sheet, fit: TightFit, unit: str) -> None:
    """The interference, and the force with it, from and to what both readings' uncertainty allows."""
    if not fit.doubt_mm:
        return
    least, most = max(fit.interference_mm - fit.doubt_mm, 0.0), fit.interference_mm + fit.doubt_mm
    sheet.equation(
        "known to, by the readings of both parts",
        f"± {_fine(fit.doubt_mm, unit)} at 95 %: {_fine(least, unit)} to {_fine(most, unit)}",
        GUM,
    )
    worst = _grip(fit, most).value
    if worst.trouble and not _grip(fit, fit.interference_mm).value.trouble:
        sheet.note(f"At the most the readings allow: {worst.trouble}")
    high = worst.force_range_N[1]
    low = _grip(fit, least).value.force_range_N[0] if least else 0.0
    sheet.result("force when home, with that besides the friction", force_words((low, high), unit))


def _fine(mm: float, unit: str) -> str:
    return show_length(mm, unit, DECIMALS[unit] + 1)


def _way(fit: TightFit, method: Method) -> Together:
    shrink = grow = 0.0
    made: list[tuple[str, float]] = []
    topics: list[str] = []
    ready = (0.0, 0.0)
    if method.cold:
        cold = medium(method.cold)
        made.append((fit.shaft_name, cold.temperature_C))
        shrink = -size_change(fit.diameter_mm, fit.shaft, cold.temperature_C).value.change_mm
        topics += [one for one in cold.cautions if one != _BRITTLE or fit.shaft.family in _FERROUS]
        ready = _time_in(fit.shaft, fit.diameter_mm, fit.shaft_bore_mm, fit.length_mm, cold)
    if method.heat:
        hot = medium(method.heat)
        reached = _reached(fit, method)[0]
        made.append((fit.hub_name, reached))
        grow = size_change(fit.diameter_mm, fit.hub, reached).value.change_mm
        topics += hot.cautions
        hub = _time_in(fit.hub, _outside(fit), fit.diameter_mm, fit.length_mm, hot)
        ready = (max(ready[0], hub[0]), max(ready[1], hub[1]))
    gap = round(shrink + grow - fit.interference_mm, 9)
    slip = _slip(fit, method, shrink)
    if gap > 0:
        lasts, shown = _lasts(fit, method, gap), tuple(dict.fromkeys(topics))
        return Together(method, gap, ready, lasts, (0.0, 0.0), shown, tuple(made), slip)
    force = _grip(fit, -gap).value.force_range_N if gap < 0 else (0.0, 0.0)
    hard = ("hardened-hammer",) if fit.hub_hard or fit.shaft_hard else ()
    shown = tuple(dict.fromkeys((*_PRESS, *hard, *topics)))
    return Together(method, gap, ready, None, force, shown, tuple(made), slip)


def _reached(fit: TightFit, method: Method) -> tuple[float, str]:
    """How hot the method makes the hub [°C], and in words what sets that: the source, or what the hub bears."""
    limit, kind = bears(fit.hub, hard=fit.hub_hard)
    source = medium(method.heat)
    if limit <= source.temperature_C:
        return limit, f"more than a {kind} bears"
    return source.temperature_C, f"more than a {source.name} gives"


def _slip(fit: TightFit, method: Method, shrink_mm: float) -> Slip | None:
    """What the method needs for the usual clearance; pressing cold needs nothing."""
    clear = usual_clearance_mm(fit.diameter_mm)
    whole = fit.interference_mm + clear
    if method.heat:
        grow = max(0.0, whole - shrink_mm)
        return hub_slip(fit.hub_name, fit.diameter_mm, grow, clear, fit.hub, _reached(fit, method))
    if method.cold:
        coldest = medium(method.cold).temperature_C
        return shaft_slip(fit.shaft_name, fit.diameter_mm, whole, clear, fit.shaft, coldest)
    return None


def _grip(fit: TightFit, interference_mm: float) -> Worked[PressFit]:
    return press_fit(
        fit.diameter_mm,
        interference_mm,
        fit.length_mm,
        fit.hub_outer_mm,
        fit.hub,
        fit.shaft,
        shaft_bore_mm=fit.shaft_bore_mm,
        parts=fit.names,
        past_strength=True,
    )


def _outside(fit: TightFit) -> float:
    """A bore in a large casting is heated as a ring of twice its diameter."""
    return 2 * fit.diameter_mm if math.isinf(fit.hub_outer_mm) else fit.hub_outer_mm


def _time_in(
    material: Material, outside_mm: float, bore_mm: float, length_mm: float, what: Medium
) -> tuple[float, float]:
    """Seconds until the part is within a twentieth of what it lies in: C/(h A) x ln 20, lumped."""
    ring = math.pi / 4 * (outside_mm**2 - bore_mm**2)
    area = (math.pi * (outside_mm + bore_mm) * length_mm + 2 * ring) * 1e-6
    heat = material.density_kg_m3 * SPECIFIC_HEAT[material.family] * ring * length_mm * 1e-9
    weak, strong = _FILM[what.name]
    once = heat / area * math.log(1 / _NEAR)
    return once / strong, once / weak


def _lasts(fit: TightFit, method: Method, gap_mm: float) -> tuple[float, float]:
    """Seconds in still air until the gap is gone: the chilled shaft warms, else the heated hub cools."""
    if method.cold:
        material, outside, bore = fit.shaft, fit.diameter_mm, fit.shaft_bore_mm
        start = medium(method.cold).temperature_C
    else:
        material, outside, bore = fit.hub, _outside(fit), fit.diameter_mm
        start = _reached(fit, method)[0]
    full = size_change(fit.diameter_mm, material, start).value.change_mm
    left = 1 - gap_mm / abs(full)
    # By the share of the change that may still go: the strain is near enough straight over so short a way.
    until = ROOM_C + (start - ROOM_C) * max(left, 0.02)
    return window_s(material, outside, bore, fit.length_mm, start, until).value


def _minutes(seconds: tuple[float, float]) -> str:
    low, high = (max(1, round(one / 60)) for one in seconds)
    return f"{low} to {high} min" if low != high else f"{low} min"


def _seconds(seconds: tuple[float, float]) -> str:
    low, high = (max(1, round(one)) for one in seconds)
    return f"{low} to {high} s" if high < 120 else f"{low // 60 or 1} to {max(1, round(high / 60))} min"
