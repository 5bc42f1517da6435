"""What lies between two balls in the grooves of a nut, with and without the lead angle, both ways.

Simple rule: G = E + (P/2) cot a - w (1 + cosec a), with a half the included angle. It leaves the lead angle out. The
groove of a nut is the thread of its screw, so the exact rule is that of wires over a screw (``helicoid``) with groove
and ball of the other sign; it is used where wires use it: on Acme, trapezoidal and multiple-start threads, and wherever
the difference passes 0.00015 in.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import degrees, sin, tan

from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked, Working
from rebuild.trade.sizes.own_unit import both
from rebuild.trade.threads import helicoid, wires
from rebuild.trade.threads.designation import ThreadDesignation
from rebuild.trade.threads.form import form

SIMPLE = Source("two balls in the grooves of a nut", "G = E + (P/2) cot a - w (1 + cosec a)", Status.COMPUTED)
EXACT = Source("involute helicoid", "two balls in a nut, with the lead angle", Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class BallReading:
    """A nut's pitch diameter with the gap between two balls [mm].

    ``lead_correction_mm`` is how much smaller the gap is than the simple rule says; ``corrected`` tells whether it is
    in the figures.
    """

    pitch_diameter_mm: float
    gap_mm: float
    ball_mm: float
    lead_correction_mm: float
    corrected: bool

    @property
    def rule(self) -> str:
        """Which rule was used, in words."""
        return "with the lead angle" if self.corrected else "without the lead angle"


@door()
def between_balls(pitch_diameter_mm: float, ball_mm: float, thread: ThreadDesignation) -> BallReading:
    """What is read between two balls in a nut of this pitch diameter [mm].

    Raises:
        BadEntry, OutOfRange: as ``wires.over_wires``: a ball that does not suit the thread.

    >>> from rebuild.trade.threads.designation import parse_designation
    >>> found = between_balls(0.5549 * 25.4, 0.0645 * 25.4, parse_designation("5/8-8 ACME"))
    >>> round(found.gap_mm / 25.4, 4), found.rule
    (0.4738, 'with the lead angle')
    """
    _refuse(ball_mm, thread)
    return _between(pitch_diameter_mm, ball_mm, thread)


def pitch_diameter_between(gap_mm: float, ball_mm: float, thread: ThreadDesignation) -> Worked[BallReading]:
    """The pitch diameter of a nut [mm] from the gap between two balls; errors as ``between_balls``.

    >>> from rebuild.trade.threads.designation import parse_designation
    >>> nut = parse_designation("5/8-8 ACME")
    >>> gap = between_balls(14.1, 1.64, nut).gap_mm
    >>> round(pitch_diameter_between(gap, 1.64, nut).value.pitch_diameter_mm, 9)
    14.1
    """
    _refuse(ball_mm, thread)
    E = gap_mm + _rise(ball_mm, thread)
    found = _between(E, ball_mm, thread)
    for _ in range(50):
        miss = found.gap_mm - gap_mm
        if abs(miss) < 1e-11:
            break
        E -= miss
        found = _between(E, ball_mm, thread)
    return Worked(found, _working(found, thread))


def _between(E: float, w: float, thread: ThreadDesignation) -> BallReading:
    half = form(thread.system).half_rad
    plain = E - _rise(w, thread)
    exact = helicoid.between_balls(helicoid.helicoid(E, thread.pitch_mm, thread.starts, half), w)
    less = plain - exact
    corrected = wires.always_exact(form(thread.system), thread.starts) or less > wires.NEGLIGIBLE_MM
    return BallReading(E, exact if corrected else plain, w, less, corrected)


def _rise(w: float, thread: ThreadDesignation) -> float:
    half = form(thread.system).half_rad
    return w * (1 + 1 / sin(half)) - thread.pitch_mm / 2 / tan(half)


def _refuse(ball_mm: float, thread: ThreadDesignation) -> None:
    # What does not suit the screw's groove does not suit its nut's: they are the same groove.
    wires.over_wires(thread.system, thread.nominal_mm, thread.pitch_mm, ball_mm, thread.starts)


def _working(found: BallReading, thread: ThreadDesignation) -> Working:
    half = form(thread.system).included_deg / 2
    sheet = Sheet("Pitch diameter from the gap between two pins or balls")
    sheet.read("gap G", both(found.gap_mm, 4))
    sheet.read("pin or ball w", both(found.ball_mm, 4))
    rule = f"w (1 + cosec {half:g}°) - (P/2) cot {half:g}°"
    sheet.equation("simple rule E - G", f"{rule} = {both(_rise(found.ball_mm, thread), 4)}", SIMPLE)
    lead = degrees(helicoid.helicoid(found.pitch_diameter_mm, thread.pitch_mm, thread.starts, 1.0).lead_angle)
    text = f"{lead:.2f}° brings them nearer the axis: the gap is {both(found.lead_correction_mm, 4)} smaller"
    if found.corrected:
        sheet.equation("lead angle", f"{text}; included", EXACT)
    else:
        sheet.note(f"The lead angle of {text}; left out, as is usual.", SIMPLE)
    sheet.note("A straight pin must be short: a long one rides on its ends in the hollow groove.", SIMPLE)
    sheet.result("pitch diameter E", both(found.pitch_diameter_mm, 4))
    return sheet.close()
