"""The thread data of a sheet: what to bore or turn, how deep with which nose, passes, wires or pins, and the proof."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from math import radians, tan

from rebuild.errors import BadEntry, RebuildError
from rebuild.trade.limits.inward import limits_both
from rebuild.trade.making.block import DataBlock, Lines
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Working, joined
from rebuild.trade.shop.drills import drills
from rebuild.trade.sizes.quantity import parse_length
from rebuild.trade.sizes.show import show_both, show_length
from rebuild.trade.threads import wires
from rebuild.trade.threads.balls import between_balls, pitch_diameter_between
from rebuild.trade.threads.designation import ThreadDesignation, parse_designation
from rebuild.trade.threads.groove import Nose, passes
from rebuild.trade.threads.into_the_bore import into_the_bore
from rebuild.trade.threads.lookup import limits_of
from rebuild.trade.threads.making import LEFT_HAND, SinglePoint, single_point
from rebuild.trade.threads.series import System
from rebuild.trade.threads.sizes import Band, Side, ThreadLimits
from rebuild.trade.threads.tap_drill import tap_drill
from rebuild.words.making import PartShape

_V_FORMS = (System.UNIFIED, System.METRIC, System.WHITWORTH, System.BA)
_MM_PER_IN = 25.4
#: Of the band above the least a tap cuts it needs so much, and so much is left to it [mm]. Common practice, no source.
_TAP_ROOM_MM, _FOR_THE_TAP_MM = 0.01, 0.05
#: A tap is offered where so much of what it may cut lies within the limits. Common practice, no source.
_MOST_OF_ITS_BAND = 0.5
#: Left in the bore for the boring bar after the drill [mm]. Common practice, no source.
_FOR_THE_BAR_MM = 1.0
#: Nearer than this the root of a nut counts as rubbing on the screw's crests [mm]. Common practice, no source.
_TOUCHES_MM = 0.01


@dataclass(frozen=True, slots=True)
class ThreadAsCut:
    """What a sheet says of its thread [mm]; None where it says nothing and the designation stands.

    ``pitch_mm`` are the limits of its pitch diameter, ``suits`` where they come from and ``wanted`` what is to be
    between the two; ``start_mm`` the bore or outside as made; ``nose`` the tool as ground, ``ball_mm``
    the balls or pins in hand, where they are not the best ones.
    """

    pitch_mm: tuple[float, float] | None = None
    suits: str = ""
    wanted: str = ""
    start_mm: float | None = None
    nose: Nose | None = None
    length_mm: float | None = None
    ball_mm: float | None = None


@dataclass(slots=True)
class _Told:
    """Lines and workings as they are gathered."""

    unit: str
    lines: Lines = field(default_factory=list)
    workings: list[Working] = field(default_factory=list)

    def say(self, label: str, text: str) -> None:
        self.lines.append((label, text))

    def size(self, label: str, mm: float) -> None:
        self.say(label, show_both(mm, self.unit))


_NOSE = re.compile(r"^\s*(flat|radius|r)\s+(\S.*)$", re.I)


@door()
def read_nose(text: str, unit: str) -> Nose | None:
    """The nose of a threading tool as typed, or None when nothing is.

    Raises:
        BadEntry: it does not say flat or radius, or is no size.

    >>> read_nose("flat 0.0319", "in").flat_mm, read_nose("", "in")
    (0.81026, None)
    """
    if not text.strip():
        return None
    found = _NOSE.match(text)
    if found is None:
        raise BadEntry(
            "does not say whether it is a flat or a radius.",
            where="Tool nose",
            value=text,
            way_out="Type flat 0.0319 in, or radius 0.2 mm.",
        )
    size = round(parse_length(found[2], unit, "Tool nose").mm, 9)
    if size <= 0:
        raise BadEntry("must be more than zero.", where="Tool nose", value=text, way_out="Measure it again.")
    return Nose(flat_mm=size) if found[1].lower() == "flat" else Nose(radius_mm=size)


def side_of(shape: str) -> Side:
    """Whether a shape carries its thread inside.

    >>> side_of("nut").value, side_of("screw").value
    ('internal', 'external')
    """
    return Side.INTERNAL if shape in (PartShape.NUT, PartShape.COLLAR) else Side.EXTERNAL


def thread_block(text: str, shape: str, unit: str, cut: ThreadAsCut) -> DataBlock:
    """The thread data of a sheet. Depth, passes and proof follow the limits the sheet asks for, never others.

    Raises:
        BadEntry, Ambiguous, OutOfRange: the designation cannot be read, or the sizes cannot be of this thread.

    >>> cut = ThreadAsCut(pitch_mm=(0.9277 * 25.4, 0.9302 * 25.4), suits="to suit SC-1")
    >>> block = thread_block("1-8 ACME", "nut", "in", cut)
    >>> dict(block.lines)["pitch diameter"]
    '0.9277 in (23.564 mm) to 0.9302 in (23.627 mm), to suit SC-1'
    """
    thread, side = parse_designation(text), side_of(shape)
    limits = limits_of(thread, side)
    point = single_point(text, side, pitch_mm=cut.pitch_mm, start_mm=cut.start_mm, nose=cut.nose)
    told = _Told(unit, workings=[limits.working, point.working])
    told.say("thread", _named(thread))
    _bands(told, text, point.value, limits.value, cut)
    _cutting(told, point.value, thread)
    if side is Side.INTERNAL:
        _bore(told, point.value, thread, cut)
        _tap(told, thread, limits.value, cut)
        _prove_nut(told, point.value, thread, limits.value, cut)
    else:
        _over_wires(told, point.value, thread, limits.value)
        told.say("check", "over wires, or the nut along its whole length")
    return DataBlock("Thread", tuple(told.lines), joined(f"Thread {thread.name}", told.workings))


def _named(thread: ThreadDesignation) -> str:
    hand = "left-hand" if thread.left_hand else "right-hand"
    starts = f", {thread.starts} starts" if thread.starts > 1 else ""
    per_inch = f", {thread.tpi:g} per inch" if thread.tpi is not None else ""
    return f"{thread.name}, {hand}{starts}{per_inch}"


def _bands(told: _Told, text: str, point: SinglePoint, limits: ThreadLimits, cut: ThreadAsCut) -> None:
    """Bore or blank, pitch diameter and root; the standard's pitch diameter is told apart from a mate's."""
    inside = point.side is Side.INTERNAL
    unit = told.unit
    told.say(
        "bore before threading" if inside else "turn the blank to",
        limits_both(point.start_low_mm, point.start_high_mm, unit),
    )
    if cut.start_mm is not None:
        told.size("bored to" if inside else "turned to", cut.start_mm)
    standard = _band(limits.pitch_diameter, unit)
    alone = cut.pitch_mm is None and cut.nose is None and cut.start_mm is None
    if cut.pitch_mm is None:
        told.say("pitch diameter", standard)
    else:
        told.say("pitch diameter", f"{limits_both(*cut.pitch_mm, unit)}, {cut.suits or 'to suit its mate'}")
        plain = show_both(single_point(text, point.side).value.depth_mm, unit)
        told.say("by the standard it would be", f"{standard}, cut {plain} deep; not what this sheet asks for")
    if limits.rounded_root_minor_mm is not None and not inside and alone:
        told.say("core, root rounded", f"at most {show_both(limits.rounded_root_minor_mm, unit)}")
    root = "root (major diameter)" if inside else "core (minor diameter)"
    if alone:
        told.say(root, _band(limits.major if inside else limits.minor, unit))
        return
    low, high = root_ends(point)
    told.say(root, f"{limits_both(low, high, unit)}, by the depth of cut with this nose")
    if inside:
        told.say("root over the screw's crests", _over_crests(point, low, parse_designation(text), unit))


def root_ends(point: SinglePoint) -> tuple[float, float]:
    """Where the nose ends [mm], low first: a nut's root or a screw's core, at the depths of both limits.

    >>> nut = single_point("5/8-8 ACME", "internal", pitch_mm=(0.5549 * 25.4, 0.5579 * 25.4)).value
    >>> [round(end / 25.4, 4) for end in root_ends(nut)]  # 0.0825 in over the pitch diameter
    [0.6374, 0.6404]
    """
    sign = 1 if point.side is Side.INTERNAL else -1
    first, last = (point.from_mm + sign * 2 * deep for deep in (point.depth_mm, point.depth_most_mm))
    return (first, last) if sign > 0 else (last, first)


def root_as_cut(text: str, shape: str, cut: ThreadAsCut) -> tuple[float, float] | None:
    """The root or core the sheet's own limits, blank and nose give [mm]; None where the standard's stands.

    Raises:
        BadEntry, Ambiguous, OutOfRange: as ``thread_block``.

    >>> root_as_cut("5/8-8 ACME", "nut", ThreadAsCut()) is None
    True
    """
    if cut.pitch_mm is None and cut.nose is None and cut.start_mm is None:
        return None
    point = single_point(text, side_of(shape), pitch_mm=cut.pitch_mm, start_mm=cut.start_mm, nose=cut.nose)
    return root_ends(point.value)


def _over_crests(point: SinglePoint, root_mm: float, thread: ThreadDesignation, unit: str) -> str:
    """What the root leaves over the screw's crests, or how narrow a nose reaches past them."""
    outside, room = show_both(thread.nominal_mm, unit), root_mm - thread.nominal_mm
    if room > _TOUCHES_MM:
        return f"{show_both(room, unit)} on the diameter, over a screw {outside} outside"
    a = radians(point.tool_angle_deg / 2)
    widest = thread.pitch_mm / 2 - tan(a) * (thread.nominal_mm - point.first_mm)
    narrow = (
        f"grind the nose flat no wider than {show_both(widest, unit)}, and go deeper" if widest > 0 else ""
    )
    ways = " or ".join(filter(None, (narrow, "turn the screw's crests down")))
    return f"none: the root would rub on a screw {outside} outside; {ways}"


def _cutting(told: _Told, point: SinglePoint, thread: ThreadDesignation) -> None:
    told.size("pitch", thread.pitch_mm)
    if thread.starts > 1:
        lead = show_both(point.lead_mm, told.unit)
        told.say("lead", f"{lead}; turn {point.index_deg:g}° between starts")
    told.size("depth of cut", point.depth_mm)
    word = "bore" if point.side is Side.INTERNAL else "blank"
    told.say(
        "that depth is",
        f"from a {word} of {show_both(point.from_mm, told.unit)} to a pitch diameter of "
        f"{show_both(point.first_mm, told.unit)}, with this nose; "
        f"never deeper than {limits_both(None, point.depth_most_mm, told.unit).removeprefix('at most ')}",
    )
    if point.nose.flat_mm or not point.nose.radius_mm:
        told.size("tool flat", point.nose.flat_mm)
    else:
        told.size("tool nose radius", point.nose.radius_mm)
    if point.depth_rounded_mm and not point.nose.radius_mm:
        radius, depth = (
            show_both(point.tool_radius_mm, told.unit),
            show_both(point.depth_rounded_mm, told.unit),
        )
        told.say("with a rounded nose", f"radius {radius}, {depth} deep")
    told.say("tool angle", f"{point.tool_angle_deg:g}° included")
    feed = show_both(point.infeed_mm, told.unit)
    told.say("compound", f"{point.compound_deg:g}° from square to the axis; feed {feed} along it")
    governs = "which governs the tool's clearance"
    root = f"{point.lead_angle_root_deg:.2f}°"
    ends = (
        f"at the root {root}, at the bore {point.lead_angle_most_deg:.2f}°, {governs}"
        if point.side is Side.INTERNAL
        else f"at the root {root}, {governs}"
    )
    told.say("lead angle", f"{point.lead_angle_deg:.2f}° at the pitch diameter, {ends}")
    if point.left_hand:
        told.say("left hand", LEFT_HAND)
    _passes(told, point)


def _passes(told: _Told, point: SinglePoint) -> None:
    found = passes(point.depth_mm, first_mm=0.015 * _MM_PER_IN if told.unit == "in" else 0.4)
    depths = [show_length(depth, told.unit, 3 if told.unit == "in" else 2) for depth in found.depths_mm]
    listed = ", ".join(depths[:3]) + (f" … {depths[-1]}" if len(depths) > 3 else "")
    told.say("passes", f"{len(depths)} of equal chip, to {listed} deep, then {found.spring} spring passes")
    told.say(
        "stop and try",
        f"at {show_both(found.stop_mm, told.unit)} deep, after a spring pass; then in by what is still missing",
    )


def _bore(told: _Told, point: SinglePoint, thread: ThreadDesignation, cut: ThreadAsCut) -> None:
    """The drill before boring, and whether the tool goes through."""
    _drill_under(told, point)
    if cut.length_mm is not None:
        bore = cut.start_mm if cut.start_mm is not None else point.start_low_mm
        try:
            room = into_the_bore(
                bore,
                point.depth_most_mm,
                cut.length_mm,
                thread.pitch_mm,
                point.lead_angle_most_deg,
                told.unit,
            )
        except RebuildError as refused:
            told.say("tool through the bore", str(refused))
        else:
            found = room.value
            told.workings.append(room.working)
            told.say(
                "tool through the bore",
                f"bar at most {show_both(found.bar_mm, told.unit)}, reach {found.reach_in_bars:.1f} bars"
                f"{found.reach_words}; end clearance over {found.end_clearance_deg:.0f}°, "
                f"leading flank {found.leading_deg:.0f}°",
            )
            groove = f"{show_both(found.groove_mm, told.unit)} wide to {show_both(found.groove_diameter_mm, told.unit)}"
            told.say("run-out groove, if blind", groove)


def _drill_under(told: _Told, point: SinglePoint) -> None:
    """The largest drill that leaves the boring bar enough, by name."""
    known = drills("inch" if told.unit == "in" else "metric")
    fitting = [one for one in known if one.mm <= point.start_low_mm - _FOR_THE_BAR_MM + 1e-9]
    if fitting:
        left = show_both(point.start_low_mm - fitting[-1].mm, told.unit, 3 if told.unit == "in" else 2)
        told.say("drill before boring", f"{fitting[-1].name}, or under; it leaves {left} in the bore")


def _tap(told: _Told, thread: ThreadDesignation, limits: ThreadLimits, cut: ThreadAsCut) -> None:
    """Whether a tap of the standard may finish it, and its drill; a tap that cuts over the limits is not offered."""
    least, most = limits.pitch_diameter.low_mm, limits.pitch_diameter.high_mm
    if least is None or most is None:
        return
    asked = cut.pitch_mm
    if asked is not None and asked[1] < least + _TAP_ROOM_MM:
        told.say(
            "tap",
            f"none: a standard tap cuts a pitch diameter of {show_both(least, told.unit)} or more, and "
            f"this nut is to be {limits_both(None, asked[1], told.unit)}. Cut it with a single point",
        )
        return
    inside = most - least if asked is None else min(asked[1], most) - max(asked[0], least)
    if inside < _MOST_OF_ITS_BAND * (most - least):
        told.say(
            "tap",
            f"not with a standard tap: it cuts {limits_both(least, most, told.unit)}, and only "
            f"{show_both(max(inside, 0.0), told.unit)} of that lies within these limits. Cut it with a single point",
        )
        return
    unsure = asked is not None and (asked[1] < most or asked[0] > least)
    trial = "; that may pass these limits: measure what it cuts in scrap first" if unsure else ""
    left = show_both(_FOR_THE_TAP_MM, told.unit, 3 if told.unit == "in" else 2)
    told.say(
        "tap",
        f"a standard one may finish it, {left} left: it cuts {limits_both(least, most, told.unit)}{trial}",
    )
    if thread.system in _V_FORMS:
        drill = tap_drill(thread.text)
        told.workings.append(drill.working)
        name = drill.value.choices[0].drill.name
        told.say("tap drill", f"{name}, for a hole of {show_both(drill.value.hole_mm, told.unit)}")


def _prove_nut(
    told: _Told, point: SinglePoint, thread: ThreadDesignation, limits: ThreadLimits, cut: ThreadAsCut
) -> None:
    """The three ways a nut is proved, each with its numbers."""
    best = wires.wire_sizes(thread.system, thread.pitch_mm, limits.basic_pitch_diameter_mm, thread.starts)
    pin = round(best.value.best_mm, 3) if cut.ball_mm is None else cut.ball_mm
    try:
        low, high = (between_balls(end, pin, thread) for end in (point.first_mm, point.last_mm))
    except RebuildError as refused:
        told.say("between two balls", f"not with {show_both(pin, told.unit, _fine(told.unit))}: {refused}")
        _prove_by_plug(told, point, cut)
        return
    told.workings.append(pitch_diameter_between(low.gap_mm, pin, thread).working)
    told.say(
        "between two balls",
        f"or short pins of {show_both(pin, told.unit, _fine(told.unit))}: "
        f"{limits_both(low.gap_mm, high.gap_mm, told.unit)}, {low.rule}",
    )
    if cut.ball_mm is not None:
        told.say("best ball", show_both(round(best.value.best_mm, 3), told.unit, _fine(told.unit)))
    _prove_by_plug(told, point, cut)


def _prove_by_plug(told: _Told, point: SinglePoint, cut: ThreadAsCut) -> None:
    told.say(
        "plug to prove it",
        f"turned first, on a sheet of its own, from a pitch diameter of {show_both(point.first_mm, told.unit)} up",
    )
    shake = f", with the {cut.wanted} wanted between them" if cut.wanted else ""
    told.say(
        "check",
        f"the screw it runs on goes through and turns by hand along its whole length{shake}; it is tightest where the "
        "screw is least worn",
    )


def _over_wires(told: _Told, point: SinglePoint, thread: ThreadDesignation, limits: ThreadLimits) -> None:
    middle = limits.basic_pitch_diameter_mm
    best = wires.wire_sizes(thread.system, thread.pitch_mm, middle, thread.starts)
    wire = best.value.best_mm
    led = "with" if best.value.lead_angle_in_best else "without"
    told.say("best wire", f"{show_both(wire, told.unit, _fine(told.unit))}, {led} the lead angle")
    told.workings.append(best.working)
    reads = []
    for end in sorted((point.first_mm, point.last_mm)):
        over = wires.over_wires(thread.system, end, thread.pitch_mm, wire, thread.starts)
        told.workings.append(over.working)
        reads.append(over.value.over_wires_mm)
    told.say("over three wires", limits_both(reads[0], reads[1], told.unit))


def _fine(unit: str) -> int:
    return 5 if unit == "in" else 4


def _band(band: Band, unit: str) -> str:
    return limits_both(band.low_mm, band.high_mm, unit)
