"""Weights of simple shapes, sling angles and leg loads, and the centre of mass from two weighings.

The sling angle is always the angle between a leg and the horizontal. Below 30° nothing is worked out:
the lift is not to be made.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, atan, degrees, isfinite, pi, radians, sin, sqrt, tan

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.cautions import attach, caution
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.shop.materials import Material
from rebuild.trade.sizes.amounts import KGF_N, LB_KG
from rebuild.trade.sizes.own_unit import both, own_unit, said

STATICS = Source("Statics of a sling", "leg = load / (legs × sin angle)", Status.COMPUTED)
TWO_LEGS = Source("Legs that carry", "only two legs of three or four are counted", Status.COMMON_PRACTICE)
LEAST_ANGLE_DEG = 30.0
MIDDLE = (
    "The centre of mass is taken midway between the hooks. Off it the nearer leg carries more than half: find the "
    "centre first (centre-of-mass) and type how far it is off."
)
LB_PER_KG = 1 / LB_KG


@dataclass(frozen=True, slots=True)
class Sling:
    """A sling lift: factor on each leg, what is left of the upright capacity, load in the worst leg [kg].

    ``counted`` is how many legs the load was shared by; ``share`` the part of the load on the worst of them.
    """

    factor: float
    capacity_part: float
    leg_kg: float
    enough: bool | None
    counted: int
    share: float


@door()
def angle_factor(angle_from_horizontal_deg: float) -> float:
    """How much more a leg carries than upright: 1 / sin of its angle from the horizontal.

    Raises:
        OutOfRange: below 30° (not to be lifted) or above 90°.

    >>> round(angle_factor(60.0), 4)
    1.1547
    """
    if not LEAST_ANGLE_DEG <= angle_from_horizontal_deg <= 90.0:
        source = caution("slings").source
        low = angle_from_horizontal_deg < LEAST_ANGLE_DEG
        what = "is below 30° from the horizontal: do not lift so" if low else "lies outside 30 to 90°"
        raise OutOfRange(
            f"{what} ({source.cite()}).",
            where="Sling angle",
            value=f"{angle_from_horizontal_deg:g}°",
            way_out="Use longer legs or a spreader bar, or ask a rigger.",
        )
    return 1.0 / sin(radians(angle_from_horizontal_deg))


@door()
def sling(
    load_kg: float,
    legs: int,
    angle_from_horizontal_deg: float,
    *,
    leg_rated_kg: float | None = None,
    off_mm: float = 0.0,
    spread_mm: float | None = None,
) -> Worked[Sling]:
    """Load in the worst leg of a sling.

    Args:
        load_kg: mass lifted, gear included.
        legs: 1 to 4; of three or four only two are counted, since they never share alike.
        angle_from_horizontal_deg: between leg and horizontal, hung from over the middle; 90 is straight up.
        leg_rated_kg: one leg's rated capacity straight up, if known.
        off_mm: how far the centre of mass lies from the middle between the hooks.
        spread_mm: the distance of the hooks; wanted with ``off_mm``.

    Off the middle the nearer leg carries more of the load: s/2 + e of s. The load is taken level, the hook over its
    centre, so that the nearer leg is the steeper: its load is told by the angle of the middle, never too little; the
    farther leg's flatter angle must hold the least angle too.

    Raises:
        BadEntry: a load not above zero, no number of legs, or a centre off the middle without a spread.
        OutOfRange: an angle below 30°, or a centre not between the hooks.

    >>> round(sling(1000.0, 2, 45.0).value.leg_kg, 1)
    707.1
    >>> round(sling(1000.0, 2, 60.0, off_mm=250.0, spread_mm=1000.0).value.share, 2)
    0.75
    """
    _check_lift(load_kg, legs, angle_from_horizontal_deg)
    factor = angle_factor(angle_from_horizontal_deg)
    counted = min(legs, 2)
    share = 1.0 if counted == 1 else _share(off_mm, spread_mm, angle_from_horizontal_deg)
    leg = load_kg * share * factor
    sheet = Sheet("Load in a sling leg")
    sheet.read("load", kg_and_lb(load_kg))
    sheet.read("legs", f"{legs}, at {angle_from_horizontal_deg:g}° from the horizontal")
    if counted < legs:
        sheet.note(f"Of {legs} legs {counted} are counted: stiff loads hang on two.", TWO_LEGS)
    if counted > 1 and off_mm and spread_mm:
        sheet.equation(
            "nearer leg",
            f"({spread_mm:.5g} / 2 + {off_mm:.5g}) / {spread_mm:.5g} = {share:.3f} of the load",
            STATICS,
        )
    elif counted > 1:
        sheet.note(MIDDLE)
    sheet.equation("factor", f"1 / sin {angle_from_horizontal_deg:g}° = {factor:.4f}", STATICS)
    sheet.equation(
        "leg",
        f"{load_kg:.5g} × {share:.4g} × {factor:.4f} = {kg_and_lb(leg)}, {leg * KGF_N / 1000:.3g} kN",
        STATICS,
    )
    enough = None if leg_rated_kg is None else leg <= leg_rated_kg
    if leg_rated_kg is not None:
        sheet.read("one leg rated", f"{kg_and_lb(leg_rated_kg)} straight up")
        sheet.result("leg", "within its rating" if enough else "over its rating: do not lift")
    sheet.result("capacity left", f"{1 / factor:.1%} of upright")
    attach(sheet, "slings", "lifting")
    return Worked(Sling(factor, 1 / factor, leg, enough, counted, share), sheet.close())


def _check_lift(load_kg: float, legs: int, angle_deg: float) -> None:
    if not (isfinite(load_kg) and load_kg > 0):
        raise BadEntry("is not above zero.", where="Load", value=f"{load_kg:g} kg")
    if legs not in (1, 2, 3, 4):
        raise BadEntry("is not 1 to 4 legs.", where="Legs", value=str(legs))
    if legs == 1 and angle_deg != 90.0:
        raise BadEntry(
            f"hangs straight under the hook, not at {angle_deg:g}°.",
            where="Legs",
            value="1",
            way_out="Type the angle as 90, or 2 legs or more.",
        )


def _share(off_mm: float, spread_mm: float | None, angle_deg: float) -> float:
    """The part of the load on the nearer of two legs; the farther one's angle is looked at too."""
    if not off_mm:
        return 0.5
    if spread_mm is None:
        raise BadEntry(
            "needs the distance of the hooks beside it.",
            where="Centre off the middle",
            value=said(off_mm),
            way_out="Type the distance of the hooks too.",
        )
    if not 0 <= off_mm < spread_mm / 2:
        raise OutOfRange(
            f"is not between the middle and a hook, {said(spread_mm / 2)} from it: the load would turn over.",
            where="Centre off the middle",
            value=said(off_mm),
            way_out="Move the hooks, so that the centre of mass lies between them.",
        )
    far = degrees(atan(tan(radians(min(angle_deg, 89.999))) / (1 + 2 * off_mm / spread_mm)))
    if far < LEAST_ANGLE_DEG:
        raise OutOfRange(
            f"leaves the farther leg at {far:.1f}°, below 30° from the horizontal: do not lift so.",
            where="Centre off the middle",
            value=said(off_mm),
            way_out="Use longer legs or a spreader bar, move the hooks, or ask a rigger.",
        )
    return 0.5 + off_mm / spread_mm


@door()
def angle_from_spread(leg_mm: float, spread_mm: float) -> float:
    """A two-leg sling's angle from the horizontal [deg], from leg length and the distance of its hooks.

    Raises:
        BadEntry: legs that do not reach.

    >>> round(angle_from_spread(1000.0, 1000.0), 6)
    60.0
    """
    if not (leg_mm > 0 and spread_mm >= 0 and isfinite(leg_mm) and spread_mm < 2 * leg_mm):
        raise BadEntry(
            "do not reach over the spread.", where="Legs", value=f"{said(leg_mm)} over {said(spread_mm)}"
        )
    return degrees(acos(spread_mm / 2 / leg_mm))


SHAPES = ("round", "tube", "flat", "hexagon")


@door()
def weight_kg(shape: str, sizes_mm: tuple[float, ...], material: Material, pieces: int = 1) -> Worked[float]:
    """Weight of a simple piece [kg].

    Args:
        shape: round (diameter, length), tube (outside, bore, length), flat (width, thickness, length)
            or hexagon (across flats, length).
        sizes_mm: its sizes.
        material: what it is of.
        pieces: how many.

    Raises:
        BadEntry: an unknown shape, a wrong number of sizes, or sizes that cannot be.

    >>> from rebuild.trade.shop.materials import material
    >>> round(weight_kg("round", (50.0, 1000.0), material("steel")).value, 2)
    15.41
    """
    volume = _volume(shape, sizes_mm)
    if pieces < 1:
        raise BadEntry("is less than one.", where="Pieces", value=str(pieces))
    mass = volume * 1e-9 * material.density_kg_m3 * pieces
    sheet = Sheet(f"Weight of {pieces} × {shape}")
    sheet.read("sizes", " x ".join(f"{size:g}" for size in sizes_mm) + " mm")
    sheet.equation("volume", f"{volume / 1000:.5g} cm³")
    low, high = material.density_range_kg_m3
    spread = f" ({low:g} to {high:g})" if low != high else ""
    sheet.table(
        "density", f"{material.name}: {material.density_kg_m3:g} kg/m³{spread}", material.source("density")
    )
    sheet.result("weight", kg_and_lb(mass))
    if mass > 20.0:
        attach(sheet, "lifting")
    return Worked(mass, sheet.close())


def _volume(shape: str, sizes: tuple[float, ...]) -> float:
    wanted = {"round": 2, "tube": 3, "flat": 3, "hexagon": 2}
    if shape not in wanted:
        raise BadEntry("is not a shape.", where="Shape", value=shape, way_out=f"Shapes: {', '.join(SHAPES)}.")
    if len(sizes) != wanted[shape] or any(not (isfinite(size) and size > 0) for size in sizes):
        text = " x ".join(f"{size:g}" for size in sizes)
        raise BadEntry(f"does not give the {wanted[shape]} sizes of a {shape}.", where="Sizes", value=text)
    if shape == "round":
        return pi / 4 * sizes[0] ** 2 * sizes[1]
    if shape == "hexagon":
        return sqrt(3.0) / 2 * sizes[0] ** 2 * sizes[1]
    if shape == "flat":
        return sizes[0] * sizes[1] * sizes[2]
    if sizes[1] >= sizes[0]:
        raise BadEntry(
            "has a bore not smaller than its outside.", where="Tube", value=f"{sizes[0]:g} x {sizes[1]:g}"
        )
    return pi / 4 * (sizes[0] ** 2 - sizes[1] ** 2) * sizes[2]


@door()
def centre_of_mass_mm(first_kg: float, second_kg: float, between_mm: float) -> Worked[float]:
    """Distance of the centre of mass from the first of two weighed supports [mm].

    Raises:
        BadEntry: weighings that cannot be.

    >>> centre_of_mass_mm(300.0, 100.0, 1200.0).value
    300.0
    """
    if not (first_kg >= 0 and second_kg >= 0 and first_kg + second_kg > 0 and between_mm > 0):
        raise BadEntry(
            "are not two weighings.",
            where="Weights",
            value=f"{kg_and_lb(first_kg)} and {kg_and_lb(second_kg)}",
        )
    place = second_kg / (first_kg + second_kg) * between_mm
    sheet = Sheet("Centre of mass from two weighings")
    sheet.read("weighings", f"{kg_and_lb(first_kg)} and {kg_and_lb(second_kg)}, {both(between_mm, 1)} apart")
    sheet.equation(
        "from the first", f"{second_kg:g} / {first_kg + second_kg:g} × {between_mm:g} = {place:.1f} mm"
    )
    sheet.result("total", kg_and_lb(first_kg + second_kg))
    attach(sheet, "lifting")
    return Worked(place, sheet.close())


@door()
def kg_and_lb(mass_kg: float) -> str:
    """A mass in both systems, the one of who asks first.

    >>> kg_and_lb(100.0)
    '100 kg (220.5 lb)'
    """
    if own_unit() == "in":
        return f"{mass_kg * LB_PER_KG:.4g} lb ({mass_kg:.4g} kg)"
    return f"{mass_kg:.4g} kg ({mass_kg * LB_PER_KG:.4g} lb)"
