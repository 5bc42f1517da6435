"""The thread data of a sheet: what to bore or turn, how deep with which nose, passes, wires or pins, and the proof."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from rebuild.errors import BadEntry, RebuildError
from rebuild.trade.making.block import DataBlock, Lines
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Working, joined
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.trade.sizes.show import show_both, show_length
from rebuild.trade.threads import wires
from rebuild.trade.threads.designation import ThreadDesignation, parse_designation
from rebuild.trade.threads.groove import Nose, passes
from rebuild.trade.threads.into_the_bore import into_the_bore
from rebuild.trade.threads.lookup import limits_of
from rebuild.trade.threads.making import SinglePoint, single_point
from rebuild.trade.threads.series import System
from rebuild.trade.threads.sizes import Band, Side, ThreadLimits
from rebuild.trade.threads.taken import HowTaken, reading_for
from rebuild.trade.threads.tap_drill import tap_drill
from rebuild.words.making import PartShape
from rebuild.words.readings import TakenAs

_V_FORMS = (System.UNIFIED, System.METRIC, System.WHITWORTH, System.BA)
_MM_PER_IN = 25.4


@dataclass(frozen=True, slots=True)
class ThreadAsCut:
    """What a sheet says of its thread [mm]; None where it says nothing and the designation stands.

    ``pitch_mm`` are the limits of its pitch diameter and ``suits`` whom they suit; ``start_mm`` the bore or
    outside as made; ``nose`` the tool as ground.
    """

    pitch_mm: tuple[float, float] | None = None
    suits: str = ""
    start_mm: float | None = None
    nose: Nose | None = None
    length_mm: float | None = None


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

    >>> cut = ThreadAsCut(pitch_mm=(0.9277 * 25.4, 0.9302 * 25.4), suits="SC-1")
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
        _prove_nut(told, point.value, thread, limits.value)
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
        _span(point.start_low_mm, point.start_high_mm, unit),
    )
    if cut.start_mm is not None:
        told.size("bored to" if inside else "turned to", cut.start_mm)
    standard = _band(limits.pitch_diameter, unit)
    if cut.pitch_mm is None:
        told.say("pitch diameter", standard)
    else:
        told.say("pitch diameter", f"{_span(*cut.pitch_mm, unit)}, to suit {cut.suits or 'its mate'}")
        plain = show_both(single_point(text, point.side).value.depth_mm, unit)
        told.say("by the standard it would be", f"{standard}, cut {plain} deep; not what this sheet asks for")
    if limits.rounded_root_minor_mm is not None and not inside:
        told.say("core, root rounded", f"at most {show_both(limits.rounded_root_minor_mm, unit)}")
    told.say(
        "root (major diameter)" if inside else "core (minor diameter)",
        _band(limits.major if inside else limits.minor, unit),
    )


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
        f"{show_both(point.first_mm, told.unit)}, with this nose; never deeper than "
        f"{show_both(point.depth_most_mm, told.unit)}",
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
    told.say("lead angle", f"{point.lead_angle_deg:.2f}°, at the root {point.lead_angle_root_deg:.2f}°")
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
    """Whether the tool goes through, and the tap drill where there are taps."""
    if cut.length_mm is not None:
        bore = cut.start_mm if cut.start_mm is not None else point.start_low_mm
        try:
            room = into_the_bore(
                bore, point.depth_most_mm, cut.length_mm, thread.pitch_mm, point.lead_angle_deg, told.unit
            )
        except RebuildError as refused:
            told.say("tool through the bore", str(refused))
        else:
            found = room.value
            told.workings.append(room.working)
            told.say(
                "tool through the bore",
                f"bar at most {show_both(found.bar_mm, told.unit)}, reach {found.reach_in_bars:.1f} bars; end "
                f"clearance over {found.end_clearance_deg:.0f}°, leading flank {found.leading_deg:.0f}°",
            )
            groove = f"{show_both(found.groove_mm, told.unit)} wide to {show_both(found.groove_diameter_mm, told.unit)}"
            told.say("run-out groove, if blind", groove)
    if thread.system in _V_FORMS:
        drill = tap_drill(thread.text)
        told.workings.append(drill.working)
        name = drill.value.choices[0].drill.name
        told.say("tap drill", f"{name}, for a hole of {show_both(drill.value.hole_mm, told.unit)}")


def _prove_nut(told: _Told, point: SinglePoint, thread: ThreadDesignation, limits: ThreadLimits) -> None:
    """The three ways a nut is proved, each with its numbers."""
    best = wires.wire_sizes(thread.system, thread.pitch_mm, limits.basic_pitch_diameter_mm, thread.starts)
    pin = round(best.value.best_mm, 3)
    how = HowTaken(TakenAs.PINS, Size(f"{pin:g}", "mm", pin))
    gaps = [reading_for(end, how, thread.text, "Nut") for end in (point.first_mm, point.last_mm)]
    told.say(
        "between two pins",
        f"of {show_both(pin, told.unit, _fine(told.unit))}: {_span(gaps[0], gaps[1], told.unit)}",
    )
    told.say(
        "plug to prove it",
        f"turned first, on a sheet of its own, to a pitch diameter of {show_both(point.first_mm, told.unit)}",
    )
    told.say("check", "the screw it runs on, at its unworn end; it turns by hand without shake")


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
        reads.append(show_both(over.value.over_wires_mm, told.unit))
    told.say("over three wires", " to ".join(reads))


def _fine(unit: str) -> int:
    return 5 if unit == "in" else 4


def _span(low_mm: float, high_mm: float, unit: str) -> str:
    return f"{show_both(low_mm, unit)} to {show_both(high_mm, unit)}"


def _band(band: Band, unit: str) -> str:
    low, high = band.low_mm, band.high_mm
    if low is not None and high is not None:
        return _span(low, high, unit)
    if low is not None:
        return f"at least {show_both(low, unit)}"
    return f"at most {show_both(high, unit)}" if high is not None else "not limited"
