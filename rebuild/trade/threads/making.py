"""Cutting a thread on the lathe: turn or bore to, depth, tool, compound, lead angle, starts and hand."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, tan

from rebuild.errors import BadEntry
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import word_of
from rebuild.trade.sizes.own_unit import said_range
from rebuild.trade.sizes.show import show_both
from rebuild.trade.threads.designation import ThreadDesignation, parse_designation
from rebuild.trade.threads.form import Form, form
from rebuild.trade.threads.groove import GEOMETRY, Nose, below_pitch_line, depth_to
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
    its complement, for slides whose zero lies along the bed. ``depth_mm`` is radial, from ``from_mm`` (the
    blank or bore it is counted from) with ``nose`` to ``first_mm``, the pitch diameter that passes first;
    ``depth_most_mm`` is where the last one allowed, ``last_mm``, is reached. ``depth_rounded_mm`` is the depth of
    the other nose, rounded to ``tool_radius_mm``, to the same pitch diameter.
    """

    designation: str
    side: Side
    start_low_mm: float
    start_high_mm: float
    depth_mm: float
    depth_most_mm: float
    depth_rounded_mm: float
    from_mm: float
    first_mm: float
    last_mm: float
    nose: Nose
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
    #: On the smallest diameter cut (a nut's bore, a screw's core): the steepest, which the tool must clear [deg].
    lead_angle_most_deg: float = 0.0


#: How a left-hand thread is cut. Common practice, no source; the helix follows from turning and feed.
LEFT_HAND = (
    "with the spindle forward cut away from the headstock: the carriage runs from headstock to tailstock. The tool "
    "starts in the run-out groove (or behind the back face) and its tailstock-side flank leads, so the lead angle's "
    "clearance goes on that side. Or, with the spindle in reverse and the tool upside down, towards the headstock: "
    "then its headstock-side flank leads. Swing the compound the other way."
)


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


def single_point(
    designation: str,
    side: Side | str = Side.EXTERNAL,
    *,
    pitch_mm: tuple[float, float] | None = None,
    start_mm: float | None = None,
    nose: Nose | None = None,
) -> Worked[SinglePoint]:
    """Settings for cutting a thread with a single-point tool.

    Depth follows the limits: it is counted from the blank or bore as it is, with the nose as it is ground, to
    the pitch diameter wanted, which may be another than the standard's (a nut for a worn screw).

    Args:
        designation: e.g. ``7/16-10 LH ACME``.
        side: ``external`` (screw) or ``internal`` (nut).
        pitch_mm: limits of the pitch diameter [mm]; left out, those of the designation.
        start_mm: outside or bore as made [mm]; left out, its limit with most metal.
        nose: the tool as ground; left out, as the form wants it.

    Raises:
        BadEntry, Ambiguous, OutOfRange: as ``lookup.for_designation``, ``groove.depth_to``.

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
    flat = _flat(thread, found, shape, external)
    radius = shape.root_radius * thread.pitch_mm
    usual = Nose(flat_mm=flat) if flat else Nose(radius_mm=radius)
    ground = nose or usual
    first, last = _pitch_ends(found, pitch_mm, external)
    start = start_mm if start_mm is not None else (high if external else low)

    on_paper = start_mm is None and pitch_mm is None
    slip = _rounding(thread, found, shape, usual, external) if on_paper else 0.0

    def depth_for(target_mm: float, with_nose: Nose) -> float:
        return depth_to(
            start + slip, target_mm, with_nose, thread.pitch_mm, shape.included_deg, external=external
        )

    depth, most = depth_for(first, ground), depth_for(last, ground)
    rounded = depth_for(first, Nose(radius_mm=radius)) if radius else 0.0
    _depth_lines(sheet, thread.unit, (start, first, last), (depth, most, rounded), (ground, radius), external)
    compound = shape.included_deg / 2 - (0.5 if thread.system in _V_FORMS else 0.0)
    infeed = depth / cos(radians(compound))
    _compound_lines(sheet, compound, infeed, thread.unit)
    root_mm = start - 2 * depth if external else start + 2 * depth
    at_root = lead_angle_deg(root_mm, thread.lead_mm)
    at_pitch = found.lead_angle_deg if pitch_mm is None else lead_angle_deg(first, thread.lead_mm)
    steepest = at_root if external else lead_angle_deg(start, thread.lead_mm)
    _lead_lines(sheet, thread, (at_pitch, at_root, steepest), external=external)
    attach(sheet, "chuck")
    value = SinglePoint(
        designation=found.designation,
        side=part,
        start_low_mm=low,
        start_high_mm=high,
        depth_mm=depth,
        depth_most_mm=most,
        depth_rounded_mm=rounded,
        from_mm=start,
        first_mm=first,
        last_mm=last,
        nose=ground,
        compound_deg=compound,
        compound_from_axis_deg=90 - compound,
        infeed_mm=infeed,
        tool_angle_deg=shape.included_deg,
        tool_flat_mm=ground.flat_mm if nose else flat,
        tool_radius_mm=ground.radius_mm if nose else radius,
        lead_mm=thread.lead_mm,
        starts=thread.starts,
        index_deg=360 / thread.starts,
        lead_angle_deg=at_pitch,
        lead_angle_root_deg=at_root,
        left_hand=thread.left_hand,
        lead_angle_most_deg=steepest,
    )
    return Worked(value, sheet.close())


def _both(band: Band) -> tuple[float, float]:
    low, high = band.low_mm, band.high_mm
    if low is None or high is None:
        raise BadEntry("has no two limits to work to.", where="Diameter")
    return low, high


def _between(low: float, high: float, unit: str) -> str:
    return f"{show_both(low, unit)} to {show_both(high, unit)}"


def _pitch_ends(
    found: ThreadLimits, given: tuple[float, float] | None, external: bool
) -> tuple[float, float]:
    """The pitch diameter reached first and the last one allowed: from large to small on a screw, upwards in a nut."""
    low, high = given if given is not None else _both(found.pitch_diameter)
    if not 0 < low <= high:
        raise BadEntry("runs backwards.", where="Pitch diameter", value=f"{said_range(low, high)}")
    return (high, low) if external else (low, high)


def _rounding(
    thread: ThreadDesignation, found: ThreadLimits, shape: Form, usual: Nose, external: bool
) -> float:
    """What the standard's rounding of its limits takes from the blank or bore, up to 0.0003 in [mm].

    On paper the depth is the form's share of the pitch and half the clearance; the limits are rounded after.
    """
    ratio = shape.screw_depth if external else shape.nut_depth
    on_paper = ratio * thread.pitch_mm + _clearance(thread) / 2
    start = _both(found.major)[1] if external else _both(found.minor)[0]
    first, _last = _pitch_ends(found, None, external)
    sign = 1 if external else -1
    rise = on_paper - below_pitch_line(usual, thread.pitch_mm, shape.included_deg)
    return first + sign * 2 * rise - start


def _flat(thread: ThreadDesignation, found: ThreadLimits, shape: Form, external: bool) -> float:
    """Width of the tool's flat as the form wants it, narrower by the root clearance where there is one [mm].

    An Acme screw's is P/2 - tan a (P/2 + clearance - allowance): cut so deep, the groove at the pitch line is P/2.
    """
    clearance = _clearance(thread)
    allowance = found.allowance * (MM_PER_IN if found.unit == "in" else 1.0)
    less = clearance - (allowance if external else 0.0)
    plain = (shape.screw_flat if external else shape.nut_flat) * thread.pitch_mm
    return plain - tan(shape.half_rad) * less if clearance else plain


def _depth_lines(
    sheet: Sheet,
    unit: str,
    sizes: tuple[float, float, float],
    depths: tuple[float, float, float],
    noses: tuple[Nose, float],
    external: bool,
) -> None:
    """Bore or blank, nose, and the depth to each end of the pitch diameter: said together."""
    start, first, last = sizes
    depth, most, rounded = depths
    ground, radius = noses
    word = "blank" if external else "bore"
    sheet.read(f"{word} the depth is counted from", show_both(start, unit))
    flat = "tool flat" if ground.flat_mm or not ground.radius_mm else "tool nose radius"
    sheet.read(flat, show_both(ground.flat_mm or ground.radius_mm, unit))
    half = f"({'blank - E' if external else 'E - bore'})/2 + nose below the pitch line"
    sheet.equation(f"depth to E {show_both(first, unit)}", f"{half} = {show_both(depth, unit)}", GEOMETRY)
    sheet.equation(f"depth to E {show_both(last, unit)}, never more", show_both(most, unit), GEOMETRY)
    if radius and not ground.radius_mm:
        sheet.note(
            f"With a nose rounded to {show_both(radius, unit)} instead of that flat, go {show_both(rounded, unit)} "
            "deep: depth and nose belong together.",
            GEOMETRY,
        )


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


def _lead_lines(
    sheet: Sheet, thread: ThreadDesignation, angles: tuple[float, float, float], *, external: bool
) -> None:
    at_pitch, at_root, steepest = angles
    at_bore = "" if external else f"; {steepest:.2f}° at the bore, which the tool must clear"
    sheet.equation(
        "lead angle",
        f"atan(lead / pi E) with lead {thread.lead_mm:.4f} mm = {at_pitch:.2f}°; "
        f"{at_root:.2f}° at the root{at_bore}",
    )
    if steepest > STEEP_DEG:
        sheet.note(
            f"Grind the tool's leading side {steepest:.1f}° beyond its normal clearance, or lean the tool over.",
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
        sheet.note(f"Left-hand: {LEFT_HAND}", PRACTICE)
