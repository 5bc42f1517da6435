"""Straightness of a line of heights: by its ends, by least squares, and by the minimum zone (exact).

ISO 12780-1:2011 and ISO 230-1:2012, 3.4 name the three reference lines (from memory). The minimum zone is found on the
convex hull: the narrowest band of two parallel lines, measured square to the line of travel, always has one of its
lines along a hull edge, so the search over edges is exact. It is never wider than the other two; which of those two
is the wider depends on the profile.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from rebuild.errors import BadEntry
from rebuild.trade.geometry.steps import Heights
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import said

REFERENCES = Source("ISO 12780-1:2011", "reference lines of straightness", Status.FROM_MEMORY)
#: Heights closer than this are the same [mm].
SAME_MM = 1e-9


class Reference(StrEnum):
    """The line that heights are compared with."""

    ENDS = "line through the ends"
    LEAST_SQUARES = "least-squares line"
    MINIMUM_ZONE = "minimum zone"


class Shape(StrEnum):
    """How a line bows, seen from the line through its ends."""

    STRAIGHT = "straight"
    CONVEX = "convex"
    CONCAVE = "concave"
    WAVY = "wavy"


@dataclass(frozen=True, slots=True)
class Straightness:
    """Residuals from a reference line [mm] and their span; ``shape`` is about the line through the ends."""

    reference: Reference
    slope: float
    start_mm: float
    residual_mm: tuple[float, ...]
    deviation_mm: float
    shape: Shape
    to_remove_mm: tuple[float, ...]


@door()
def straightness(line: Heights, reference: Reference = Reference.MINIMUM_ZONE) -> Worked[Straightness]:
    """Set a line of heights against one reference.

    Raises:
        BadEntry: fewer than three stations, or stations that do not rise.

    >>> found = straightness(Heights((0, 1, 2), (0.0, 0.002, 0.0))).value
    >>> round(found.deviation_mm, 6), found.shape.value
    (0.002, 'convex')
    """
    _refuse(line)
    slope, start = _LINES[reference](line.at_mm, line.height_mm)
    residual = _about(line, slope, start)
    if reference is Reference.MINIMUM_ZONE:
        middle = (max(residual) + min(residual)) / 2
        start += middle
        residual = [value - middle for value in residual]
    low = min(residual)
    span = max(residual) - low
    shape = _shape(line)
    sheet = Sheet(f"Straightness by the {reference.value}")
    sheet.read("stations", f"{len(line.at_mm)} over {line.at_mm[-1] - line.at_mm[0]:g} mm")
    sheet.equation("reference", f"{start * 1000:+.3f} µm {slope * 1e6:+.3f} µm/m · x", REFERENCES)
    high_at, low_at = residual.index(max(residual)), residual.index(low)
    sheet.result(
        "deviation",
        f"{span * 1000:.3f} µm, highest at station {high_at + 1}, lowest at station {low_at + 1}; {shape.value}",
    )
    return Worked(
        Straightness(
            reference, slope, start, tuple(residual), span, shape, tuple(value - low for value in residual)
        ),
        sheet.close(),
    )


def _refuse(line: Heights) -> None:
    if len(line.at_mm) < 3 or len(line.at_mm) != len(line.height_mm):
        raise BadEntry(
            f"has {len(line.height_mm)} heights at {len(line.at_mm)} stations; straightness needs three or more.",
            where="Line",
            way_out="Take more stations.",
        )
    for at, (here, there) in enumerate(zip(line.at_mm, line.at_mm[1:], strict=False)):
        if not there > here:
            raise BadEntry(
                f"lies at {said(there)}, not beyond station {at + 1} at {said(here)}.",
                where=f"Station {at + 2}",
                way_out="Put the stations in order along the line.",
            )


def _about(line: Heights, slope: float, start: float) -> list[float]:
    return [height - start - slope * at for at, height in zip(line.at_mm, line.height_mm, strict=True)]


@door()
def ends_line(x: Sequence[float], y: Sequence[float]) -> tuple[float, float]:
    """Slope and start of the line through first and last point.

    >>> ends_line((0, 1, 2), (1, 0, 5))
    (2.0, 1.0)
    """
    slope = (y[-1] - y[0]) / (x[-1] - x[0])
    return slope, y[0] - slope * x[0]


@door()
def least_squares_line(x: Sequence[float], y: Sequence[float]) -> tuple[float, float]:
    """Slope and start of the least-squares line.

    >>> [round(value, 6) for value in least_squares_line((0, 1, 2, 3), (0, 1, 1, 2))]  # Sxy/Sxx = 3/5
    [0.6, 0.1]
    """
    middle_x, middle_y = sum(x) / len(x), sum(y) / len(y)
    spread = sum((value - middle_x) ** 2 for value in x)
    slope = sum((a - middle_x) * (b - middle_y) for a, b in zip(x, y, strict=True)) / spread
    return slope, middle_y - slope * middle_x


@door()
def minimum_zone_line(x: Sequence[float], y: Sequence[float]) -> tuple[float, float]:
    """Slope of the narrowest band, and the start of its lower line.

    >>> minimum_zone_line((0, 1, 2), (0.0, 1.0, 0.0))
    (0.0, 0.0)
    """
    lower, upper = _hull(x, y, 1.0), _hull(x, y, -1.0)
    best: tuple[float, float, float] | None = None
    for edge, other in ((lower, upper), (upper, lower)):
        for first, second in itertools.pairwise(edge):
            slope = (y[second] - y[first]) / (x[second] - x[first])
            starts = [y[first] - slope * x[first], *(y[at] - slope * x[at] for at in other)]
            width = max(starts) - min(starts)
            if best is None or width < best[0] - 1e-15:
                best = (width, slope, min(starts))
    assert best is not None
    return best[1], best[2]


def _hull(x: Sequence[float], y: Sequence[float], side: float) -> list[int]:
    """Indices of the lower (side 1) or upper (side -1) convex hull, left to right."""
    found: list[int] = []
    for at in range(len(x)):
        while len(found) > 1 and side * _turn(x, y, found[-2], found[-1], at) <= 0:
            found.pop()
        found.append(at)
    return found


def _turn(x: Sequence[float], y: Sequence[float], a: int, b: int, c: int) -> float:
    return (x[b] - x[a]) * (y[c] - y[a]) - (y[b] - y[a]) * (x[c] - x[a])


_LINES = {
    Reference.ENDS: ends_line,
    Reference.LEAST_SQUARES: least_squares_line,
    Reference.MINIMUM_ZONE: minimum_zone_line,
}


def _shape(line: Heights) -> Shape:
    slope, start = ends_line(line.at_mm, line.height_mm)
    residual = _about(line, slope, start)
    above, below = max(residual) > SAME_MM, min(residual) < -SAME_MM
    if above and below:
        return Shape.WAVY
    return Shape.CONVEX if above else Shape.CONCAVE if below else Shape.STRAIGHT


@door()
def twist_mm_per_m(cross_level_um_per_m: Sequence[float], at_mm: Sequence[float]) -> Worked[float]:
    """Twist between two ways from a level laid across them at stations: span of its readings [mm/m].

    Raises:
        BadEntry: fewer than two stations.

    >>> twist_mm_per_m([10, -10], [0, 1000]).value
    0.02
    """
    if len(cross_level_um_per_m) < 2 or len(cross_level_um_per_m) != len(at_mm):
        raise BadEntry(
            "needs two stations or more.", where="Twist", way_out="Read the level at each end at least."
        )
    span = max(cross_level_um_per_m) - min(cross_level_um_per_m)
    sheet = Sheet("Twist between the ways")
    sheet.equation("span of the cross level", f"{span:.1f} µm/m over {at_mm[-1] - at_mm[0]:g} mm of length")
    sheet.note(
        "The level need not read zero: the purpose is to take the twist out, not to make the bed horizontal."
    )
    return Worked(span / 1000, sheet.close())
