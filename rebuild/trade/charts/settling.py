"""Has the bed settled? Level readings over days: how far it moved lately, and where an exponential is heading.

A floor and a bed on fresh pads creep toward rest, so y = c + a·exp(-t/τ) is fitted by least squares: for a given τ
the line in exp(-t/τ) is exact, and τ is found by narrowing a bracket. No rule says how many days are enough; what
counts as still is the owner's, and is shown as such.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from rebuild.errors import BadEntry
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import number_of, numbers_of

CREEP = Source("creep toward rest", "y = c + a·exp(-t/τ), least squares", Status.COMPUTED)
STILL = Source("what counts as still", "less than this in the window", Status.JUDGEMENT)
#: The movement in the window that still counts as none [µm/m]: half of a common level's division of 0.02 mm/m.
STILL_UM_PER_M = 10.0
WINDOW_DAYS = 3.0
LEAST_FOR_CURVE = 4
_GOLDEN = (math.sqrt(5.0) - 1.0) / 2.0


class Rest(StrEnum):
    """Whether the bed lies still."""

    TOO_FEW = "too few readings"
    MOVING = "not settled yet"
    SETTLED = "settled"


def slope_text(um_per_m: float, unit: str = "mm", *, sign: bool = False) -> str:
    """A slope for people: mm/m, or in/ft where the machine is in inches; two figures.

    >>> slope_text(20), slope_text(41.667, "in")
    ('0.02 mm/m', '0.0005 in/ft')
    """
    um_per_m = number_of("Slope", um_per_m)
    value, per = (um_per_m * 12e-6, "in/ft") if unit == "in" else (um_per_m / 1000.0, "mm/m")
    return f"{value:+.2g} {per}" if sign else f"{value:.2g} {per}"


@dataclass(frozen=True, slots=True)
class Curve:
    """y = ``end`` + ``start`` · exp(-t/``tau_days``), with t in days from the first reading; slopes in µm/m."""

    end: float
    start: float
    tau_days: float
    rms: float

    def at(self, days: float) -> float:
        """The slope expected so many days after the first reading [µm/m]."""
        return self.end + self.start * math.exp(-days / self.tau_days)


@dataclass(frozen=True, slots=True)
class Settling:
    """What the readings say. ``moved`` is over ``over_days``, the last part of the series [µm/m]."""

    rest: Rest
    moved: float
    over_days: float
    curve: Curve | None
    still_to_come: float | None
    text: str


def settling(
    days: Sequence[float],
    slopes_um_per_m: Sequence[float],
    *,
    still_um_per_m: float = STILL_UM_PER_M,
    window_days: float = WINDOW_DAYS,
    unit: str = "mm",
) -> Worked[Settling]:
    """Judge a series read at one place since the last adjustment.

    Args:
        days: when each was read, days from any start, rising.
        slopes_um_per_m: the readings [µm/m].
        still_um_per_m: movement in the window that counts as none [µm/m].
        window_days: the last part of the series that is looked at [days].
        unit: mm or in, of the sentence.

    Raises:
        BadEntry: readings out of order, or as many days as readings are not given.

    >>> settling([0, 1, 4], [60, 30, 10]).value.text
    'not settled yet: moved 0.02 mm/m in the last 3 days'
    """
    days, slopes_um_per_m = numbers_of("Day", days), numbers_of("Level reading", slopes_um_per_m)
    still_um_per_m, window_days = (
        number_of("Still", still_um_per_m),
        number_of("Window", window_days, above=0),
    )
    _refuse(days, slopes_um_per_m)
    sheet = Sheet("Settling of the level")
    sheet.read("readings", f"{len(days)} since the last adjustment")
    if len(days) < 2 or days[-1] - days[0] < window_days:
        span = days[-1] - days[0] if days else 0.0
        text = f"too few readings to say: {_days(span)} seen, {_days(window_days)} wanted"
        moved = slopes_um_per_m[-1] - slopes_um_per_m[0] if len(days) > 1 else 0.0
        sheet.result("", text)
        return Worked(Settling(Rest.TOO_FEW, moved, span, None, None, text), sheet.close())
    moved, over = _moved_lately(days, slopes_um_per_m, window_days)
    sheet.equation("moved lately", f"{moved:+.1f} µm/m in {_days(over)}")
    sheet.read("counts as still", f"{still_um_per_m:g} µm/m in {_days(window_days)}", STILL)
    curve = fit_creep(days, slopes_um_per_m)
    to_come = None
    if curve is not None:
        to_come = curve.end - curve.at(days[-1] - days[0])
        sheet.equation(
            "curve",
            f"{curve.end:.1f} {curve.start:+.1f}·exp(-t/{curve.tau_days:.2g} d), rms {curve.rms:.1f} µm/m",
            CREEP,
        )
        sheet.equation("still to come", f"{to_come:+.1f} µm/m")
    moving = abs(moved) > still_um_per_m or (to_come is not None and abs(to_come) > still_um_per_m)
    text = _sentence(moving, moved, over, to_come, unit)
    sheet.result("", text)
    found = Settling(Rest.MOVING if moving else Rest.SETTLED, moved, over, curve, to_come, text)
    return Worked(found, sheet.close())


def _refuse(days: Sequence[float], slopes: Sequence[float]) -> None:
    if len(days) != len(slopes):
        raise BadEntry(
            f"has {len(slopes)} readings on {len(days)} days.",
            where="Levelling",
            way_out="Give one time to each.",
        )
    for at, (one, two) in enumerate(pairwise(days)):
        if two < one:
            raise BadEntry(
                "was read before the one above it.",
                where=f"Level reading {at + 2}",
                way_out="Put them in order of time.",
            )


def _moved_lately(days: Sequence[float], slopes: Sequence[float], window: float) -> tuple[float, float]:
    """Movement from the newest reading at least ``window`` days old to the last one."""
    start = max((at for at in range(len(days) - 1) if days[-1] - days[at] >= window - 1e-6), default=0)
    return slopes[-1] - slopes[start], days[-1] - days[start]


def _sentence(moving: bool, moved: float, over: float, to_come: float | None, unit: str) -> str:
    movement = f"moved {slope_text(abs(moved), unit)} in the last {_days(over)}"
    if not moving:
        return f"settled: {movement}"
    more = ""
    if to_come is not None and abs(to_come) >= 1:
        more = f"; about {slope_text(abs(to_come), unit)} still to come"
    return f"not settled yet: {movement}{more}"


def _days(days: float) -> str:
    if days < 1.0:
        return f"{days * 24:.0f} h"
    return f"{days:.0f} day{'s' if round(days) != 1 else ''}"


def fit_creep(times: Sequence[float], values: Sequence[float]) -> Curve | None:
    """The exponential through a series; None with fewer than four readings or none that beats a level line.

    ``times`` may be days or minutes; ``tau_days`` is then in the same unit.

    >>> curve = fit_creep(range(6), [10 + 40 * math.exp(-day / 2) for day in range(6)])
    >>> round(curve.end, 3), round(curve.start, 3), round(curve.tau_days, 3)
    (10.0, 40.0, 2.0)
    """
    times, values = numbers_of("Time", times), numbers_of("Value", values)
    if len(times) < LEAST_FOR_CURVE or times[-1] - times[0] <= 0:
        return None
    start = times[0]
    since = [time - start for time in times]
    span = since[-1]

    def misfit(log_tau: float) -> float:
        return _line_in(since, values, math.exp(log_tau))[2]

    low, high = math.log(span / 50.0), math.log(span * 5.0)
    steps = 40
    best = min(range(steps + 1), key=lambda at: misfit(low + (high - low) * at / steps))
    step = (high - low) / steps
    log_tau = _narrow(misfit, low + step * max(best - 1, 0), low + step * min(best + 1, steps))
    end, amount, squares = _line_in(since, values, math.exp(log_tau))
    mean = math.fsum(values) / len(values)
    flat = math.fsum((value - mean) ** 2 for value in values)
    if flat <= 0 or squares > 0.5 * flat:
        return None
    return Curve(end, amount, math.exp(log_tau), math.sqrt(squares / len(values)))


def _line_in(since: Sequence[float], values: Sequence[float], tau: float) -> tuple[float, float, float]:
    """Least squares of c + a·exp(-t/τ) for one τ: c, a and the sum of squares left."""
    decay = [math.exp(-time / tau) for time in since]
    n = len(values)
    mean_x, mean_y = math.fsum(decay) / n, math.fsum(values) / n
    spread = math.fsum((x - mean_x) ** 2 for x in decay)
    if spread <= 0:
        return mean_y, 0.0, math.fsum((y - mean_y) ** 2 for y in values)
    amount = math.fsum((x - mean_x) * (y - mean_y) for x, y in zip(decay, values, strict=True)) / spread
    end = mean_y - amount * mean_x
    left = math.fsum((y - end - amount * x) ** 2 for x, y in zip(decay, values, strict=True))
    return end, amount, left


def _narrow(misfit: Callable[[float], float], low: float, high: float) -> float:
    """The least of a function between two points (golden section)."""
    for _ in range(60):
        left, right = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
        if misfit(left) < misfit(right):
            high = right
        else:
            low = left
    return (low + high) / 2.0


@dataclass(frozen=True, slots=True)
class Twist:
    """Cross level at two ends: ``twist_um_per_m`` is the last less the first, ``per_m`` over a metre of bed."""

    first: str
    last: str
    twist_um_per_m: float
    per_m_um_per_m: float | None
    text: str


def twist_of_ends(ends: Sequence[tuple[str, float | None, float]], unit: str = "mm") -> Worked[Twist]:
    """The twist from cross-level readings ``(place, distance along [mm], slope [µm/m])`` of one round.

    Raises:
        BadEntry: fewer than two places read.

    >>> twist_of_ends([("headstock end", 0, 20), ("tailstock end", 1000, -20)]).value.text
    'twist 0.04 mm/m from headstock end to tailstock end (0.04 mm/m in each metre)'
    """
    if len(ends) < 2:
        only = f" Only {ends[0][0]} is read." if ends else ""
        raise BadEntry(
            f"needs the cross level at both ends.{only}",
            where="Twist",
            way_out="Read the level across at the other end.",
        )
    numbers_of("Cross level", [end[2] for end in ends])
    numbers_of("Distance along", [end[1] for end in ends if end[1] is not None])
    placed = list(ends)
    if all(end[1] is not None for end in ends):
        placed.sort(key=lambda end: end[1] or 0.0)
    first, last = placed[0], placed[-1]
    twist = last[2] - first[2]
    sheet = Sheet("Twist from end to end")
    sheet.equation("cross level, last less first", f"{last[2]:+.1f} - ({first[2]:+.1f}) = {twist:+.1f} µm/m")
    per_m, more = None, ""
    if first[1] is not None and last[1] is not None and last[1] > first[1]:
        length = (last[1] - first[1]) / 1000.0
        per_m = twist / length
        more = f" ({slope_text(abs(per_m), unit)} in each metre)"
        sheet.equation("in each metre", f"{twist:+.1f} / {length:.3g} m = {per_m:+.1f} µm/m")
    sheet.note(
        "The level need not read zero: the purpose is to take the twist out, not to make the machine horizontal."
    )
    text = f"twist {slope_text(abs(twist), unit)} from {first[0]} to {last[0]}{more}"
    return Worked(Twist(first[0], last[0], twist, per_m, text), sheet.close())
