"""Cutting a thread on the lathe: turn or bore to, depth, tool, compound, lead angle, starts and hand."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, tan

from rebuild.errors import BadEntry
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import word_of
from rebuild.trade.sizes.show import show_both
from rebuild.trade.threads.designation import ThreadDesignation, parse_designation
from rebuild.trade.threads.form import Form, form
from rebuild.trade.threads.lookup import limits_of
from rebuild.trade.threads.series import System
from rebuild.trade.threads.sizes import MM_PER_IN, Band, Side, ThreadLimits, lead_angle_deg
from rebuild.trade.threads.trapezoidal import basic

PRACTICE = Source("Lathe threading", "compound and tool setting", Status.COMMON_PRACTICE)
_V_FORMS = (System.UNIFIED, System.METRIC, System.WHITWORTH, System.BA)
_STUBBY = (System.ACME, System.STUB_ACME)
STEEP_DEG = 4.0


@dataclass(frozen=True, slots=True)
class NutBore:
    """The bore of a nut before it is threaded [mm]."""

    designation: str
    low_mm: float
    high_mm: float


@dataclass(frozen=True, slots=True)
class SinglePoint:
    """What to set on the lathe [mm, deg].

    ``start_low_mm``/``start_high_mm``: turn the blank (screw) or bore the hole (nut) to these first.
    ``compound_deg`` is counted from square to the axis (the cross-slide's line); ``compound_from_axis_deg`` is
    its complement, for slides whose zero lies along the bed. ``depth_mm`` is radial.
    """

    designation: str
    side: Side
    start_low_mm: float
    start_high_mm: float
    depth_mm: float
    compound_deg: float
    compound_from_axis_deg: float
    infeed_mm: float
    tool_angle_deg: float
    tool_flat_mm: float
    tool_radius_mm: float
    lead_mm: float
    starts: int
    index_deg: float
    lead_angle_deg: float
    lead_angle_root_deg: float
    left_hand: bool


def nut_bore(designation: str) -> Worked[NutBore]:
    """Bore of a nut before threading: the limits of its minor diameter.

    Raises:
        BadEntry, Ambiguous, OutOfRange: as ``lookup.for_designation``.

    >>> found = nut_bore("1-8 ACME").value
    >>> round(found.low_mm / 25.4, 4), round(found.high_mm / 25.4, 4)
    (0.875, 0.8813)
    """
    thread = parse_designation(designation)
    worked = limits_of(thread, Side.INTERNAL)
    low, high = _both(worked.value.minor)
    sheet = Sheet(f"Bore before threading: nut {worked.value.designation}")
    sheet.take(worked.working)
    sheet.result("bore to", f"{show_both(low, thread.unit)} to {show_both(high, thread.unit)}")
    if thread.system in _STUBBY:
        sheet.note(
            "A nut for a worn screw: measure the screw's own major diameter and its flanks at the unworn end, "
            "and fit the nut there; the bore stays by the nominal size.",
            PRACTICE,
        )
    return Worked(NutBore(worked.value.designation, low, high), sheet.close())


def single_point(designation: str, side: Side | str = Side.EXTERNAL) -> Worked[SinglePoint]:
    """Settings for cutting a thread with a single-point tool.

    Args:
        designation: e.g. ``7/16-10 LH ACME``.
        side: ``external`` (screw) or ``internal`` (nut).

    Raises:
        BadEntry, Ambiguous, OutOfRange: as ``lookup.for_designation``.

    >>> found = single_point("7/16-10 LH ACME", "internal").value
    >>> round(found.depth_mm / 25.4, 4), round(found.tool_flat_mm / 25.4, 4), found.compound_deg
    (0.06, 0.0319, 14.5)
    """
    thread = parse_designation(designation)
    part = word_of("Side", side, Side)
    found = limits_of(thread, part).value
    shape = form(thread.system)
    sheet = Sheet(f"Single-point threading: {found.designation}, {part.value}")
    sheet.read("form", f"{shape.included_deg:g}° included", shape.source)
    external = part is Side.EXTERNAL
    low, high = _both(found.major if external else found.minor)
    sheet.result("turn to" if external else "bore to", _between(low, high, thread.unit))
    depth, flat = _depth_and_flat(sheet, thread, found, shape, external)
    compound = shape.included_deg / 2 - (0.5 if thread.system in _V_FORMS else 0.0)
    infeed = depth / cos(radians(compound))
    _compound_lines(sheet, compound, infeed, thread.unit)
    root_mm = (high if external else found.nominal_mm) - 2 * depth * (1 if external else 0)
    at_root = lead_angle_deg(root_mm, thread.lead_mm)
    _lead_lines(sheet, thread, found, at_root)
    attach(sheet, "chuck")
    value = SinglePoint(
        designation=found.designation,
        side=part,
        start_low_mm=low,
        start_high_mm=high,
        depth_mm=depth,
        compound_deg=compound,
        compound_from_axis_deg=90 - compound,
        infeed_mm=infeed,
        tool_angle_deg=shape.included_deg,
        tool_flat_mm=flat,
        tool_radius_mm=shape.root_radius * thread.pitch_mm,
        lead_mm=thread.lead_mm,
        starts=thread.starts,
        index_deg=360 / thread.starts,
        lead_angle_deg=found.lead_angle_deg,
        lead_angle_root_deg=at_root,
        left_hand=thread.left_hand,
    )
    return Worked(value, sheet.close())


def _both(band: Band) -> tuple[float, float]:
    low, high = band.low_mm, band.high_mm
    if low is None or high is None:
        raise BadEntry("has no two limits to work to.", where="Diameter")
    return low, high


def _between(low: float, high: float, unit: str) -> str:
    return f"{show_both(low, unit)} to {show_both(high, unit)}"


def _depth_and_flat(
    sheet: Sheet, thread: ThreadDesignation, found: ThreadLimits, shape: Form, external: bool
) -> tuple[float, float]:
    """Radial depth of cut and width of the tool's flat, with root clearance where the form has one [mm]."""
    P = thread.pitch_mm
    ratio = shape.screw_depth if external else shape.nut_depth
    clearance = _clearance(thread)
    allowance = found.allowance * (MM_PER_IN if found.unit == "in" else 1.0)
    depth = ratio * P + clearance / 2
    widening = 2 * tan(shape.half_rad)
    less = clearance - (allowance if external else 0.0)
    flat = (shape.screw_flat if external else shape.nut_flat) * P
    if clearance:
        flat -= widening / 2 * less
        sheet.equation(
            "depth of cut",
            f"{ratio:g} P + {clearance / 2:.4f} = {show_both(depth, thread.unit)}",
            shape.source,
        )
        name = "clearance less allowance" if external else "clearance"
        sheet.equation(
            "tool flat",
            f"{shape.screw_flat:.4f} P - {widening / 2:.4f} x {name} {less:.4f} = {show_both(flat, thread.unit)}",
            shape.source,
        )
        return depth, flat
    sheet.equation("depth of cut", f"{ratio:.5g} P = {show_both(depth, thread.unit)}", shape.source)
    if flat:
        sheet.equation("tool flat", f"P/8 = {show_both(flat, thread.unit)}", shape.source)
    radius = shape.root_radius * P
    sheet.equation(
        "tool nose radius", f"{shape.root_radius:.4f} P = {show_both(radius, thread.unit)}", shape.source
    )
    if external and thread.system in (System.UNIFIED, System.METRIC):
        rounded = show_both(0.61343466 * P, thread.unit)
        sheet.note(f"With the rounded nose instead of the flat, go {rounded} deep.", shape.source)
    return depth, flat


def _clearance(thread: ThreadDesignation) -> float:
    """Diametral clearance at the root [mm]: Acme 0.020 or 0.010 in, trapezoidal twice ac."""
    if thread.system in _STUBBY:
        return (0.020 if (thread.tpi or 0) <= 10 else 0.010) * MM_PER_IN
    if thread.system is System.TRAPEZOIDAL:
        return 2 * basic(thread.nominal_mm, thread.pitch_mm).ac
    return 0.0


def _compound_lines(sheet: Sheet, compound: float, infeed: float, unit: str) -> None:
    sheet.equation(
        "compound",
        f"{compound:g}° from square to the axis (or {90 - compound:g}° where zero lies along the bed: look which)",
        PRACTICE,
    )
    sheet.equation(
        "feed along the compound", f"depth / cos {compound:g}° = {show_both(infeed, unit)}", PRACTICE
    )
    sheet.note("Depth is a guide: finish by wires, ring, or the mating part.", PRACTICE)


def _lead_lines(sheet: Sheet, thread: ThreadDesignation, found: ThreadLimits, at_root: float) -> None:
    sheet.equation(
        "lead angle",
        f"atan(lead / pi E) with lead {thread.lead_mm:.4f} mm = {found.lead_angle_deg:.2f}°; "
        f"{at_root:.2f}° at the root",
    )
    if at_root > STEEP_DEG:
        sheet.note(
            f"Grind the tool's leading side {at_root:.1f}° beyond its normal clearance, or lean the tool over.",
            PRACTICE,
        )
    if thread.starts > 1:
        sheet.note(
            f"{thread.starts} starts: gear the lathe for the lead; after each start turn the work "
            f"{360 / thread.starts:g}° against the leadscrew, or move the tool one pitch "
            f"({show_both(thread.pitch_mm, thread.unit)}) along.",
            PRACTICE,
        )
    if thread.left_hand:
        sheet.note(
            "Left-hand: cut away from the headstock, starting in a groove; swing the compound the other way.",
            PRACTICE,
        )
