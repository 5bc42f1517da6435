"""How a thread was measured, as people write it behind the number, and the pitch diameter that number means.

``1.0064 over 0.0645 wires`` is no pitch diameter: it is what a micrometer reads over three wires. Between two
pins in a nut it is the other way about. What is typed is kept; what is compared with anything is the pitch
diameter.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from math import sin, sqrt

from rebuild.errors import BadEntry
from rebuild.trade.limits.uncertainty import Component
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.quantity import FACTORS, Size, parse_length
from rebuild.trade.sizes.show import exact_text, show_length, show_typed
from rebuild.trade.threads import wires
from rebuild.trade.threads.balls import between_balls, pitch_diameter_between
from rebuild.trade.threads.designation import ThreadDesignation, parse_designation
from rebuild.trade.threads.form import form
from rebuild.words.readings import TakenAs

AS_TYPED = Source("size of the wire as it was typed", "half its last digit", Status.COMPUTED)
_BEHIND = re.compile(r"^(?P<value>.*?[\d)\"'a-z;])\s+(?P<how>(?:over|between|by)\b.*)$", re.I | re.S)
_SIZED = re.compile(
    r"^(?P<word>over|between)\s+(?:(?:three|two|3 x|2 x)\s+)?(?P<size>\S.*?)\s*(?P<what>wires?|pins?|balls?)?$",
    re.I,
)
_PLAIN = {
    TakenAs.MICROMETER: ("thread micrometer", "micrometer", "thread mic", "mic"),
    TakenAs.GAUGE: ("thread gauge", "gauge", "gage", "ring", "plug"),
    TakenAs.MATE: ("its mate", "the mate", "mate"),
}
_WAYS = (
    "Write over 0.0645 wires, between 2 mm pins, by thread micrometer, by thread gauge or by its mate "
    "behind the number."
)


@dataclass(frozen=True, slots=True)
class HowTaken:
    """The way a thread was measured; ``wire`` is the wire or pin it lay on, where there is one."""

    way: TakenAs
    wire: Size | None = None

    @property
    def words(self) -> str:
        """As it is written behind a number, its unit in it: ``over 0.0645 in wires``."""
        if self.wire is None:
            return self.way.value
        size = f"{exact_text(self.wire.mm, self.wire.unit)} {self.wire.unit}"
        return f"over {size} wires" if self.way is TakenAs.WIRES else f"between {size} pins"


def split_taken(typed: str) -> tuple[str, str]:
    """The number and what is written behind it of how it was taken.

    >>> split_taken("1.0064 over 0.0645 wires"), split_taken("24.98; 24.99")
    (('1.0064', 'over 0.0645 wires'), ('24.98; 24.99', ''))
    """
    found = _BEHIND.match(typed.strip())
    return (found["value"].strip(), found["how"].strip()) if found else (typed.strip(), "")


@lru_cache(maxsize=512)
def read_how(text: str, unit: str, decimal_comma: bool | None = None) -> HowTaken | None:
    """How a reading was taken, or None when nothing is said.

    Args:
        text: ``over 0.0645 wires``, ``between 2 mm pins``, ``by thread micrometer``.
        unit: of a wire typed without one.

    Raises:
        BadEntry: not a way a thread is measured, or a wire that is no size.

    >>> read_how("over 0.0645 wires", "in").words, read_how("by mic", "in").way.value
    ('over 0.0645 in wires', 'by thread micrometer')
    """
    plain = " ".join(text.split())
    if not plain:
        return None
    for way, names in _PLAIN.items():
        if plain.lower().removeprefix("by ").strip() in names:
            return HowTaken(way)
    sized = _SIZED.match(plain)
    if sized is None:
        raise BadEntry("is no way a thread is measured.", where="How taken", value=text, way_out=_WAYS)
    size = parse_length(sized["size"], unit, "Wire", decimal_comma=decimal_comma)
    if size.mm <= 0:
        raise BadEntry("must be more than zero.", where="Wire", value=sized["size"], way_out=_WAYS)
    return HowTaken(TakenAs.WIRES if sized["word"].lower() == "over" else TakenAs.PINS, size)


def thread_named(designation: str, how: HowTaken, where: str) -> ThreadDesignation:
    """The thread a reading is converted by.

    Raises:
        BadEntry: none is written on the feature, or it is no designation.

    >>> thread_named("1-8 ACME", HowTaken(TakenAs.MATE), "Thread").pitch_mm
    3.175
    """
    if not designation.strip():
        raise BadEntry(
            f"names no thread, so a reading {how.words} cannot be turned into its pitch diameter.",
            where=where,
            way_out="Write the thread on the feature first, e.g. 1-8 ACME or Tr 20x4.",
        )
    return parse_designation(designation)


def pitch_diameter_of(raw_mm: float, how: HowTaken, designation: str, where: str) -> Worked[float]:
    """The pitch diameter [mm] a reading means.

    Args:
        raw_mm: what was read [mm].
        designation: the thread written on the feature.

    Raises:
        BadEntry, OutOfRange: no thread, a wire that does not suit it, a reading too small for it.

    >>> found = pitch_diameter_of(1.0064 * 25.4, read_how("over 0.0645 wires", "in"), "1-8 ACME", "Screw")
    >>> round(found.value / 25.4, 4)
    0.9257
    """
    sheet = Sheet(f"Pitch diameter from a reading {how.words}")
    if how.wire is None:
        sheet.read("pitch diameter", f"{raw_mm:.4f} mm, {how.words}")
        return Worked(raw_mm, sheet.close())
    thread = thread_named(designation, how, where)
    if how.way is TakenAs.PINS:
        between = pitch_diameter_between(raw_mm, how.wire.mm, thread)
        return Worked(between.value.pitch_diameter_mm, between.working)
    found = wires.pitch_diameter(thread.system, raw_mm, thread.pitch_mm, how.wire.mm, thread.starts)
    return Worked(found.value.pitch_diameter_mm, found.working)


def reading_for(pitch_diameter_mm: float, how: HowTaken, designation: str, where: str) -> float:
    """What must be read, taken that way, when the pitch diameter is this [mm]; the way back.

    >>> how = read_how("between 0.0645 pins", "in")
    >>> gap = reading_for(0.9375 * 25.4, how, "1-8 ACME", "Nut")
    >>> round(pitch_diameter_of(gap, how, "1-8 ACME", "Nut").value / 25.4, 6)
    0.9375
    """
    if how.wire is None:
        return pitch_diameter_mm
    thread = thread_named(designation, how, where)
    if how.way is TakenAs.PINS:
        return between_balls(pitch_diameter_mm, how.wire.mm, thread).gap_mm
    found = wires.over_wires(thread.system, pitch_diameter_mm, thread.pitch_mm, how.wire.mm, thread.starts)
    return found.value.over_wires_mm


def wire_component(how: HowTaken, designation: str) -> Component | None:
    """What the wire's own size adds to the uncertainty: it is known to half its last digit, times 1 + cosec a.

    A wire written 0.0645 in may be 0.00005 in off; on an Acme thread that is 0.00025 in of pitch diameter.

    >>> round(wire_component(read_how("over 0.0645 wires", "in"), "1-8 ACME").u_mm / 25.4, 6)
    0.000144
    """
    if how.wire is None:
        return None
    a = form(parse_designation(designation).system).half_rad
    half_digit = _half_last_digit(how.wire)
    times = 1 + 1 / sin(a)
    return Component(
        "wire",
        half_digit * times / sqrt(3),
        float("inf"),
        f"{half_digit * 1000:.3g} µm x (1 + cosec a = {times:.3f})/√3",
        AS_TYPED,
    )


def _half_last_digit(wire: Size) -> float:
    decimals = len(exact_text(wire.mm, wire.unit).partition(".")[2])
    return 0.5 * 10.0**-decimals * FACTORS[wire.unit]


def shown(size: Size, repeats: int, how: str, read_mm: float | None) -> str:
    """A reading as lists say it: as typed; of repeats the mean; over wires the pitch diameter with what was read.

    ``size`` holds the text typed, its unit and the value [mm]; ``how`` what is stored of how it was taken.

    >>> shown(Size("1.0064", "in", 23.5121), 1, "over 0.0645 in wires", 1.0064 * 25.4)
    '0.9257 in (1.0064 in over 0.0645 in wires)'
    >>> shown(Size("24.98", "mm", 24.98), 1, "", None)
    '24.98 mm'
    """
    if read_mm is not None:
        many = f", mean of {repeats}" if repeats > 1 else ""
        return f"{show_length(size.mm, size.unit)} ({show_length(read_mm, size.unit)} {how}{many})"
    behind = f" {how}" if how else ""
    if repeats > 1:
        return f"{show_length(size.mm, size.unit)} (mean of {repeats}){behind}"
    return f"{show_typed(size, size.unit)}{behind}"
