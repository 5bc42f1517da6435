"""Holes on a circle: their coordinates from its centre and from a corner, and the chord between neighbours."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, radians, sin

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, own_unit, said

RULE = Source("Geometry of a circle", "x = R cos φ, y = R sin φ; chord 2 R sin(180°/n)", Status.COMPUTED)
MOST_HOLES = 200


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole's place [mm] and angle [deg] from the x axis, counter-clockwise."""

    number: int
    x_mm: float
    y_mm: float
    angle_deg: float


@dataclass(frozen=True, slots=True)
class HoleCircle:
    """The holes and the distance of neighbours [mm]."""

    holes: tuple[Hole, ...]
    chord_mm: float


@door()
def hole_circle(
    circle_mm: float, holes: int, first_deg: float = 0.0, centre_x_mm: float = 0.0, centre_y_mm: float = 0.0
) -> Worked[HoleCircle]:
    """Coordinates of equally spaced holes.

    Args:
        circle_mm: pitch circle.
        holes: how many.
        first_deg: angle of the first from the x axis, counter-clockwise.
        centre_x_mm: centre of the circle from the datum.
        centre_y_mm: the same along y.

    Raises:
        BadEntry: a circle not above zero.
        OutOfRange: holes outside 1 to 200.

    >>> [round(one.y_mm, 3) for one in hole_circle(100.0, 4).value.holes]
    [0.0, 50.0, 0.0, -50.0]
    """
    if not circle_mm > 0:
        raise BadEntry("is not above zero.", where="Pitch circle", value=said(circle_mm))
    if not 1 <= holes <= MOST_HOLES:
        raise OutOfRange(f"is outside 1 to {MOST_HOLES}.", where="Holes", value=str(holes))
    radius = circle_mm / 2
    chord = circle_mm * sin(pi / holes)
    sheet = Sheet(f"{holes} holes on a circle of {both(circle_mm)}")
    sheet.equation("chord", f"{num(circle_mm):.6g} × sin(180° / {holes}) = {both(chord, 4)}", RULE)
    made = []
    for at in range(holes):
        turned = 360.0 * at / holes + first_deg
        x, y = centre_x_mm + radius * cos(radians(turned)), centre_y_mm + radius * sin(radians(turned))
        angle = turned % 360.0
        made.append(Hole(at + 1, x + 0.0, y + 0.0, angle))
        sheet.equation(f"hole {at + 1}", f"{angle:.4f}°: x {num(x):.4f}, y {num(y):.4f} {own_unit()}")
    sheet.note("Check with a rule or caliper between neighbours before drilling: the chord finds a slip.")
    return Worked(HoleCircle(tuple(made), chord), sheet.close())
