"""Whether the three diameters of one thread can belong together: minor below pitch below major, with flank left."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.trade.sizes.given import word_of
from rebuild.trade.sizes.show import show_both
from rebuild.trade.threads.designation import parse_designation
from rebuild.trade.threads.lookup import limits_of
from rebuild.trade.threads.sizes import Side


@dataclass(frozen=True, slots=True)
class PitchRoom:
    """Where the pitch diameter of a thread can lie at all [mm], worn or cut large."""

    thread: str
    low_mm: float
    high_mm: float


def pitch_room(designation: str) -> PitchRoom:
    """From the basic minor diameter, where no flank is left, to halfway between pitch line and crest.

    A micrometer laid over the crests, or over wires, reads above that. Common practice, no source.

    Raises:
        BadEntry, Ambiguous, OutOfRange: as ``lookup.limits_of``.

    >>> room = pitch_room("1-8 ACME")  # basic 1.0000, 0.9375, 0.8750
    >>> round(room.low_mm / 25.4, 4), round(room.high_mm / 25.4, 5)
    (0.875, 0.96875)
    """
    thread = parse_designation(designation)
    basic = limits_of(thread, Side.EXTERNAL).value.basic_pitch_diameter_mm
    return PitchRoom(thread.name, 2 * basic - thread.nominal_mm, (basic + thread.nominal_mm) / 2)


Ends = tuple[float | None, float | None]


def nesting_trouble(designation: str, side: Side | str, pitch: Ends, crest: Ends, unit: str = "mm") -> str:
    """Why these limits cannot be those of one thread, in a sentence; empty when they can.

    Args:
        side: screw or nut.
        pitch: low and high of its pitch diameter [mm].
        crest: low and high of its crests: a screw's major diameter, a nut's bore [mm]; Nones where not known.

    Raises:
        BadEntry, Ambiguous, OutOfRange: as ``lookup.limits_of``.

    >>> inch = lambda *ends: tuple(end * 25.4 for end in ends)
    >>> nesting_trouble("1-8 ACME", "internal", inch(0.9277, 0.9302), inch(0.875, 0.8813), "in")
    ''
    >>> nesting_trouble("1-8 ACME", "internal", inch(1.0084, 1.0109), (None, None), "in").split(" (")[0]
    'a pitch diameter of 1.0084 in'
    """
    part = word_of("Side", side, Side)
    room = pitch_room(designation)
    for end in pitch:
        if end is not None and not room.low_mm <= end <= room.high_mm:
            return (
                f"a pitch diameter of {show_both(end, unit)} cannot be cut on {room.thread}, whose pitch line lies "
                f"between {show_both(room.low_mm, unit)} and {show_both(room.high_mm, unit)}"
            )
    inner, outer = (crest, pitch) if part is Side.INTERNAL else (pitch, crest)
    if inner[1] is not None and outer[0] is not None and inner[1] >= outer[0]:
        names = ("the bore", "the pitch diameter")
        first, second = names if part is Side.INTERNAL else ("the pitch diameter", "the outside")
        return f"{first} may be {show_both(inner[1], unit)}, and {second} only {show_both(outer[0], unit)}"
    return ""
