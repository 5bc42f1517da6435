"""From step readings of a level or autocollimator to heights along a line.

n readings give n + 1 heights: each reading is the slope of one bridge length, so the bridge length must equal the
step. An autocollimator is taken to read the angle of the mirror (most are scaled so); one that reads the beam shows
twice the angle. Units: 1 arcsec = 4.8481 µm/m; 0.0005 in/ft = 41.667 µm/m.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from rebuild.errors import BadEntry
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked

ARCSEC_UM_PER_M = math.radians(1 / 3600) * 1e6
INTEGRATE = Source("geometry of steps", "heights are the running sum of slope x step", Status.COMPUTED)


class SlopeUnit(StrEnum):
    """What a level's or autocollimator's figure means."""

    ARCSEC = "arcsec"
    ARCSEC_BEAM = "arcsec of the beam"
    UM_PER_M = "µm/m"
    MM_PER_M = "mm/m"
    IN_PER_FT = "in/ft"
    DIVISIONS = "divisions"


_UM_PER_M = {
    SlopeUnit.ARCSEC: ARCSEC_UM_PER_M,
    SlopeUnit.ARCSEC_BEAM: ARCSEC_UM_PER_M / 2,
    SlopeUnit.UM_PER_M: 1.0,
    SlopeUnit.MM_PER_M: 1000.0,
    SlopeUnit.IN_PER_FT: 1e6 / 12,
}


@door()
def slope_um_per_m(reading: float, unit: SlopeUnit, division_um_per_m: float | None = None) -> float:
    """A reading as slope [µm/m]; ``divisions`` need the value of one division.

    Raises:
        BadEntry: divisions without their value.

    >>> round(slope_um_per_m(0.0005, SlopeUnit.IN_PER_FT), 3)
    41.667
    """
    if unit is SlopeUnit.DIVISIONS:
        if division_um_per_m is None or division_um_per_m <= 0:
            raise BadEntry(
                "is not given.",
                where="Value of one division",
                way_out="Type what the level is marked with.",
            )
        return reading * division_um_per_m
    return reading * _UM_PER_M[unit]


@dataclass(frozen=True, slots=True)
class Heights:
    """Heights [mm] at stations ``at_mm`` along a line, with their standard uncertainty when known."""

    at_mm: tuple[float, ...]
    height_mm: tuple[float, ...]
    u_mm: tuple[float, ...] = ()


@door()
def heights_of(slopes_um_per_m: Sequence[float], step_mm: float) -> Worked[Heights]:
    """Heights from slopes of equal steps, the first at zero.

    Args:
        slopes_um_per_m: one a step, in order along the line [µm/m].
        step_mm: bridge length, which is the step [mm].

    Raises:
        BadEntry: no readings, or a step that is not positive.

    >>> heights_of([10, 20], 100).value.height_mm
    (0.0, 0.001, 0.003)
    """
    if not slopes_um_per_m:
        raise BadEntry("holds no readings.", where="Line", way_out="Enter one reading for each step.")
    if not step_mm > 0:
        raise BadEntry(
            "is not a length.", where="Step", value=f"{step_mm:g}", way_out="Type the bridge length."
        )
    heights = [0.0]
    for slope in slopes_um_per_m:
        heights.append(heights[-1] + slope * step_mm * 1e-6)
    sheet = Sheet("Heights from steps")
    sheet.read("readings", f"{len(slopes_um_per_m)} of {step_mm:g} mm steps, so {len(heights)} stations")
    sheet.equation("height", "h(i+1) = h(i) + slope(i)·step", INTEGRATE)
    sheet.result("last station against the first", f"{heights[-1] * 1000:+.2f} µm")
    at = tuple(step_mm * index for index in range(len(heights)))
    return Worked(Heights(at, tuple(round(height, 12) for height in heights)), sheet.close())


@dataclass(frozen=True, slots=True)
class TwoWay:
    """A line run there and back: mean slopes, the closure, and the standard uncertainty of one slope."""

    slopes_um_per_m: tuple[float, ...]
    closure_um: float
    u_slope_um_per_m: float


@door()
def there_and_back(
    there: Sequence[float],
    back: Sequence[float],
    step_mm: float,
    allowed_um: float | None = None,
    *,
    unit: SlopeUnit = SlopeUnit.UM_PER_M,
    division_um_per_m: float | None = None,
) -> Worked[TwoWay]:
    """The mean of two runs of one line; ``back`` is in the order of ``there`` and of the same sign.

    The slopes are in µm/m; ``unit`` (and ``division_um_per_m``) is what they were read in, for what is said of them.

    Raises:
        BadEntry: the runs differ in length, a run seems reversed, or the closure is beyond ``allowed_um``.

    >>> found = there_and_back([10, 20], [12, 18], 100).value
    >>> found.slopes_um_per_m, found.closure_um
    ((11.0, 19.0), 0.0)
    """
    if len(there) != len(back):
        raise BadEntry(
            f"has {len(back)} readings, the way there {len(there)}.",
            where="Way back",
            way_out="Enter one reading a step in both runs; nothing is left out for you.",
        )
    apart = [a - b for a, b in zip(there, back, strict=True)]
    closure = sum(apart) * step_mm * 1e-3
    sheet = Sheet("Two runs of one line")
    sheet.equation("closure", f"Σ(there - back)·step = {closure:+.2f} µm")
    if allowed_um is not None and abs(closure) > allowed_um:
        worst = max(range(len(apart)), key=lambda at: abs(apart[at]))
        one = slope_um_per_m(1.0, unit, division_um_per_m)
        raise BadEntry(
            f"is beyond {_small(allowed_um, unit)}; the runs differ most at step {worst + 1}: "
            f"{_apart(there[worst] / one, back[worst] / one, unit)}.",
            where="Closure",
            value=_small(closure, unit, sign="+"),
            way_out="Run that step again, or the whole line.",
        )
    spread = math.sqrt(sum(value * value for value in apart) / (2 * len(apart)))
    sheet.equation("spread of one reading", f"√(Σd²/2n) = {spread:.2f} µm/m")
    mean = tuple((a + b) / 2 for a, b in zip(there, back, strict=True))
    return Worked(TwoWay(mean, closure, spread / math.sqrt(2)), sheet.close())


def _small(um: float, unit: SlopeUnit, sign: str = "") -> str:
    """A small height in the system the slopes were read in."""
    if unit is SlopeUnit.IN_PER_FT:
        return f"{um / 25400:{sign}.4f} in"
    return f"{um:{sign}.2f} µm" if sign else f"{um:g} µm"


def _apart(there: float, back: float, unit: SlopeUnit) -> str:
    """Two readings of one step as they were read; those that differ by their sign alone are asked about."""
    mirrored = there * back < 0 and abs(there + back) <= 0.1 * abs(there)
    asked = ": the same size, opposite sign: a sign?" if mirrored else ""
    return f"{there:.6g} against {back:.6g} {unit}{asked}"


@door()
def with_uncertainty(heights: Heights, u_slope_um_per_m: float) -> Heights:
    """Standard uncertainty of each height about the line through both ends, from that of one slope.

    The running sum of independent steps tied at both ends has variance u²·step²·i(n - i)/n at station i.

    >>> flat = heights_of([0, 0, 0, 0], 100).value
    >>> [round(u, 9) for u in with_uncertainty(flat, 1.0).u_mm]  # 0.1 µm a step; √(2·2/4) = 1 in the middle
    [0.0, 8.6603e-05, 0.0001, 8.6603e-05, 0.0]
    """
    steps = len(heights.at_mm) - 1
    step = heights.at_mm[1] - heights.at_mm[0]
    u = u_slope_um_per_m * step * 1e-6
    found = tuple(u * math.sqrt(at * (steps - at) / steps) for at in range(steps + 1))
    return Heights(heights.at_mm, heights.height_mm, found)
