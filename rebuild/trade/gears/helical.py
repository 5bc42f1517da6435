"""Helical gears: blank, lead, centres, cutter for the virtual teeth, size over balls; which helix a worn one has.

With normal module mn, helix β at the pitch circle and normal pressure angle αn: mt = mn / cos β, d = z mt,
tan αt = tan αn / cos β, lead π d / tan β, virtual teeth z / cos³ β. Over balls of diameter D:
inv φ = inv αt + D / (mn z cos αn) - π / (2 z) + 2 x tan αn / z, M = d cos αt / cos φ (× cos(90°/z), odd) + D.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, atan, cos, degrees, pi, radians, sin, tan

from rebuild.errors import OutOfRange
from rebuild.trade.gears.blank import cutter_number
from rebuild.trade.gears.involute import inv, inverse_inv
from rebuild.trade.gears.pitches import Pitch
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, said

RULE = Source("Geometry of helical gears", "normal and transverse sections", Status.COMPUTED)
BALLS = Source("Involute geometry", "balls against an involute helicoid", Status.COMPUTED)
CUTTER = Source("Form cutters of helical gears", "by the virtual teeth z / cos³ β", Status.COMMON_PRACTICE)
BALL_MODULES = 1.728
LEAST_TEETH, MOST_TEETH, MOST_HELIX = 6, 1000, 60.0


@dataclass(frozen=True, slots=True)
class HelicalGear:
    """A helical gear's sizes [mm, deg]."""

    pitch_diameter_mm: float
    outside_mm: float
    lead_mm: float
    transverse_angle_deg: float
    base_diameter_mm: float
    virtual_teeth: float
    cutter: int
    over_balls_mm: float
    ball_mm: float


@door()
def helical_gear(
    teeth: int,
    pitch: Pitch,
    helix_deg: float,
    pressure_deg: float,
    shift: float = 0.0,
    ball_mm: float | None = None,
) -> Worked[HelicalGear]:
    """A helical gear from its normal pitch.

    Args:
        teeth: number of teeth.
        pitch: normal pitch, that of the cutter.
        helix_deg: helix angle at the pitch circle.
        pressure_deg: normal pressure angle.
        shift: profile shift in normal modules.
        ball_mm: ball to measure over; 1.728 normal modules unless given.

    Raises:
        OutOfRange: outside what is worked here, or a ball that does not touch the flanks.

    >>> from rebuild.trade.gears.pitches import read_pitch
    >>> found = helical_gear(20, read_pitch("module 2"), 30.0, 20.0).value
    >>> round(found.pitch_diameter_mm, 4), round(found.lead_mm, 3), round(found.virtual_teeth, 1)
    (46.188, 251.327, 30.8)
    """
    _check(teeth, helix_deg, pressure_deg, shift)
    beta, alpha_n, m = radians(helix_deg), radians(pressure_deg), pitch.module_mm
    d = teeth * m / cos(beta)
    alpha_t = atan(tan(alpha_n) / cos(beta))
    base = d * cos(alpha_t)
    virtual = teeth / cos(beta) ** 3
    ball = BALL_MODULES * m if ball_mm is None else ball_mm
    M, phi = _over_balls(teeth, m, d, base, alpha_t, alpha_n, shift, ball)
    outside = d + 2 * m * (1 + shift)
    cutter = cutter_number(round(virtual), pitch.kind) if virtual >= 12 and not shift else 0
    lead = pi * d / tan(beta)
    sheet = Sheet(f"Helical gear of {teeth} teeth, normal {pitch.name}, {helix_deg:g}°")
    sheet.equation("pitch diameter", f"{teeth} × {num(m):.5g} / cos {helix_deg:g}° = {both(d, 4)}", RULE)
    sheet.equation("outside", f"{num(d):.4f} + 2 × {num(m):.5g} × (1 + {shift:g}) = {both(outside, 4)}", RULE)
    sheet.equation("lead", f"π × {num(d):.4f} / tan {helix_deg:g}° = {both(lead)}", RULE)
    sheet.equation(
        "transverse angle",
        f"atan(tan {pressure_deg:g}° / cos {helix_deg:g}°) = {degrees(alpha_t):.4f}°",
        RULE,
    )
    sheet.equation(
        "virtual teeth",
        f"{teeth} / cos³ {helix_deg:g}° = {virtual:.2f}" + (f": cutter number {cutter}" if cutter else ""),
        CUTTER,
    )
    sheet.equation("over balls", f"{both(ball)}: φ = {degrees(phi):.4f}°, M = {both(M, 4)}", BALLS)
    if teeth % 2:
        sheet.note("Odd teeth: take balls; two straight pins rock in the helix and read otherwise.")
    return Worked(
        HelicalGear(d, outside, lead, degrees(alpha_t), base, virtual, cutter, M, ball), sheet.close()
    )


@door()
def helix_for_centres(teeth: int, mate_teeth: int, pitch: Pitch, centres_mm: float) -> Worked[float]:
    """The helix angle [deg] of two helical gears on parallel shafts from their centres: cos β = mn (z1 + z2) / 2 C.

    Raises:
        OutOfRange: centres shorter than spur gears of this pitch have, or a helix above 60°.

    >>> from rebuild.trade.gears.pitches import read_pitch
    >>> round(helix_for_centres(20, 40, read_pitch("module 2"), 69.282).value, 3)
    30.0
    """
    spur = pitch.module_mm * (teeth + mate_teeth) / 2
    if teeth < LEAST_TEETH or mate_teeth < LEAST_TEETH or teeth + mate_teeth > 2 * MOST_TEETH:
        raise OutOfRange(
            f"are outside {LEAST_TEETH} to {MOST_TEETH} each.",
            where="Teeth",
            value=f"{teeth} and {mate_teeth}",
        )
    if not spur * (1 + 1e-9) <= centres_mm <= spur / cos(radians(MOST_HELIX)) or centres_mm <= 0:
        raise OutOfRange(
            f"are outside {said(spur)} (spur) to {said(spur / cos(radians(MOST_HELIX)))} (60° helix).",
            where="Centres",
            value=said(centres_mm),
            way_out="Check the normal pitch, or profile shift was used.",
        )
    beta = degrees(acos(min(spur / centres_mm, 1.0)))
    sheet = Sheet("Helix angle from the centres")
    sheet.equation(
        "cos β",
        f"{num(pitch.module_mm):.5g} × ({teeth} + {mate_teeth}) / (2 × {num(centres_mm):.6g}) = "
        f"{spur / centres_mm:.6f}",
        RULE,
    )
    sheet.result("helix", f"{beta:.4f}°")
    return Worked(beta, sheet.close())


def _over_balls(
    teeth: int, m: float, d: float, base: float, alpha_t: float, alpha_n: float, shift: float, ball: float
) -> tuple[float, float]:
    if not 0 < ball < 5 * m:
        raise OutOfRange(
            "is not a ball for this pitch.",
            where="Ball",
            value=said(ball, 4),
            way_out=f"Take about {said(BALL_MODULES * m)}.",
        )
    value = (
        inv(alpha_t) + ball / (m * teeth * cos(alpha_n)) - pi / (2 * teeth) + 2 * shift * tan(alpha_n) / teeth
    )
    if value <= 0:
        raise OutOfRange(
            "falls inside the base circle.",
            where="Ball",
            value=said(ball, 4),
            way_out=f"Take about {said(BALL_MODULES * m)}.",
        )
    phi = inverse_inv(value)
    odd = cos(pi / (2 * teeth)) if teeth % 2 else 1.0
    # Touch: along the base tangent the ball's centre lies base/2 tan φ out; its contact D/2 cos βb nearer.
    beta_b = _base_helix(m, d, alpha_t, alpha_n, teeth)
    touch = tan(phi) * base / 2 - ball / 2 * cos(beta_b)
    radius = ((base / 2) ** 2 + max(touch, 0.0) ** 2) ** 0.5
    if touch <= 0 or radius > d / 2 + m * (1 + shift):
        raise OutOfRange(
            "does not touch the flanks between base circle and tip.",
            where="Ball",
            value=said(ball, 4),
            way_out=f"Take about {said(BALL_MODULES * m)}.",
        )
    return base / cos(phi) * odd + ball, phi


def _base_helix(m: float, d: float, alpha_t: float, alpha_n: float, teeth: int) -> float:
    """sin βb = sin β cos αn."""
    beta = acos(min(teeth * m / d, 1.0))
    sine = sin(beta) * cos(alpha_n)
    return atan(sine / (1 - sine * sine) ** 0.5) if alpha_t else 0.0


def _check(teeth: int, helix_deg: float, pressure_deg: float, shift: float) -> None:
    for where, value, low, high, unit in (
        ("Teeth", teeth, LEAST_TEETH, MOST_TEETH, ""),
        ("Helix angle", helix_deg, 0.1, MOST_HELIX, "°"),
        ("Normal pressure angle", pressure_deg, 10.0, 30.0, "°"),
        ("Profile shift", shift, -1.0, 1.5, ""),
    ):
        if not low <= value <= high:
            raise OutOfRange(f"is outside {low:g} to {high:g}{unit}.", where=where, value=f"{value:g}{unit}")
