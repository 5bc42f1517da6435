"""Three wires on a screw with its lead angle: the thread taken as an involute helicoid.

The same exact geometry as pins over a helical gear whose teeth are the starts of the screw. In the plane
square to the axis the flank is an involute of a base circle; the wire's centre lies where the involutes of
the two flanks, moved out by the wire, meet. Lengths are in one unit, angles in radians.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, cos, hypot, pi, tan

from rebuild.trade.sizes.given import number_of, whole_of


@dataclass(frozen=True, slots=True)
class Helicoid:
    """A screw flank seen square to its axis: pressure angle at the pitch circle, base radius and angle."""

    pitch_diameter: float
    starts: int
    half_rad: float
    lead_angle: float
    transverse: float
    base_radius: float
    base_helix: float
    groove: (
        float  # half the groove at the pitch circle, as an angle round the axis, from the thread thickness
    )


def helicoid(
    pitch_diameter: float, pitch: float, starts: int, half_rad: float, thickness: float | None = None
) -> Helicoid:
    """The helicoid of a thread whose flank makes ``half_rad`` in the plane through the axis.

    ``thickness`` is that of the thread at ``pitch_diameter``, along the axis; left out, half the pitch.

    >>> from math import degrees, pi, radians, tan
    >>> round(degrees(helicoid(1 / (pi * tan(radians(5))), 1, 1, radians(14.5)).lead_angle), 6)
    5.0
    """
    pitch_diameter, pitch = (
        number_of("Pitch diameter", pitch_diameter, above=0),
        number_of("Pitch", pitch, above=0),
    )
    starts, half_rad = whole_of("Starts", starts, least=1), number_of("Half angle", half_rad, above=0)
    slope = pitch * starts / (pi * pitch_diameter)
    transverse = atan(tan(half_rad) / slope)
    base_helix = atan(cos(transverse) / slope)
    return Helicoid(
        pitch_diameter,
        starts,
        half_rad,
        atan(slope),
        transverse,
        pitch_diameter / 2 * cos(transverse),
        base_helix,
        pi / starts - (pitch / 2 if thickness is None else thickness) / (slope * pitch_diameter),
    )


def over_wires(screw: Helicoid, wire: float) -> float:
    """Measurement over three wires of diameter ``wire``.

    >>> from math import radians
    >>> round(over_wires(helicoid(4.75, 0.5, 2, radians(14.5), thickness=0.2454), 0.258), 3)
    5.056
    """
    return 2 * screw.base_radius / cos(_centre_angle(screw, wire)) + wire


def between_balls(nut: Helicoid, ball: float) -> float:
    """What lies between two balls of diameter ``ball`` in the grooves of a nut, whose thread is ``nut``.

    The nut's groove is the screw's thread: half its width at the pitch circle stands where the screw's groove has the
    other sign, and the ball lies on its inner side.

    >>> from math import radians
    >>> round(between_balls(helicoid(0.5549, 0.125, 1, radians(14.5)), 0.0645), 4)
    0.4738
    """
    return 2 * nut.base_radius / cos(_centre_angle(nut, ball, -1)) - ball


def contact_diameter(screw: Helicoid, wire: float) -> float:
    """Diameter at which the wire touches the flanks.

    >>> from math import pi, radians, tan
    >>> screw = helicoid(1 / (pi * tan(radians(5))), 1, 1, radians(14.5))
    >>> round(abs(contact_diameter(screw, best_wire(screw, 0.516)) - screw.pitch_diameter), 9)
    0.0
    """
    along = screw.base_radius * tan(_centre_angle(screw, wire)) - wire / 2 * cos(screw.base_helix)
    return 2 * hypot(screw.base_radius, along)


def best_wire(screw: Helicoid, first_guess: float) -> float:
    """The wire that touches at the pitch diameter, by secant steps from ``first_guess``.

    >>> from math import pi, radians, tan
    >>> screw = helicoid(1 / (pi * tan(radians(5))), 1, 1, radians(14.5))
    >>> round(best_wire(screw, 0.516), 5)
    0.5145
    """
    a, b = first_guess, first_guess * 0.99
    miss_a = contact_diameter(screw, a) - screw.pitch_diameter
    for _ in range(50):
        miss_b = contact_diameter(screw, b) - screw.pitch_diameter
        if abs(miss_b) < 1e-12 * screw.pitch_diameter or miss_a == miss_b:
            return b
        a, b, miss_a = b, b - miss_b * (b - a) / (miss_b - miss_a), miss_b
    return b


def _centre_angle(screw: Helicoid, wire: float, side: int = 1) -> float:
    """Pressure angle at the wire's centre, from its involute; ``side`` -1 for a ball in the nut's groove."""
    moved = wire / (2 * screw.base_radius * cos(screw.base_helix)) - screw.groove
    target = tan(screw.transverse) - screw.transverse + side * moved
    t = target + pi / 2
    for _ in range(60):
        step = (t - atan(t) - target) * (1 + t * t) / (t * t)
        t -= step
        if abs(step) < 1e-15 * max(1.0, t):
            break
    return atan(t)
