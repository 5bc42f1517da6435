"""Errors over a length: a leadscrew against a length standard, a dial against an indicator.

A leadscrew's errors at stations split into what grows evenly (the lead itself is off: a slope, fitted by least squares)
and what is left (worn or drunken thread). What counts for a thread of a given length is the worst change over it.
A dial's errors over one turn split into what grows evenly (its divisions do not fit the screw) and a wave of one turn
(the dial is eccentric, or the screw's collar wobbles): e = m + r sin(θ + φ), fitted by least squares.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, isfinite, pi, sin

from rebuild.errors import BadEntry
from rebuild.trade.geometry.straightness import least_squares_line
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.show import show_both

FITTED = Source("least squares", "even growth taken out of the errors", Status.COMPUTED)
SPAN = Source("largest less smallest within the length", status=Status.COMPUTED)
WAVE = Source("least squares", "one wave a turn, readings evenly round", Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class LeadError:
    """Whole error, worst change over ``over_mm`` and its begin, even growth per ``over_mm``, what is left [mm]."""

    whole_mm: float
    worst_mm: float
    worst_from_mm: float
    even_mm: float
    left_mm: float
    over_mm: float
    left_at_mm: tuple[float, ...]


@door()
def lead_error(
    at_mm: Sequence[float], error_mm: Sequence[float], over_mm: float = 300.0
) -> Worked[LeadError]:
    """How far the carriage goes wrong over a length.

    Args:
        at_mm: stations along the screw, rising.
        error_mm: how much too far the carriage has gone at each (negative: not far enough).
        over_mm: the length a change is counted over.

    Raises:
        BadEntry: fewer than three stations, stations that do not rise, or a length not above zero.

    >>> found = lead_error([0, 100, 200, 300], [0.0, 0.01, 0.02, 0.03]).value
    >>> round(found.worst_mm, 4), round(found.even_mm, 4), round(found.left_mm, 6)
    (0.03, 0.03, 0.0)
    """
    _check(at_mm, error_mm, over_mm)
    slope, start = least_squares_line(at_mm, error_mm)
    left = tuple(error - start - slope * at for at, error in zip(at_mm, error_mm, strict=True))
    worst, begins = _worst(at_mm, error_mm, over_mm)
    found = LeadError(
        max(error_mm) - min(error_mm), worst, begins, slope * over_mm, max(left) - min(left), over_mm, left
    )
    sheet = Sheet("Error of a leadscrew over its length")
    sheet.read("stations", f"{len(at_mm)} over {at_mm[-1] - at_mm[0]:g} mm")
    sheet.equation("whole", f"largest - smallest = {found.whole_mm * 1000:.1f} µm", SPAN)
    sheet.equation(f"worst over {over_mm:g} mm", f"{worst * 1000:.1f} µm, from {begins:g} mm on", SPAN)
    sheet.equation(
        "even growth", f"{slope * 1e6:+.2f} µm/m, {found.even_mm * 1000:+.2f} µm in {over_mm:g} mm", FITTED
    )
    sheet.equation("left without it", f"{found.left_mm * 1000:.1f} µm", FITTED)
    sheet.note(
        "Even growth can be gearing, temperature or a stretched screw; a hump near the headstock is wear."
    )
    sheet.result(f"over {over_mm:g} mm", show_both(worst, "mm", 4))
    return Worked(found, sheet.close())


def _worst(at: Sequence[float], error: Sequence[float], over: float) -> tuple[float, float]:
    """The largest change within ``over``, and the station its length begins at."""
    best = (0.0, at[0])
    for first, here in enumerate(at):
        within = [
            value for place, value in zip(at, error, strict=True) if here <= place <= here + over + 1e-9
        ]
        change = max(abs(value - error[first]) for value in within)
        if change > best[0]:
            best = (change, here)
    return best


@dataclass(frozen=True, slots=True)
class DialError:
    """Whole error over a turn, worst between neighbouring marks, even growth over a turn, the wave's half height [mm]
    and where on the dial it is highest [°]."""

    whole_mm: float
    worst_step_mm: float
    even_mm: float
    wave_mm: float
    highest_deg: float
    left_mm: float


@door()
def dial_error(error_mm: Sequence[float]) -> Worked[DialError]:
    """What is wrong with a dial, from errors at marks evenly round one turn, the first again at the end.

    Args:
        error_mm: indicator less dial at each mark, in the order they are turned to.

    Raises:
        BadEntry: fewer than five readings.

    >>> from math import sin, pi
    >>> found = dial_error([0.01 * sin(2 * pi * at / 8) for at in range(9)]).value
    >>> round(found.wave_mm, 6), round(found.highest_deg, 3), abs(round(found.even_mm, 6))
    (0.01, 90.0, 0.0)
    """
    if len(error_mm) < 5:
        raise BadEntry(
            f"has {len(error_mm)} readings; five or more are needed.",
            where="Dial",
            way_out="Read at evenly spaced marks round one turn, and the first again at the end.",
        )
    count = len(error_mm) - 1
    even = error_mm[-1] - error_mm[0]
    flat = [value - error_mm[0] - even * at / count for at, value in enumerate(error_mm)][:-1]
    turn = [2 * pi * at / count for at in range(count)]
    s = 2 / count * sum(value * sin(angle) for value, angle in zip(flat, turn, strict=True))
    c = 2 / count * sum(value * cos(angle) for value, angle in zip(flat, turn, strict=True))
    wave, high = hypot(s, c), degrees(atan2(s, c)) % 360
    mean = sum(flat) / count
    left = [value - mean - s * sin(a) - c * cos(a) for value, a in zip(flat, turn, strict=True)]
    steps = [abs(b - a) for a, b in itertools.pairwise(error_mm)]
    found = DialError(max(error_mm) - min(error_mm), max(steps), even, wave, high, max(left) - min(left))
    sheet = Sheet("Graduations of a dial over one turn")
    sheet.read("marks", f"{count} round the dial, the first read again")
    sheet.equation("whole", f"largest - smallest = {found.whole_mm * 1000:.1f} µm", SPAN)
    sheet.equation("mark to mark", f"at most {max(steps) * 1000:.1f} µm", SPAN)
    sheet.equation(
        "over a turn", f"last - first = {even * 1000:+.1f} µm: screw and divisions do not fit by it", SPAN
    )
    sheet.equation("wave of a turn", f"± {wave * 1000:.1f} µm, highest at {high:.0f}°", WAVE)
    sheet.equation("left", f"{found.left_mm * 1000:.1f} µm: marks, and reading them", WAVE)
    sheet.note("Turn one way only: lost motion is no error of the dial. A wave: dial or collar runs out.")
    sheet.result("dial", f"within {show_both(found.whole_mm, 'mm', 4)} over a turn")
    return Worked(found, sheet.close())


def _check(at: Sequence[float], error: Sequence[float], over: float) -> None:
    if len(at) < 3 or len(at) != len(error):
        raise BadEntry(
            f"has {len(error)} errors at {len(at)} stations; three or more are needed.",
            where="Leadscrew",
            way_out="Read at more stations along the screw.",
        )
    if any(not b > a for a, b in itertools.pairwise(at)):
        raise BadEntry("do not rise.", where="Stations", way_out="Put them in order along the screw.")
    if not (isfinite(over) and over > 0):
        raise BadEntry("is not above zero.", where="Over", value=f"{over:g} mm", way_out="300 mm is usual.")
