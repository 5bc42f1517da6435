"""A thread's groove as a tool of a given nose cuts it: depth from the surface as it is, to the pitch diameter wanted.

A tool of included angle 2a whose nose is a flat f wide leaves, y above its nose, a groove f + 2 y tan a wide.
The pitch line lies where that is half the pitch, so the nose must go

    y = (P/2 - f) / (2 tan a)

below it. A nose rounded to r reaches r (cosec a - 1) less deep than the sharp corner, so there

    y = P / (4 tan a) - r (cosec a - 1).

From a blank of diameter D to a pitch diameter E the depth is (D - E)/2 + y; in a nut bored to B it is
(E - B)/2 + y. Depth, nose, blank and pitch diameter belong together: none can be taken from elsewhere.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, radians, sin, sqrt, tan

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Source, Status
from rebuild.trade.sizes.given import number_of, whole_of
from rebuild.trade.sizes.own_unit import said

GEOMETRY = Source(
    "geometry of the groove", "y = (P/2 - f)/(2 tan a), or P/(4 tan a) - r (cosec a - 1)", Status.COMPUTED
)
PASSES = Source("Lathe threading", "each pass takes the same area of chip", Status.COMMON_PRACTICE)


@dataclass(frozen=True, slots=True)
class Nose:
    """The tool's nose as ground [mm]: a flat, or a radius."""

    flat_mm: float = 0.0
    radius_mm: float = 0.0


@door()
def below_pitch_line(nose: Nose, pitch_mm: float, included_deg: float) -> float:
    """How far the nose lies below the pitch line [mm].

    Raises:
        OutOfRange: a nose so wide that it cannot reach the pitch line's width.

    >>> round(below_pitch_line(Nose(flat_mm=0.125), 1.0, 60), 6), round(below_pitch_line(Nose(), 1.0, 60), 6)
    (0.32476, 0.433013)
    """
    half = radians(included_deg / 2)
    sharp = pitch_mm / (4 * tan(half))
    y = sharp - nose.flat_mm / (2 * tan(half)) - nose.radius_mm * (1 / sin(half) - 1)
    if y <= 0:
        wide = max(nose.flat_mm, nose.radius_mm)
        raise OutOfRange(
            f"is too wide for a pitch of {said(pitch_mm, 4)}: it would fill the groove at the pitch line.",
            where="Tool nose",
            value=said(wide, 4),
            way_out=f"Grind it: a flat is less than {said(pitch_mm / 2, 4)}.",
        )
    return y


@door()
def depth_to(
    start_mm: float,
    pitch_diameter_mm: float,
    nose: Nose,
    pitch_mm: float,
    included_deg: float,
    *,
    external: bool,
) -> float:
    """Radial depth from the surface as it is to the pitch diameter [mm].

    Raises:
        BadEntry: the pitch diameter lies beyond the surface, so there is nothing to cut from.
        OutOfRange: more than a pitch of metal lies over the pitch diameter: no thread's crest is so high.

    >>> # 1/2-13: blank 0.4985, pitch diameter 0.4485, sharp tool with P/8 flat: 0.0250 + 0.0250
    >>> P = 25.4 / 13
    >>> round(depth_to(0.4985 * 25.4, 0.4485 * 25.4, Nose(P / 8), P, 60, external=True) / 25.4, 4)
    0.05
    """
    rise = (start_mm - pitch_diameter_mm) / 2 * (1 if external else -1)
    depth = rise + below_pitch_line(nose, pitch_mm, included_deg)
    if depth <= 0 or rise <= 0:
        word = "outside" if external else "bore"
        raise BadEntry(
            f"does not leave room for a pitch diameter of {said(pitch_diameter_mm)}.",
            where=f"The {word} as made",
            value=said(start_mm),
            way_out="Measure it again, or check that both sizes are of this thread.",
        )
    if rise > pitch_mm:
        raise OutOfRange(
            f"leaves {said(rise)} over a pitch diameter of {said(pitch_diameter_mm)}, more than the pitch, "
            f"{said(pitch_mm)}: no thread stands so high.",
            where=f"The {'outside' if external else 'bore'} as made",
            value=said(start_mm),
            way_out=f"{'Turn' if external else 'Bore'} it to size first, or check the unit it was typed in.",
        )
    return depth


@door()
def pitch_diameter_at(
    start_mm: float, depth_mm: float, nose: Nose, pitch_mm: float, included_deg: float, *, external: bool
) -> float:
    """The pitch diameter that depth leaves [mm]; the way back of ``depth_to``.

    >>> P = 25.4 / 13
    >>> nose = Nose(radius_mm=0.14434 * P)
    >>> round(pitch_diameter_at(0.4985 * 25.4, 0.0472 * 25.4, nose, P, 60, external=True) / 25.4, 4)
    0.4485
    """
    y = below_pitch_line(nose, pitch_mm, included_deg)
    sign = 1 if external else -1
    return start_mm - sign * 2 * (depth_mm - y)


@dataclass(frozen=True, slots=True)
class Passes:
    """Depths reached by each pass [mm], then spring passes; ``stop_mm`` is where to stop and measure."""

    depths_mm: tuple[float, ...]
    spring: int
    stop_mm: float


#: Left before the first trial [mm of depth].
LEAVE_MM = 0.05
_SPRING = 2
#: The deepest thread there is, of 44 mm pitch, takes 8,000; beyond it the depth is wrong, and memory runs out.
MOST_PASSES = 40_000


@door()
def passes(depth_mm: float, first_mm: float = 0.25, *, spring: int = _SPRING) -> Passes:
    """Depths for passes of equal chip area, the k-th of n reaching depth x sqrt(k/n).

    Raises:
        OutOfRange: so deep for that first pass that there would be more than ``MOST_PASSES``.

    >>> found = passes(1.0, 0.5)
    >>> [round(depth, 3) for depth in found.depths_mm], found.spring, round(found.stop_mm, 2)
    ([0.5, 0.707, 0.866, 1.0], 2, 0.95)
    """
    depth_mm, first_mm = number_of("Depth", depth_mm, above=0), number_of("First pass", first_mm, above=0)
    spring = whole_of("Spring passes", spring, least=0)
    count = max(1, ceil((depth_mm / first_mm) ** 2 - 1e-9))
    if count > MOST_PASSES:
        raise OutOfRange(
            f"takes {count:,} passes when the first is {said(first_mm)} deep.",
            where="Depth",
            value=said(depth_mm),
            way_out="Check the depth, or begin with a deeper pass.",
        )
    depths = tuple(depth_mm * sqrt(k / count) for k in range(1, count + 1))
    return Passes(depths, spring, max(depth_mm - LEAVE_MM, depth_mm / 2))
