"""Turned profiles: a contour of (place along the axis, radius) mirrored about the axis, whole or in section."""

from __future__ import annotations

import math
from collections.abc import Sequence

from rebuild.errors import BadEntry
from rebuild.trade.drawing.ink import Arc, Draft, Layer, Point, Region, Side
from rebuild.trade.drawing.measure import Measure, short_number
from rebuild.trade.sizes.show import show_both

#: A wall thinner than this is held to be a slip of typing [mm]; see ``rebuild.trade.bearings.bushes``.
LEAST_WALL_MM = 0.5
Contour = Sequence[Point]


def cylinder(x0: float, x1: float, diameter: float, left: float = 0.0, right: float = 0.0) -> list[Point]:
    """A plain step with a 45° chamfer of ``left`` and ``right`` at its ends.

    >>> cylinder(0, 10, 8, 1)
    [(0, 3.0), (1, 4.0), (10, 4.0)]
    """
    return chamfered(x0, x1, diameter, (left, left), (right, right))


def chamfered(
    x0: float, x1: float, diameter: float, left: tuple[float, float], right: tuple[float, float]
) -> list[Point]:
    """A step whose chamfers are given as (along the axis, in radius).

    >>> chamfered(0, 10, 8, (0, 0), (2, 0.5))
    [(0, 4.0), (8, 4.0), (10, 3.5)]
    """
    r = diameter / 2
    points: list[Point] = []
    if left[0] > 0:
        points += [(x0, r - left[1]), (x0 + left[0], r)]
    else:
        points.append((x0, r))
    if right[0] > 0:
        points += [(x1 - right[0], r), (x1, r - right[1])]
    else:
        points.append((x1, r))
    return points


def solid(draft: Draft, contour: Contour, *, smooth: bool = False) -> None:
    """Draw a contour whole: both sides, both ends, and every edge that shows.

    >>> draft = Draft("Pin")
    >>> solid(draft, cylinder(0, 10, 8))
    >>> draft.close().bounds
    (0, -4.0, 10, 4.0)
    """
    _mirror(draft, Layer.OUTLINE, contour)
    ends = (contour[0], contour[-1])
    corners = [] if smooth else _corners(contour)
    for x, r in {*ends, *corners}:
        draft.line(Layer.OUTLINE, (x, -r), (x, r))


def section(draft: Draft, outer: Contour, inner: Contour) -> None:
    """Draw a ring in full section: both cuts hatched, the edges of the bore showing behind.

    >>> draft = Draft("Ring")
    >>> section(draft, cylinder(0, 10, 8), cylinder(0, 10, 4))
    >>> len(draft.regions), draft.close().bounds
    (2, (0, -4.0, 10, 4.0))
    """
    _mirror(draft, Layer.OUTLINE, outer)
    _mirror(draft, Layer.OUTLINE, inner)
    for end in (0, -1):
        draft.line(Layer.OUTLINE, (outer[end][0], -outer[end][1]), (outer[end][0], outer[end][1]))
    for x, r in _corners(inner):
        draft.line(Layer.OUTLINE, (x, -r), (x, r))
    loop = (*outer, *reversed(inner))
    draft.regions.append(Region(loop))
    draft.regions.append(Region(tuple((x, -r) for x, r in loop)))


def axis(draft: Draft, x0: float, x1: float, y: float = 0.0) -> None:
    """The centre line, a little longer than the part.

    >>> draft = Draft("Pin")
    >>> axis(draft, 0, 100)
    >>> draft.close().bounds
    (-4.5, 0.0, 104.5, 0.0)
    """
    beyond = 0.04 * (x1 - x0) + 0.5
    draft.line(Layer.CENTRE, (x0 - beyond, y), (x1 + beyond, y))


def thread_lines(draft: Draft, x0: float, x1: float, diameter: float) -> None:
    """The thin lines of a thread, both sides.

    >>> draft = Draft("Screw")
    >>> thread_lines(draft, 0, 30, 8.5)
    >>> [stroke.points()[0] for stroke in draft.strokes]
    [(0, 4.25), (0, -4.25)]
    """
    for y in (diameter / 2, -diameter / 2):
        draft.line(Layer.THREAD, (x0, y), (x1, y))


def bow(draft: Draft, neck: Point, belly: Point, end: Point) -> None:
    """A barrel-shaped run as two arcs that meet level at the belly, both sides of the axis.

    >>> draft = Draft("Handle")
    >>> bow(draft, (0, 6), (30, 12), (50, 8))
    >>> round(draft.close().bounds[3], 6), len(draft.strokes)
    (12.0, 4)
    """
    for one, other in ((neck, belly), (belly, end)):
        low = one if one[1] < other[1] else other
        rise = belly[1] - low[1]
        run = abs(other[0] - one[0])
        if rise < 1e-6:
            draft.line(Layer.OUTLINE, one, other)
            draft.line(Layer.OUTLINE, (one[0], -one[1]), (other[0], -other[1]))
            continue
        radius = (run**2 + rise**2) / (2 * rise)
        centre = (belly[0], belly[1] - radius)
        angle = math.degrees(math.atan2(low[1] - centre[1], low[0] - centre[0]))
        start, stop = sorted((angle, 90.0))
        draft.strokes.append(Arc(Layer.OUTLINE, centre, radius, start, stop))
        draft.strokes.append(Arc(Layer.OUTLINE, (centre[0], -centre[1]), radius, -stop, -start))


def note_chamfers(draft: Draft, at: Point, chamfer_mm: float, unit: str) -> None:
    """The words for a chamfer that both ends of a part have; none where there is no chamfer.

    >>> draft = Draft("Pin")
    >>> note_chamfers(draft, (30.0, 2.5), 0.5, "mm")
    >>> draft.notes[0].lines
    ('0.5 × 45°, both ends',)
    """
    if chamfer_mm:
        draft.note(at, f"{short_number(chamfer_mm, unit)} × 45°, both ends")


def wall_hole(draft: Draft, place: float, hole_mm: float, inside_mm: float, outside_mm: float) -> None:
    """The two sides of a hole drilled through the upper wall of a ring, at ``place`` along its axis.

    >>> draft = Draft("Ring")
    >>> wall_hole(draft, 10.0, 4.0, 20.0, 30.0)
    >>> draft.close().bounds
    (8.0, 10.0, 12.0, 15.0)
    """
    for x in (place - hole_mm / 2, place + hole_mm / 2):
        draft.line(Layer.OUTLINE, (x, inside_mm / 2), (x, outside_mm / 2))


def flange_sizes(draft: Draft, flange: Measure, thickness: Measure) -> None:
    """The two sizes of a flange that stands at the left end of a part.

    >>> draft = Draft("Bush")
    >>> flange_sizes(draft, Measure("flange diameter", 40.0), Measure("flange thickness", 5.0))
    >>> [dimension.measured_mm for dimension in draft.dimensions]
    [40.0, 5.0]
    """
    draft.across("flange diameter", flange, 0.0, Side.LEFT)
    draft.along("flange thickness", thickness, 0, thickness.at_mm, flange.at_mm / 2, Side.TOP)


def refuse_thin_wall(outside_mm: float, inside_mm: float, what: str, unit: str) -> None:
    """Raise BadEntry when a hole leaves no wall worth the name.

    >>> refuse_thin_wall(20.0, 18.0, "Bore", "mm")
    >>> refuse_thin_wall(20.0, 19.5, "Bore", "mm")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    rebuild.errors.BadEntry: Bore: “19.500 mm (0.7677 in)” leaves a wall of 0.250 mm...
    """
    wall = (outside_mm - inside_mm) / 2
    if wall < LEAST_WALL_MM:
        raise BadEntry(
            f"leaves a wall of {show_both(wall, unit)} inside {show_both(outside_mm, unit)}: "
            f"at least {LEAST_WALL_MM:g} mm is wanted.",
            where=what,
            value=show_both(inside_mm, unit),
            way_out="Mend one of the two sizes, or bore the housing out.",
        )


def refuse_longer(inside_mm: float, whole_mm: float, what: str, whole: str, unit: str) -> None:
    """Raise BadEntry when a length does not fit into the length it is part of.

    >>> refuse_longer(5.0, 40.0, "Chamfer", "length", "mm")
    >>> refuse_longer(50.0, 40.0, "Chamfer", "length", "mm")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    rebuild.errors.BadEntry: Chamfer: “50.000 mm (1.9685 in)” is longer than the length of 40.000 mm...
    """
    if inside_mm > whole_mm + 1e-9:
        raise BadEntry(
            f"is longer than the {whole} of {show_both(whole_mm, unit)}.",
            where=what,
            value=show_both(inside_mm, unit),
            way_out="Mend one of the two.",
        )


def _mirror(draft: Draft, layer: Layer, contour: Contour) -> None:
    draft.run(layer, contour)
    draft.run(layer, [(x, -r) for x, r in contour])


def _corners(contour: Contour) -> list[Point]:
    """Where the contour turns: at a shoulder the larger radius shows."""
    found: dict[float, float] = {}
    for before, here, after in zip(contour, contour[1:], contour[2:], strict=False):
        turn = (here[0] - before[0]) * (after[1] - here[1]) - (here[1] - before[1]) * (after[0] - here[0])
        if abs(turn) > 1e-12:
            found[here[0]] = max(found.get(here[0], 0.0), here[1])
    return list(found.items())
